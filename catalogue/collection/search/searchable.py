"""The words by which a quilt is found: its public text, field by field, composed from the record.

Nothing private is in here: the text is made from what a visitor may see of the record. So the index
can be searched for anybody, and only whether a quilt is published has to be asked.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator

from catalogue.collection.privacy import quilt_for_visitors, related_for_visitors
from catalogue.collection.records import Party, Pattern, Printing, Quilt
from catalogue.collection.related import Related
from catalogue.patterns.thesaurus import design

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
    "technique",
    "label",
    "description",
    "history",
    "ownership",
)


def searchable_texts(quilts: Iterable[Quilt], related: Related) -> Iterator[dict[str, str]]:
    """Yield the public text of each field of `FIELDS`, quilt by quilt, in the order given."""
    public = related_for_visitors(related)
    for quilt in quilts:
        yield _text(quilt_for_visitors(quilt, related), public)


def _text(quilt: Quilt, related: Related) -> dict[str, str]:
    patterns = related.patterns_of(quilt)
    return {
        "title": _join(quilt.title, quilt.object_type),
        "number": _join(quilt.accession, *(earlier.number for earlier in quilt.earlier_numbers)),
        "maker": _join(*(_names(party) for party in related.makers_of(quilt))),
        "pattern": _join(*(_pattern_names(pattern) for pattern in patterns)),
        "source": _join(*_sources(quilt, related)),
        "place": _join(*(phase.place for phase in quilt.phases)),
        "date": _join(*(f"{p.kind} {p.date.says}" for p in quilt.phases if p.date is not None)),
        "cloth": _join(*(_join(m.part, m.fibre, m.colours, m.note) for m in quilt.materials)),
        "technique": _technique(quilt),
        "label": _join(*(_join(i.text, i.note) for i in quilt.inscriptions)),
        "description": _join(
            quilt.description,
            quilt.distinguishing_features,
            quilt.subject,
            *(_join(block.label, block.note) for block in quilt.blocks),
        ),
        "history": _join(quilt.history, *(phase.note for phase in quilt.phases)),
        "ownership": _join(*(_join(o.party, o.place) for o in quilt.ownership)),
    }


def digest(quilt: Quilt, text: dict[str, str]) -> str:
    """Return a short fingerprint of what the index should hold of a quilt."""
    content = json.dumps([quilt.id, text], ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(content.encode()).hexdigest()[:32]


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
    return _join(
        pattern.name,
        *(name.name for name in pattern.names),
        *(printing.name_as_printed for printing in pattern.printings),
        *(design(pattern.design).names if pattern.design else ()),
    )


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
