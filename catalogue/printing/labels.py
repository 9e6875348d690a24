"""Exhibit labels: the tombstone text in the house's wording, and a short text beside it."""

from __future__ import annotations

from typing import Any, cast

from catalogue.collection.measuring import overall_size
from catalogue.collection.ownership import life_of
from catalogue.collection.records import Quilt
from catalogue.collection.related import Related
from catalogue.collection.summary import chief_photograph
from catalogue.collection.vocabulary import NOT_DATING
from catalogue.exhibits.tombstone import TombstoneFacts, TombstoneLine, tombstone
from catalogue.exhibits.wording import Certainty, Maker
from catalogue.printing.entries import Entry
from catalogue.printing.facts import technique_words
from catalogue.printing.pictures import Pictures

# One to a sheet of Letter or A4: at 24 point tombstone text and 75 words need that much, and a line
# of that width holds about 45 characters.
LABEL_SIZES = {"7.5x10": (7.5, 10.0)}


def label_item(entry: Entry, _: Pictures) -> dict[str, Any]:
    """Return one label as its template takes it."""
    return {
        "lines": [
            {"kind": line.kind, "text": line.text}
            for line in tombstone_lines(entry.quilt, entry.related)
        ],
        "text": entry.label_text,
        "place": entry.number,
        "proof": entry.proof,
    }


def tombstone_lines(quilt: Quilt, related: Related) -> tuple[TombstoneLine, ...]:
    """Return the tombstone text: title, maker, place and date, materials, size, credit, number."""
    size = overall_size(quilt)
    lender = ""
    if quilt.came_by == "loan" and quilt.donor is not None:
        lender = related.parties[quilt.donor].name
    chief = chief_photograph(quilt)
    dated = [phase for phase in quilt.phases if phase.kind not in NOT_DATING]
    facts = TombstoneFacts(
        title=quilt.title,
        makers=_makers(quilt, related),
        places=tuple(phase.place for phase in dated),
        phases=tuple((phase.kind, phase.date) for phase in dated if phase.date is not None),
        materials=tuple(m.fibre for m in quilt.materials if m.part == "top" and m.fibre),
        techniques=tuple(technique_words(quilt)),
        length=size.length if size is not None else None,
        width=size.width if size is not None else None,
        credit_line=quilt.credit_line,
        lender=lender,
        accession=quilt.accession,
        picture_credit=chief.photographer if chief is not None else "",
    )
    return tombstone(facts)


def _makers(quilt: Quilt, related: Related) -> tuple[Maker, ...]:
    """Return the makers, by their work where the phases had different hands."""
    found = [
        (related.parties[maker.party], phase.kind, maker.certainty)
        for phase in quilt.phases
        for maker in phase.makers
        if phase.kind not in NOT_DATING
    ]
    alone = len({party.id for party, _, _ in found}) == 1
    makers = [
        Maker(
            party.name,
            life_of(party) if party.kind == "person" else None,
            "" if alone else work,
            cast(Certainty, certainty),
        )
        for party, work, certainty in found
    ]
    return tuple(dict.fromkeys(makers))[:1] if alone else tuple(dict.fromkeys(makers))
