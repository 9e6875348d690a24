"""A whole provenance text read into periods, and the answer of `catalogue read provenance`."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.provenance.clauses import read_period
from catalogue.provenance.periods import Note, Period, Provenance
from catalogue.provenance.printing import print_provenance
from catalogue.provenance.splitting import split_notes, split_periods

__all__ = ["answer_provenance", "parse_provenance"]

_DOUBTFUL_ORDER = ("party", "relation", "place", "seller_agent", "transfer_place", "begins", "ends")


def parse_provenance(text: str) -> Provenance:
    """Return the periods, notes and cautions of a text, whatever it says; nothing is refused.

    A semicolon after a period makes its passage to the next direct, a point does not.
    """
    paragraph, notes = split_notes(text)
    pieces = split_periods(paragraph)
    periods: list[Period] = []
    cautions: list[str] = []
    for place, piece in enumerate(pieces):
        direct = piece.closing == ";" if place < len(pieces) - 1 else None
        period, warnings = read_period(piece.text, direct)
        periods.append(period)
        cautions.extend(warnings)
    if not pieces:
        cautions.append("No period of ownership is written here.")
    cautions.extend(_note_cautions(periods, notes))
    ending = pieces[-1].closing if pieces else ""
    return Provenance(tuple(periods), notes, tuple(cautions), ending)


def _note_cautions(periods: list[Period], notes: tuple[Note, ...]) -> Iterator[str]:
    """Name markers without an entry, once there are entries, and entries without a marker."""
    written = [note.marker for note in notes if note.marker]
    used = [marker for period in periods for marker in period.notes]
    if written:
        for marker in dict.fromkeys(used):
            if marker not in written:
                yield f"[{marker}] has no entry among the notes."
    for marker in dict.fromkeys(written):
        if marker not in used:
            yield f"The note [{marker}] belongs to no period."
        if used.count(marker) > 1:
            yield f"The note [{marker}] serves {used.count(marker)} periods; give each its own."


def answer_provenance(text: str) -> dict[str, object]:
    """Return what `catalogue read provenance` answers to one text, ready for JSON."""
    provenance = parse_provenance(text)
    entries = {note.marker: note.text for note in provenance.notes if note.marker}
    return {
        "text": text,
        "periods": [_answer_period(period, entries) for period in provenance.periods],
        "printed": print_provenance(provenance),
        "cautions": list(provenance.cautions),
    }


def _answer_period(period: Period, entries: dict[str, str]) -> dict[str, object]:
    """Return the fields of one period; notes are markers, with their text where it is given."""
    doubts = period.all_doubts
    return {
        "party": period.party,
        "life": period.life or None,
        "method": period.method or None,
        "place": period.place or None,
        "begins": list(period.begins),
        "ends": list(period.ends),
        "possibly": period.possibly,
        "doubtful": [name for name in _DOUBTFUL_ORDER if name in doubts],
        "direct_transfer": period.direct_transfer,
        "notes": [
            f"{marker}: {entries[marker]}" if entries.get(marker) else marker
            for marker in period.notes
        ],
        "text": period.text,
    }
