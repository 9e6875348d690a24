"""The standard's words for bounds, for periods that were entered as dates and not as text."""

from __future__ import annotations

from datetime import date, timedelta

from catalogue.provenance.transfer_dates import UNKNOWN, Bounds, TransferDates

__all__ = ["dates_from_bounds"]

# fmt: off
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)
# fmt: on


def dates_from_bounds(
    begins: Bounds,
    ends: Bounds = UNKNOWN,
    begins_doubtful: bool = False,
    ends_doubtful: bool = False,
) -> TransferDates:
    """Return the bounds with the phrase of the standard that gives just these bounds.

    Source: Art Tracks digital provenance standard v0.2 (CC0), date tables; ISO days between the
    years 1000 and 9999. Raises ValueError for other texts.
    """
    phrase = _phrase(begins, ends, "?" * begins_doubtful, "?" * ends_doubtful)
    return TransferDates(phrase, begins, ends, begins_doubtful, ends_doubtful)


def _phrase(begins: Bounds, ends: Bounds, doubt: str, ends_doubt: str) -> str:
    if begins[0] is None and begins[1] and ends[0] and ends[1] is None:
        possessed = _unit(ends[0], begins[1])
        if possessed and doubt == ends_doubt:
            return f"in {possessed}{doubt}"
    words = _words(begins, "by", "after", "")
    until = _words(ends, "until sometime before", "until at least", "until ")
    return " ".join(
        part for part in (words and f"{words}{doubt}", until and f"{until}{ends_doubt}") if part
    )


def _words(bounds: Bounds, latest_only: str, earliest_only: str, lead: str) -> str:
    earliest, latest = bounds
    if earliest is None:
        return "" if latest is None else f"{latest_only} {_last(latest)}"
    if latest is None:
        return f"{earliest_only} {_first(earliest)}"
    unit = _unit(earliest, latest)
    if unit:
        return f"{lead}{unit}"
    return f"{lead}sometime between {_first(earliest)} and {_last(latest)}"


def _unit(earliest: str, latest: str) -> str:
    """Return the year, month or day that has exactly these bounds, or ""."""
    if earliest == latest:
        return _day(date.fromisoformat(earliest))
    first, last = _first(earliest), _last(latest)
    return first if first == last and "," not in first else ""


def _first(iso: str) -> str:
    """Return the largest unit that begins on the day."""
    day = date.fromisoformat(iso)
    if day.day != 1:
        return _day(day)
    return f"{day.year}" if day.month == 1 else f"{_MONTHS[day.month - 1]} {day.year}"


def _last(iso: str) -> str:
    """Return the largest unit that ends on the day."""
    day = date.fromisoformat(iso)
    if (day.month, day.day) == (12, 31):
        return f"{day.year}"
    month_ends = (day + timedelta(days=1)).day == 1
    return f"{_MONTHS[day.month - 1]} {day.year}" if month_ends else _day(day)


def _day(day: date) -> str:
    return f"{_MONTHS[day.month - 1]} {day.day}, {day.year}"
