"""No quilt in two places at once: bookings that overlap, and those with too little time between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from catalogue.exhibits.findings import Finding, counted, written
from catalogue.values.lengths import quoted


class BookingError(ValueError):
    """A booking that ends before it begins."""


@dataclass(frozen=True)
class Booking:
    """One quilt's days away for one exhibit or loan, from first to last, both included.

    Days for hanging, taking down and the road belong to it. `ends` is None where nobody has set
    an end: the quilt is then taken for good.
    """

    quilt: str
    exhibit: str
    begins: date
    ends: date | None = None
    title: str = ""

    def __post_init__(self) -> None:
        if self.ends is not None and self.ends < self.begins:
            raise BookingError(
                f"The booking of {self.called} for {quoted(self.exhibit)} ends on"
                f" {written(self.ends)}, before it begins."
            )

    @property
    def called(self) -> str:
        """The quilt's title in quotation marks, or its key."""
        return f"“{self.title}”" if self.title else self.quilt

    @property
    def last(self) -> date:
        """The last day, the end of time where none is set."""
        return self.ends or date.max

    @property
    def span(self) -> str:
        """From when to when, in words."""
        end = f"to {written(self.ends)}" if self.ends else "with no end set"
        return f"from {written(self.begins)} {end}"


def clashes(bookings: Iterable[Booking], days_between: int = 0) -> tuple[Finding, ...]:
    """Every pair of bookings that wants one quilt on the same day, in sentences with the dates.

    With `days_between`, pairs that leave fewer whole days between them are named as well.
    """
    ordered = sorted(bookings, key=lambda b: (b.quilt, b.begins, b.last, b.exhibit))
    found: list[Finding] = []
    for _, members in groupby(ordered, key=lambda booking: booking.quilt):
        found += _of_one_quilt(list(members), days_between)
    return tuple(found)


def _of_one_quilt(bookings: Sequence[Booking], days_between: int) -> Iterator[Finding]:
    """Pairs that clash, the earlier first; `bookings` are in order of their first days."""
    for index, one in enumerate(bookings):
        for other in bookings[index + 1 :]:
            free = (other.begins - one.last).days - 1
            if free >= days_between:
                continue
            told = _shared(one, other) if free < 0 else _between(one, other, free, days_between)
            kind = "in two places" if free < 0 else "too close"
            yield Finding(kind, told, (one.quilt, one.exhibit, other.exhibit))


def _shared(one: Booking, other: Booking) -> str:
    ends = min(one.last, other.last)
    both = f"{_wanted(one)}, and for “{other.exhibit}” {other.span}"
    if ends == date.max:
        return f"{both}: from {written(other.begins)} on it would be in two places."
    days = counted((ends - other.begins + timedelta(days=1)).days, "day")
    if days == "1 day":
        return f"{both}: on {written(ends)} it would be in two places."
    stretch = f"{written(other.begins)} to {written(ends)}"
    return f"{both}: for {days}, {stretch}, it would be in two places."


def _between(one: Booking, other: Booking, free: int, wanted: int) -> str:
    left = counted(free, "day") if free else "no day"
    return (
        f"{_wanted(one)}, and for “{other.exhibit}” {other.span}: {left} between;"
        f" {counted(wanted, 'day')} are wanted to take it down, move and hang it."
    )


def _wanted(booking: Booking) -> str:
    return f"{booking.called} is booked for “{booking.exhibit}” {booking.span}"
