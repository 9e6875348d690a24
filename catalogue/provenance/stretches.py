"""How long each owner surely and possibly had the quilt, in years, for drawing and for counting."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.provenance.periods import Period
from catalogue.provenance.transfer_dates import Bounds
from catalogue.values.days import year_of

__all__ = ["Gap", "Stretch", "gaps", "stretches"]


_NO_YEARS = (None, None)


@dataclass(frozen=True)
class Stretch:
    """Years of one period: surely owned from `sure_from` to `sure_to`, possibly a little more.

    The possible years enclose the sure ones. All are None where the period has no date at all.
    `open_end` is True where nothing is known of its end.
    """

    possible_from: int | None
    sure_from: int | None
    sure_to: int | None
    possible_to: int | None
    open_end: bool = False


@dataclass(frozen=True)
class Gap:
    """The years after the period at a place of which nothing is known.

    Where a side has no date, the nearest dated period on that side bounds the gap and `exact` is
    False; without any, `first` or `last` is None.
    """

    after: int
    first: int | None
    last: int | None
    exact: bool


def stretches(periods: Sequence[Period], until: int | None = None) -> tuple[Stretch, ...]:
    """Return the years of every period.

    Where a passage is direct, one side's date stands for the other's. The last owner has the quilt
    until the year `until`, or with an open end where that is None.
    """
    begins = [_years(period.begins) for period in periods]
    ends = [_years(period.ends) for period in periods]
    for place, period in enumerate(periods[:-1]):
        if period.direct_transfer:
            ends[place] = _either(ends[place], begins[place + 1])
            begins[place + 1] = _either(begins[place + 1], ends[place])
    if periods and ends[-1][1] is None and (begins[-1], ends[-1]) != (_NO_YEARS, _NO_YEARS):
        ends[-1] = (ends[-1][0] or until, until)
    return tuple(_stretch(begin, end) for begin, end in zip(begins, ends, strict=True))


def _years(bounds: Bounds) -> tuple[int | None, int | None]:
    first, last = bounds
    return (
        None if first is None else year_of(first),
        None if last is None else year_of(last),
    )


def _either(
    own: tuple[int | None, int | None], other: tuple[int | None, int | None]
) -> tuple[int | None, int | None]:
    return own if own != _NO_YEARS else other


def _stretch(begin: tuple[int | None, int | None], end: tuple[int | None, int | None]) -> Stretch:
    """Join begin and end; a side without dates is as short as the other allows."""
    known = [year for year in (*begin, *end) if year is not None]
    if not known:
        return Stretch(None, None, None, None)
    sure_from = next(year for year in (begin[1], begin[0], end[0], end[1]) if year is not None)
    sure_to = next(year for year in (end[0], end[1], begin[1], begin[0]) if year is not None)
    first, last = min(sure_from, sure_to), max(sure_from, sure_to)
    return Stretch(min([first, *known]), first, last, max([last, *known]), open_end=end[1] is None)


def gaps(periods: Sequence[Period], years: Sequence[Stretch]) -> tuple[Gap, ...]:
    """Return the gaps: passages that are not direct, and direct ones whose dates stand apart."""
    found = []
    for place in range(len(periods) - 1):
        last, first = years[place].possible_to, years[place + 1].possible_from
        apart = last is not None and first is not None and first > last
        if not apart and periods[place].direct_transfer:
            continue
        before = [s.possible_to for s in years[: place + 1] if s.possible_to is not None]
        after = [s.possible_from for s in years[place + 1 :] if s.possible_from is not None]
        exact = last is not None and first is not None
        found.append(Gap(place, before[-1] if before else None, after[0] if after else None, exact))
    return tuple(found)
