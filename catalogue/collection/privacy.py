"""Who sees which field: one table, and records with what their reader may not see taken out.

Pages are made from records that have passed through here, so that a template cannot show by mistake
what it never receives.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal, TypeVar

from catalogue.collection.records import OwnershipPeriod, Party, Quilt, RelatedItem
from catalogue.collection.related import Related

Level = Literal["public", "members", "private"]
Visible = TypeVar("Visible", Quilt, Party, RelatedItem)

# Every field that is not public once its record is published, by kind of record and name. Members
# are all who have an account; what is private, historians and the keeper see. The keeper may move a
# field between the two; nothing in this table becomes public.
LEVELS: Mapping[tuple[str, str], Level] = MappingProxyType(
    {
        ("Quilt", "donor"): "private",
        ("Quilt", "insurance_value"): "private",
        ("Quilt", "insurance_note"): "private",
        ("Quilt", "locations"): "private",
        ("Quilt", "came_by"): "members",
        ("Quilt", "received"): "members",
        ("Quilt", "restrictions"): "members",
        ("Quilt", "conditions"): "members",
        ("Quilt", "decisions"): "members",
        ("RelatedItem", "kept"): "private",
        ("Party", "contacts"): "private",
        # of a living person; a visitor learns the name alone, and only of a maker
        ("Party of the living", "born"): "private",
        ("Party of the living", "died"): "private",
        ("Party of the living", "place"): "private",
        ("Party of the living", "biography"): "private",
        ("Party of the living", "names"): "private",
        ("Party of the living", "ties"): "private",
    }
)
_OF_THE_LIVING = "Party of the living"

# The roles that see each level.
_SEEN_BY: dict[Level, frozenset[str]] = {
    "public": frozenset({"visitor", "volunteer", "historian", "keeper"}),
    "members": frozenset({"volunteer", "historian", "keeper"}),
    "private": frozenset({"historian", "keeper"}),
}

WITHHELD = "Name withheld"


@dataclass(frozen=True)
class Reader:
    """Whoever asks: a role, or a visitor, and the levels of this collection."""

    role: str = "visitor"
    levels: Mapping[tuple[str, str], Level] = field(default_factory=lambda: LEVELS)

    @property
    def is_visitor(self) -> bool:
        """True without an account."""
        return self.role == "visitor"

    def sees(self, kind: str, name: str) -> bool:
        """Say whether this reader sees a field of a kind of record."""
        return self.role in _SEEN_BY[self.levels.get((kind, name), "public")]

    def hidden_fields(self, record: object) -> frozenset[str]:
        """Return the fields of a record that this reader does not see."""
        kinds = [type(record).__name__]
        if isinstance(record, Party) and record.living:
            kinds.append(_OF_THE_LIVING)
        return frozenset(
            name for kind, name in self.levels if kind in kinds and not self.sees(kind, name)
        )


VISITOR = Reader()


def quilt_for(reader: Reader, quilt: Quilt, related: Related) -> Quilt:
    """Return the quilt as its reader may see it; visitors do not learn of living owners."""
    seen = _seen(reader, quilt)
    if not reader.is_visitor:
        return seen
    living = {id for id, party in related.parties.items() if party.living}
    ownership = tuple(
        _nameless(period) if period.person in living else period for period in quilt.ownership
    )
    readings = tuple(dataclasses.replace(reading, by="") for reading in quilt.readings)
    return dataclasses.replace(seen, ownership=ownership, readings=readings)


def _nameless(period: OwnershipPeriod) -> OwnershipPeriod:
    """Return a living owner's period with how and when the quilt passed, and nothing that names.

    What is left is listed, so that an element that joins the notation is left out until it is here.
    """
    kept = ("method", "dates", "possibly", "direct", "id")
    spans = ("begins_earliest", "begins_latest", "ends_earliest", "ends_latest")
    return OwnershipPeriod(WITHHELD, **{name: getattr(period, name) for name in (*kept, *spans)})


def party_for(reader: Reader, party: Party) -> Party:
    """Return the party as its reader may see it."""
    return _seen(reader, party)


def item_for(reader: Reader, item: RelatedItem) -> RelatedItem:
    """Return the piece of related material as its reader may see it."""
    return _seen(reader, item)


def related_for(reader: Reader, related: Related) -> Related:
    """Return the related records as their reader may see them."""
    parties = {id: party_for(reader, party) for id, party in related.parties.items()}
    return dataclasses.replace(related, parties=parties)


def _seen(reader: Reader, record: Visible) -> Visible:
    """Return the record with the fields its reader does not see as in an empty record."""
    hidden = reader.hidden_fields(record)
    if not hidden:
        return record
    empty: dict[str, Any] = {
        each.name: each.default for each in dataclasses.fields(record) if each.name in hidden
    }
    return dataclasses.replace(record, **empty)
