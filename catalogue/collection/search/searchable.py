"""The words by which a quilt is found, field by field, composed from the record.

What anybody may search is made from what a visitor may see of the record. What only members see is
composed apart from it and lies in a part of the index of its own, which a visitor's search never
opens; only whether a quilt is published has to be asked.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import cache

from catalogue.collection.privacy import VISITOR, Reader, quilt_for, related_for
from catalogue.collection.records import OwnershipPeriod, Party, Pattern, Printing, Quilt
from catalogue.collection.related import Related
from catalogue.patterns.naming import name_key
from catalogue.patterns.thesaurus import Design, UnknownDesignError, design, designs

# The names by which a searcher can ask for one field, in the order in which extracts are shown.
FIELDS = (
    "title",
    "number",
    "maker",
    "pattern",
    "source",
    "place",
    "date",
    "cloth",
    "colour",
    "technique",
    "label",
    "description",
    "history",
    "ownership",
)
# Fields that members search besides, as far as they see what these are made from. Here, maker is
# other names of living makers, and ownership is that of owners who are not named to visitors.
_MADE_FROM = {
    "maker": ("Party of the living", "names"),
    "donor": ("Quilt", "donor"),
    "location": ("Quilt", "locations"),
    "condition": ("Quilt", "conditions"),
    "restrictions": ("Quilt", "restrictions"),
    "ownership": ("Quilt", "ownership"),
}
MEMBERS_FIELDS = tuple(_MADE_FROM)


def fields_seen(reader: Reader) -> frozenset[str]:
    """Return those of `MEMBERS_FIELDS` in which this reader may search; a visitor in none."""
    if reader.is_visitor:
        return frozenset()
    return frozenset(name for name, (kind, field) in _MADE_FROM.items() if reader.sees(kind, field))


@dataclass(frozen=True)
class Texts:
    """What a quilt is found by: texts by field for anybody, and those for members alone."""

    public: dict[str, str]
    members: dict[str, str]

    @property
    def digest(self) -> str:
        """A short fingerprint of what the index should hold."""
        content = json.dumps([self.public, self.members], ensure_ascii=False, sort_keys=True)
        return hashlib.sha256(content.encode()).hexdigest()[:32]


def searchable_texts(quilts: Iterable[Quilt], related: Related) -> Iterator[Texts]:
    """Yield what each quilt is found by, in the order given."""
    for_visitors = related_for(VISITOR, related)
    for quilt in quilts:
        shown = quilt_for(VISITOR, quilt, related)
        yield Texts(_public(shown, for_visitors), _for_members(quilt, shown, related))


def _public(quilt: Quilt, related: Related) -> dict[str, str]:
    patterns = related.patterns_of(quilt)
    return {
        "title": _join(quilt.title, quilt.object_type),
        "number": _join(quilt.accession, *(earlier.number for earlier in quilt.earlier_numbers)),
        "maker": _join(*(_names(party) for party in related.makers_of(quilt))),
        "pattern": _join(*(_pattern_names(pattern) for pattern in patterns)),
        "source": _join(*_sources(quilt, related)),
        "place": _join(*(phase.place for phase in quilt.phases)),
        "date": _join(*(f"{p.kind} {p.date.says}" for p in quilt.phases if p.date is not None)),
        "cloth": _join(*(_join(m.part, m.fibre, m.note) for m in quilt.materials)),
        "colour": _join(*(m.colours for m in quilt.materials), *_seen_colours(quilt)),
        "technique": _technique(quilt),
        "label": _join(*(_join(i.text, i.note) for i in quilt.inscriptions)),
        "description": _join(
            quilt.description,
            quilt.distinguishing_features,
            quilt.subject,
            *(_join(block.label, block.note) for block in quilt.blocks),
        ),
        "history": _join(quilt.history, *(phase.note for phase in quilt.phases)),
        "ownership": _join(*(_owned(period) for period in quilt.ownership)),
    }


def _for_members(quilt: Quilt, shown: Quilt, related: Related) -> dict[str, str]:
    donor = related.parties.get(quilt.donor) if quilt.donor is not None else None
    living = [party for party in related.makers_of(quilt) if party.living]
    withheld = [
        _owned(period)
        for period, visible in zip(quilt.ownership, shown.ownership, strict=True)
        if period != visible
    ]
    return {
        "maker": _join(*(name.name for party in living for name in party.names)),
        "donor": donor.name if donor is not None else "",
        "location": _join(*(_join(kept.place, kept.note) for kept in quilt.locations)),
        "condition": _join(*(_join(c.grade, c.text, c.hazard_note) for c in quilt.conditions)),
        "restrictions": quilt.restrictions,
        "ownership": _join(*withheld),
    }


def _seen_colours(quilt: Quilt) -> Iterable[str]:
    """Return the names of the colours that photographs of the whole quilt show."""
    overall = (photo for photo in quilt.photographs if photo.view == "overall")
    return dict.fromkeys(f"{c.name} ({c.plain})" for photo in overall for c in photo.colours)


def _owned(period: OwnershipPeriod) -> str:
    return _join(period.party, period.place)


def _technique(quilt: Quilt) -> str:
    return _join(
        *(_join(each.name, each.worked, each.note) for each in quilt.techniques),
        quilt.setting_seen if quilt.setting_seen != "none" else "",
        quilt.quilting_design,
        quilt.quilting_worked,
        quilt.edge_finish,
    )


def _names(party: Party) -> str:
    return _join(party.name, *(name.name for name in party.names))


def _pattern_names(pattern: Pattern) -> str:
    written = (pattern.name, *(name.name for name in pattern.names))
    printed = (printing.name_as_printed for printing in pattern.printings)
    return _join(*dict.fromkeys((*written, *printed, *_traditional_names(pattern))))


def _traditional_names(pattern: Pattern) -> tuple[str, ...]:
    """Return every name of the design that the record names, or whose name it bears alone."""
    with suppress(UnknownDesignError):
        return design(pattern.design).names if pattern.design else _names_beside(pattern.name)
    return ()


def _names_beside(name: str) -> tuple[str, ...]:
    bearers = _bearers().get(name_key(name), ())
    return bearers[0].names if len(bearers) == 1 else ()


@cache
def _bearers() -> dict[str, list[Design]]:
    """Return by the key of each name the designs that bear it."""
    found: dict[str, list[Design]] = {}
    for each in designs():
        for key in {name_key(name) for name in each.names}:
            found.setdefault(key, []).append(each)
    return found


def _sources(quilt: Quilt, related: Related) -> Iterable[str]:
    for block in quilt.blocks:
        printing = related.printing(block.printing)
        if printing is not None:
            yield _source(printing, related)


def _source(printing: Printing, related: Related) -> str:
    publication = related.publications[printing.publication]
    return _join(
        publication.name,
        publication.publisher,
        printing.name_as_printed,
        printing.designer_as_printed,
        f"number {printing.number}" if printing.number else "",
    )


def _join(*parts: str) -> str:
    return " \N{MIDDLE DOT} ".join(part for part in parts if part)
