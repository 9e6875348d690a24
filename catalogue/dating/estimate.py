"""The date that the clues of one phase of making allow: a chance for every year, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.dating.clues import Clue, ClueReading
from catalogue.dating.contradictions import contradictions
from catalogue.dating.posterior import Span, Weights, middle_year, share_within, shortest_span
from catalogue.dating.shapes import FIRST_YEAR, LAST_YEAR, curve
from catalogue.values.date_policy import DEFAULT_POLICY, DatePolicy
from catalogue.values.dates import UNDATED, HistoricDate, read_edtf

_ALL_BUT_SURE = 0.75
"""Probability from which a single year is proposed without a question mark (house rule)."""


@dataclass(frozen=True, slots=True)
class Pull:
    """What one clue does: the half span that the others give without it, and the years it moves.

    `years` counts from the middle without it to the middle with it, positive towards our time.
    """

    reading: ClueReading
    without: Span | None
    years: int
    says: str


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A reading that does not count, and why."""

    reading: ClueReading
    why: str


@dataclass(frozen=True, slots=True)
class DateEstimate:
    """The estimate for one phase.

    `chances` holds the probability of each year from `first_year` on and sums to 1, or is all
    zero where no year fits; `half` and `ninety` are the shortest spans that hold 50 % and 90 % of
    it (None where no year fits or nothing is known). `proposed` is a date to accept or not,
    `certainty` the probability that its bounds hold the making. `pulls` (one for every clue that
    counts), `left_out`, `contradictions` and `grounds` tell why.
    """

    first_year: int
    chances: tuple[float, ...]
    half: Span | None
    ninety: Span | None
    proposed: HistoricDate
    certainty: float
    pulls: tuple[Pull, ...]
    left_out: tuple[LeftOut, ...]
    contradictions: tuple[str, ...]
    grounds: tuple[str, ...]


def estimate(
    readings: Sequence[ClueReading],
    *,
    known_by: int | None = None,
    policy: DatePolicy = DEFAULT_POLICY,
) -> DateEstimate:
    """Weigh the clues of one phase year by year.

    `known_by` is the year in which the work is known to have been there (this year where None):
    nothing after it is possible. Repairs, replaced parts and what is not there are left out;
    nothing comes before the newest clue that is surely there and original.
    """
    last = min(known_by or date.today().year, LAST_YEAR)
    used = [reading for reading in readings if not _why_left_out(reading)]
    curves = [curve(reading.effective, reading.sure) for reading in used]
    weights = Weights.of(curves)
    chances = weights.chances(last)
    half = shortest_span(chances, 0.5) if used else None
    proposed = read_edtf(_proposal(used, chances, half, policy), policy)
    return DateEstimate(
        first_year=FIRST_YEAR,
        chances=chances,
        half=half,
        ninety=shortest_span(chances, 0.9) if used else None,
        proposed=proposed,
        certainty=_certainty(chances, proposed),
        pulls=tuple(
            _pull(reading, half, chances, weights.without(one).chances(last), alone=len(used) == 1)
            for reading, one in zip(used, curves, strict=True)
        ),
        left_out=tuple(LeftOut(r, why) for r in readings if (why := _why_left_out(r))),
        contradictions=contradictions(used, known_by),
        grounds=_grounds(used, known_by),
    )


def _why_left_out(reading: ClueReading) -> str:
    if reading.role == "repair":
        return "it belongs to a repair"
    if reading.role == "replacement":
        return "the part was replaced"
    if reading.sure == 0:
        return "it is not present or not original"
    return "it says nothing about the date" if reading.clue.force == "says nothing" else ""


def _proposal(
    used: Sequence[ClueReading], chances: Sequence[float], half: Span | None, policy: DatePolicy
) -> str:
    """The EDTF that the half span amounts to: a year, about a year, a range, or a beginning."""
    if half is None or not used:
        return UNDATED.edtf
    if all(reading.effective.peak_end is None for reading in used):
        begins = [r.clue.begins for r in used if r.clue.begins is not None]
        return f"{max(begins)}/.." if begins else UNDATED.edtf
    years = half.last - half.first + 1
    if years == 1:
        sure = chances[half.first - FIRST_YEAR] >= _ALL_BUT_SURE
        return f"{half.first}" if sure else f"{half.first}?"
    if years <= 2 * policy.about_years + 1:
        return f"{(half.first + half.last) // 2}~"
    return f"{half.first}~/{half.last}~"


def _certainty(chances: Sequence[float], proposed: HistoricDate) -> float:
    if proposed.edtf == UNDATED.edtf:
        return 0.0
    return share_within(chances, proposed.earliest_year, proposed.latest_year)


def _pull(
    reading: ClueReading,
    half: Span | None,
    chances: Sequence[float],
    others: Sequence[float],
    alone: bool,
) -> Pull:
    name = reading.clue.short
    if alone:
        return Pull(reading, None, 0, f"Without the {name}, nothing is known.")
    without = shortest_span(others, 0.5)
    if without is None:
        return Pull(reading, None, 0, f"Without the {name}, the others still fit no year.")
    if half is None:
        return Pull(reading, without, 0, f"Without the {name}, {without}.")
    years = middle_year(chances) - middle_year(others)
    gives = f"{without} instead of {half}" if without != half else f"{half} as with it"
    return Pull(reading, without, years, f"Without the {name}, {gives}.")


def _grounds(used: Sequence[ClueReading], known_by: int | None) -> tuple[str, ...]:
    """What each clue speaks for, with its source."""
    if not used:
        return ("No clue speaks of a date yet.",)
    grounds = [f"{_sentence_case(r.clue.short)}: {clue_words(r.effective)}." for r in used]
    if known_by is not None:
        grounds.append(f"Known by {known_by}: nothing after it is possible.")
    return tuple(grounds)


def clue_words(clue: Clue) -> str:
    """The years of a clue and its source in words: "possible from 1955, usual from 1965 on"."""
    told = []
    if clue.earliest is not None:
        verb = "possible" if clue.force == "earliest possible" else "known"
        told.append(f"{verb} from {clue.earliest}")
    if clue.reproduced:
        told.append("made again since")
    elif clue.peak_from is not None:
        told.append(_usual(clue))
    if clue.latest is not None and not clue.reproduced:
        told.append(f"until {clue.latest}")
    source = f" ({clue.source})" if clue.source else ""
    return (", ".join(told) or "no years of its own") + source


def _usual(clue: Clue) -> str:
    if clue.peak_to is None:
        return f"usual from {clue.peak_from} on"
    if clue.peak_from == clue.peak_to:
        return f"{clue.peak_from}"
    return f"usual {clue.peak_from} to {clue.peak_to}"


def _sentence_case(words: str) -> str:
    return words[:1].upper() + words[1:]
