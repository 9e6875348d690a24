"""Phases of making: one quilt, several dates, each with its makers, places and evidence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from catalogue.dating.clues import ClueReading
from catalogue.values.dates import UNDATED, HistoricDate


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase of making: what was done ("blocks", "set and quilted"), when, by whom and where."""

    done: str
    date: HistoricDate = UNDATED
    makers: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    readings: tuple[ClueReading, ...] = ()


def headline(phases: Sequence[Phase]) -> str:
    """The dates of a quilt in one line: "blocks 1890s, set and quilted 1978".

    Phases stand in the order of their dates, undated ones last; those of one date are told
    together. A single phase is told by its date alone; of none, "undated".
    """
    dated = sorted(phases, key=_in_time)
    if not dated or all(phase.date.edtf == UNDATED.edtf for phase in dated):
        return UNDATED.says
    together = [
        (_joined([phase.done for phase in same if phase.done]), _when(same[0].date))
        for same in (list(group) for _, group in groupby(dated, key=lambda p: p.date.edtf))
    ]
    if len(together) == 1:
        return together[0][1]
    return ", ".join(f"{done} {when}".strip() for done, when in together)


def _in_time(phase: Phase) -> tuple[bool, int, int]:
    """Dated before undated; by the first year known, then by the last."""
    first, last = phase.date.earliest_year, phase.date.latest_year
    known = [year for year in (first, last) if year is not None]
    return not known, min(known, default=0), max(known, default=0)


def _when(date: HistoricDate) -> str:
    """The date as it stands behind what was done: "1890s", not "the 1890s"."""
    return date.says.removeprefix("the ")


def _joined(words: Sequence[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
