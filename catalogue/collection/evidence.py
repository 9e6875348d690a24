"""Dating evidence on record: the clues ticked on a phase, and the date that they allow."""

from __future__ import annotations

import dataclasses

from catalogue.collection.records import Phase, PhaseClue, Quilt
from catalogue.dating.clues import (
    SURENESS,
    Clue,
    ClueReading,
    clue_table,
    document,
    inscription,
    memory,
)
from catalogue.dating.estimate import DateEstimate, estimate
from catalogue.values.date_policy import DatePolicy
from catalogue.values.dates import HistoricDate

# Clues that bring their own years and stand in no table.
TOLD = {"inscription": inscription, "document": document, "memory": memory}
TOLD_IN_WORDS = {
    "inscription": "a date on the quilt or its label",
    "document": "a letter, receipt or diary",
    "memory": "what the family remembers",
}


def estimated(phase: Phase, quilt: Quilt, policy: DatePolicy) -> DateEstimate | None:
    """Return the date that the clues of a phase allow, None where none is ticked.

    What was received in a year was there by then: nothing later is possible, repairs apart.
    """
    if not phase.clues:
        return None
    readings = [_reading(clue) for clue in phase.clues]
    known_by = quilt.received.latest_year if quilt.received is not None else None
    return estimate(
        readings, known_by=None if phase.kind == "repaired" else known_by, policy=policy
    )


def with_date(quilt: Quilt, phase: int, date: HistoricDate) -> tuple[Phase, ...]:
    """Return the quilt's phases with one dated as proposed, in the proposal's own words."""
    written = dataclasses.replace(date, written=date.says)
    return tuple(
        dataclasses.replace(each, date=written) if each.id == phase else each
        for each in quilt.phases
    )


def needs_years(clue: PhaseClue) -> bool:
    """True for a clue that says nothing without years of its own."""
    if clue.clue in TOLD:
        return True
    known = clue_table().get(clue.clue)
    return known is not None and known.force != "says nothing" and known.begins is None


def _reading(ticked: PhaseClue) -> ClueReading:
    role = ticked.role if ticked.role in ("repair", "replacement") else "original"
    return ClueReading(
        _clue(ticked),
        SURENESS[ticked.present],
        SURENESS[ticked.original],
        role,  # type: ignore[arg-type]
    )


def _clue(ticked: PhaseClue) -> Clue:
    first = ticked.first_year
    if ticked.clue in TOLD:
        assert first is not None, "the form asks for the years of what is told"
        return TOLD[ticked.clue](first, ticked.last_year)
    known = clue_table()[ticked.clue]
    return known if first is None else known.of_year(first, ticked.last_year)
