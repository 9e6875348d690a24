"""Storage tags, and the label to be sewn on the back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from catalogue.collection.handling import takes_two
from catalogue.collection.records import Quilt
from catalogue.collection.summary import chief_photograph, headline_date
from catalogue.printing.entries import Entry
from catalogue.printing.facts import makers_in_lines
from catalogue.printing.pictures import Pictures

TAG_SIZES = {"4.5x2.5": (4.5, 2.5)}
BACK_LABEL_SIZES = {"5x4": (5.0, 4.0)}


def tag_item(entry: Entry, pictures: Pictures) -> dict[str, Any]:
    """Return one storage tag as its template takes it."""
    quilt = entry.quilt
    return {
        "accession": entry.accession,
        "title": quilt.title,
        "warnings": list(handling_warnings(quilt)),
        "proof": entry.proof,
        **pictures.photograph(chief_photograph(quilt), "list", quilt.title),
        **pictures.code(quilt, entry.house),
    }


def handling_warnings(quilt: Quilt) -> Iterator[str]:
    """Yield how to handle the quilt: what everybody does, and what its last report asks for."""
    report = quilt.conditions[-1] if quilt.conditions else None
    if report is not None and report.hazard in ("suspected", "tested: present"):
        yield f"Dyes or pesticides {report.hazard}: gloves, no food, ask a conservator."
    if report is not None and report.grade in ("poor", "fragile"):
        yield f"Condition {report.grade}: move it flat or rolled, and ask first."
    if takes_two(quilt):
        yield "Two people."
    yield "Clean hands, no pins, no ink near it."


def back_label_item(entry: Entry, _: Pictures) -> dict[str, Any]:
    """Return one back label as its template takes it: who, when, where and the number."""
    quilt = entry.quilt
    places = "; ".join(dict.fromkeys(phase.place for phase in quilt.phases if phase.place))
    words = [makers_in_lines(quilt, entry.related), headline_date(quilt), places, entry.house.name]
    return {
        "title": quilt.title,
        "words": [part for part in words if part],
        "accession": entry.accession,
        "proof": entry.proof,
    }
