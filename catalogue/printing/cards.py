"""The catalogue card: the whole record on an index card."""

from __future__ import annotations

from typing import Any

from catalogue.collection.summary import chief_photograph
from catalogue.printing.entries import Entry
from catalogue.printing.facts import facts_of
from catalogue.printing.pictures import Pictures

# Width and height in inches: two sizes of index card (common practice, no source).
CARD_SIZES = {"6x4": (6.0, 4.0), "5x3": (5.0, 3.0)}


def card_item(entry: Entry, pictures: Pictures) -> dict[str, Any]:
    """Return one card as its template takes it."""
    quilt = entry.quilt
    return {
        "accession": entry.accession,
        "title": quilt.title,
        "facts": facts_of(quilt, entry.related),
        "foot": f"Record {quilt.id}, revision {quilt.revision}",
        "proof": entry.proof,
        **pictures.photograph(chief_photograph(quilt), "page", quilt.title),
        **pictures.drawing(quilt),
        **pictures.code(quilt, entry.house),
    }
