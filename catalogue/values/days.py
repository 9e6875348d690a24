"""Calendar days of any year, however far from ours: the proleptic Gregorian calendar of ISO 8601.

Year 0 is the year before year 1 (1 BC), as ISO 8601 counts; Python's own dates stop at year 1.
"""

from __future__ import annotations

Day = tuple[int, int, int]
"""Year, month and day of the month."""

_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def is_leap(year: int) -> bool:
    """True where February has 29 days (Gregorian rule)."""
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def days_in_month(year: int, month: int) -> int:
    """Days in that month, 28 to 31."""
    return 29 if month == 2 and is_leap(year) else _LENGTHS[month - 1]


def exists(day: Day) -> bool:
    """True where the calendar has that day: 29 February only in leap years."""
    year, month, number = day
    return 1 <= month <= 12 and 1 <= number <= days_in_month(year, month)


def shifted(day: Day, years: int) -> Day:
    """The same day that many years on; 29 February becomes the 28th in a common year."""
    year, month, number = day
    return year + years, month, min(number, days_in_month(year + years, month))


def day_after(day: Day) -> Day:
    """The next day."""
    year, month, number = day
    if number < days_in_month(year, month):
        return year, month, number + 1
    return (year, month + 1, 1) if month < 12 else (year + 1, 1, 1)


def day_before(day: Day) -> Day:
    """The day before."""
    year, month, number = day
    if number > 1:
        return year, month, number - 1
    year, month = (year, month - 1) if month > 1 else (year - 1, 12)
    return year, month, days_in_month(year, month)


def iso(day: Day) -> str:
    """ISO 8601 text, the year signed where it lies outside 0001 to 9999."""
    year, month, number = day
    head = f"{year:04d}" if 1 <= year <= 9999 else f"{year:+05d}"
    return f"{head}-{month:02d}-{number:02d}"


def year_of(text: str) -> int:
    """The year of an ISO 8601 text as `iso` writes it."""
    return int(text[:-6])
