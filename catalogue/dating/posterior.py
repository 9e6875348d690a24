"""Clues weighed together: the probability of every year, and the spans that hold most of it.

The chances of the clues are multiplied year by year over a prior in which every year is as likely
as another. Materials and ways of working come from one scrap bag and one pair of hands, so the
fall after their years counts as that of the square root of their number (house rule).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import exp, sqrt
from operator import sub

from catalogue.dating.shapes import FIRST_YEAR, YEARS, Curve

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Span:
    """Years from first to last, both included."""

    first: int
    last: int

    def __str__(self) -> str:
        return str(self.first) if self.first == self.last else f"{self.first} to {self.last}"


@dataclass(frozen=True, slots=True)
class Weights:
    """The joint chance of several curves, from which single ones can be taken away again."""

    rise: tuple[float, ...]
    fall: tuple[float, ...]
    waning: int
    floors: tuple[int, ...]

    @classmethod
    def of(cls, curves: Sequence[Curve]) -> Weights:
        """The joint chance of these curves; of none, every year alike."""
        return cls(
            _summed([c.rise for c in curves]),
            _summed([c.fall for c in curves]),
            sum(c.wanes for c in curves),
            tuple(c.floor for c in curves if c.floor is not None),
        )

    def without(self, away: Curve) -> Weights:
        """The joint chance of the others."""
        floors = list(self.floors)
        if away.floor is not None:
            floors.remove(away.floor)
        return Weights(
            tuple(map(sub, self.rise, away.rise)),
            tuple(map(sub, self.fall, away.fall)),
            self.waning - away.wanes,
            tuple(floors),
        )

    def chances(self, last: int) -> tuple[float, ...]:
        """Probability of each of `YEARS` up to the last; all zero where none is possible."""
        first = max(FIRST_YEAR, *self.floors, FIRST_YEAR) - FIRST_YEAR
        stop = last - FIRST_YEAR + 1
        if first >= stop:
            return (0.0,) * len(YEARS)
        count = 1 / sqrt(self.waning or 1)
        joint = zip(self.rise[first:stop], self.fall[first:stop], strict=True)
        logs = [rise + count * fall for rise, fall in joint]
        best = max(logs)
        weights = [exp(log - best) for log in logs]
        total = sum(weights)
        shares = tuple(weight / total for weight in weights)
        return (0.0,) * first + shares + (0.0,) * (len(YEARS) - stop)


def _summed(logs: Sequence[tuple[float, ...]]) -> tuple[float, ...]:
    return tuple(map(sum, zip(*logs, strict=True))) if logs else (0.0,) * len(YEARS)


def shortest_span(chances: Sequence[float], share: float) -> Span | None:
    """The shortest run of years that holds that share of the probability, None where there is none.

    Of several as short, the one that holds most; of those, the middle one.
    """
    sums = list(accumulate(chances, initial=0.0))
    length = _shortest_length(sums, share - _ROUNDING)
    if length is None:
        return None
    held = list(map(sub, sums[length:], sums))
    most = max(held) - _ROUNDING
    starts = [start for start, mass in enumerate(held) if mass >= most]
    first = FIRST_YEAR + starts[len(starts) // 2]
    return Span(first, first + length - 1)


def _shortest_length(sums: Sequence[float], needed: float) -> int | None:
    """Years in the shortest run that holds the share needed."""
    best, start = len(sums), 0
    for stop, total in enumerate(sums):
        if total - sums[start] < needed:
            continue
        while total - sums[start + 1] >= needed:
            start += 1
        best = min(best, stop - start)
    return best if best < len(sums) else None


def middle_year(chances: Sequence[float]) -> int:
    """The year before which half of the probability lies."""
    return FIRST_YEAR + bisect_left(list(accumulate(chances)), 0.5)


def share_within(chances: Sequence[float], first: int | None, last: int | None) -> float:
    """The probability that lies between two years, None being no limit."""
    start = 0 if first is None else max(first - FIRST_YEAR, 0)
    stop = len(chances) if last is None else max(last - FIRST_YEAR + 1, 0)
    return min(sum(chances[start:stop]), 1.0)
