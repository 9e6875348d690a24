"""Dates in one record that cannot all be true."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.collection.records import Party, Phase, Quilt
from catalogue.collection.related import Related
from catalogue.values.dates import HistoricDate


def contradictions(quilt: Quilt, related: Related) -> Iterator[str]:
    """Yield a sentence for each pair of dates of which at least one must be wrong.

    Only certain contradictions: bounds that overlap at all are left alone.
    """
    for phase in quilt.phases:
        yield from _against_arrival(phase, quilt.received)
        for maker in phase.makers:
            yield from _against_life(phase, related.parties[maker.party])
    for period in quilt.ownership:
        if _before(period.ends_latest, period.begins_earliest):
            yield (
                f"{period.party} gave it up by {period.ends_latest}, before having it"
                f" from {period.begins_earliest} on."
            )


def _against_arrival(phase: Phase, received: HistoricDate | None) -> Iterator[str]:
    if phase.kind == "repaired" or phase.date is None or received is None:
        return
    if _before(received.latest, phase.date.earliest):
        yield f"It was received {received.says}, before it was {phase.kind} ({phase.date.says})."


def _against_life(phase: Phase, maker: Party) -> Iterator[str]:
    if phase.date is None or maker.kind != "person":
        return
    if maker.born is not None and _before(phase.date.latest, maker.born.earliest):
        yield (
            f"{maker.name}, born {maker.born.says}, cannot have {phase.kind} it {phase.date.says}."
        )
    if maker.died is not None and _before(maker.died.latest, phase.date.earliest):
        yield (
            f"{maker.name}, who died {maker.died.says}, cannot have {phase.kind} it"
            f" {phase.date.says}."
        )


def _before(day: str | None, other: str | None) -> bool:
    """True where both days are known and the first comes first; ISO days sort as text."""
    return bool(day) and bool(other) and str(day) < str(other)
