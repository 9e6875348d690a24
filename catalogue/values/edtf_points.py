"""The parts of an EDTF date and the days that they allow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from catalogue.values.date_policy import DatePolicy
from catalogue.values.days import Day, days_in_month, exists, shifted


@dataclass(frozen=True, slots=True)
class Point:
    """One EDTF date: a year, or a month, season or day in it, with its marks of doubt.

    `year`, `month` and `day` keep their digits as written, X where unspecified; `marks` holds the
    qualifier of each ("", "?", "~" or "%"); `figures` is the count of significant digits.
    """

    text: str
    year: str
    figures: int | None
    month: str | None
    day: str | None
    marks: tuple[str, str, str]
    years: tuple[int, int]

    @property
    def season(self) -> int | None:
        """The sub-year code 21 to 41, or None."""
        code = self.month
        return int(code) if code and code.isdigit() and int(code) > 12 else None

    @property
    def unknown(self) -> bool:
        """True where no digit of the year is specified."""
        return self.year.lstrip("-") == "XXXX"


End = Point | Literal["", ".."]
"""An end of an interval: a date, unknown ("") or open ("..")."""


@dataclass(frozen=True, slots=True)
class Interval:
    """An EDTF interval, or a run such as 1670..1672 inside a set."""

    start: End
    end: End


@dataclass(frozen=True, slots=True)
class DateSet:
    """An EDTF set: one of its members (`every` false) or all of them."""

    every: bool
    members: tuple[Point | Interval, ...]


Expression = Point | Interval | DateSet


def months_of(point: Point) -> list[int]:
    """The months that the digits allow, 1 to 12; empty for a season."""
    return _matching(point.month or "XX", 12)


def _matching(pattern: str, top: int) -> list[int]:
    return [n for n in range(1, top + 1) if _fits(f"{n:02d}", pattern)]


def _fits(digits: str, pattern: str) -> bool:
    return all(p in ("X", d) for d, p in zip(digits, pattern, strict=True))


def _years_of(point: Point) -> Iterator[int]:
    low, high = point.years
    pattern = point.year.lstrip("Y-")
    if "X" not in pattern:
        return iter(range(low, high + 1))
    return (year for year in range(low, high + 1) if _fits(f"{abs(year):04d}", pattern))


def days_from_start(point: Point) -> Iterator[Day]:
    """Every day of the calendar that the digits allow, the earliest first."""
    days = _matching(point.day or "XX", 31)
    months = months_of(point)
    every = ((y, m, d) for y in _years_of(point) for m in months for d in days)
    return filter(exists, every)


def _days_from_end(point: Point) -> Iterator[Day]:
    days = _matching(point.day or "XX", 31)[::-1]
    months = months_of(point)[::-1]
    years = list(_years_of(point))[::-1]
    return filter(exists, ((y, m, d) for y in years for m in months for d in days))


def first_day(point: Point, policy: DatePolicy) -> Day:
    """The earliest day meant, before any widening for "about"."""
    if point.season:
        return _season(point, policy)[0]
    if point.day:
        return next(days_from_start(point))
    months = months_of(point) if point.month else [1]
    return point.years[0], months[0], 1


def last_day(point: Point, policy: DatePolicy) -> Day:
    """The latest day meant, before any widening for "about"."""
    if point.season:
        return _season(point, policy)[1]
    if point.day:
        return next(_days_from_end(point))
    month = months_of(point)[-1] if point.month else 12
    return point.years[1], month, days_in_month(point.years[1], month)


_SPANS: dict[int, tuple[int, int]] = (
    {25: (3, 3), 26: (6, 3), 27: (9, 3), 28: (12, 3), 29: (9, 3), 30: (12, 3), 31: (3, 3)}
    | {32: (6, 3), 33: (1, 3), 34: (4, 3), 35: (7, 3), 36: (10, 3)}
    | {37: (1, 4), 38: (5, 4), 39: (9, 4), 40: (1, 6), 41: (7, 6)}
)
"""First month and number of months of the sub-year codes, from the standard's own list."""


def _season(point: Point, policy: DatePolicy) -> tuple[Day, Day]:
    named = {
        21: (policy.spring_first_month, 3),
        22: (policy.summer_first_month, 3),
        23: (policy.autumn_first_month, 3),
        24: (policy.winter_first_month, 3),
    }
    first, count = (named | _SPANS)[point.season or 0]
    years, last = divmod(first + count - 2, 12)
    low, high = point.years
    return (low, first, 1), (high + years, last + 1, days_in_month(high + years, last + 1))


def bounds(expression: Expression, policy: DatePolicy) -> tuple[Day | None, Day | None]:
    """The first and last day that the date allows, None where that end is open or unknown.

    An approximate year (~ or %) widens by the policy; an uncertain one (?) does not. A set has
    the envelope of its members.
    """
    if isinstance(expression, Point):
        return _point_bounds(expression, policy)
    if isinstance(expression, Interval):
        start, end = expression.start, expression.end
        return (
            None if isinstance(start, str) else _point_bounds(start, policy)[0],
            None if isinstance(end, str) else _point_bounds(end, policy)[1],
        )
    pairs = [bounds(member, policy) for member in expression.members]
    firsts = [first for first, _ in pairs if first is not None]
    lasts = [last for _, last in pairs if last is not None]
    return (
        min(firsts) if len(firsts) == len(pairs) else None,
        max(lasts) if len(lasts) == len(pairs) else None,
    )


def _point_bounds(point: Point, policy: DatePolicy) -> tuple[Day | None, Day | None]:
    if point.unknown:
        return None, None
    wider = policy.about_years if point.marks[0] in ("~", "%") else 0
    return (
        shifted(first_day(point, policy), -wider),
        shifted(last_day(point, policy), wider),
    )
