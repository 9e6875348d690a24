"""What a visitor may see: one table of what is private, and records with it taken out.

Pages for visitors are made from records that have passed through here, so that a template cannot
show by mistake what it never receives.
"""

from __future__ import annotations

import dataclasses
from typing import Any, TypeVar

from catalogue.collection.records import Party, Quilt
from catalogue.collection.related import Related

Visible = TypeVar("Visible", Quilt, Party)

# Fields that only members see, by kind of record. Everything else is public once published.
PRIVATE: dict[type, frozenset[str]] = {
    Quilt: frozenset(
        {
            "donor",
            "came_by",
            "received",
            "restrictions",
            "insurance_value",
            "insurance_note",
            "conditions",
            "locations",
            "decisions",
        }
    ),
    Party: frozenset({"contacts"}),
}
# Of a living person a visitor learns the name, and only as a maker.
PRIVATE_OF_THE_LIVING = frozenset({"born", "died", "place", "biography", "names", "ties"})

WITHHELD = "Name withheld"


def quilt_for_visitors(quilt: Quilt, related: Related) -> Quilt:
    """Return the quilt without private fields and without the names of living owners."""
    living = {id for id, party in related.parties.items() if party.living}
    ownership = tuple(
        dataclasses.replace(period, party=WITHHELD, person=None, life="", place="", note="")
        if period.person in living
        else period
        for period in quilt.ownership
    )
    readings = tuple(dataclasses.replace(reading, by="") for reading in quilt.readings)
    return dataclasses.replace(_emptied(quilt), ownership=ownership, readings=readings)


def party_for_visitors(party: Party) -> Party:
    """Return the party without contacts and, where the person lives, with the name alone."""
    emptied = _emptied(party)
    if not party.living:
        return emptied
    return dataclasses.replace(emptied, **_defaults(Party, PRIVATE_OF_THE_LIVING))


def related_for_visitors(related: Related) -> Related:
    """Return the related records with their private fields taken out."""
    parties = {id: party_for_visitors(party) for id, party in related.parties.items()}
    return dataclasses.replace(related, parties=parties)


def _emptied(record: Visible) -> Visible:
    """Return the record with its private fields as they are in an empty record."""
    return dataclasses.replace(record, **_defaults(type(record), PRIVATE[type(record)]))


def _defaults(kind: type[Any], names: frozenset[str]) -> dict[str, Any]:
    """Return what these fields hold in an empty record of this kind."""
    return {field.name: field.default for field in dataclasses.fields(kind) if field.name in names}
