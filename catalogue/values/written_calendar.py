"""Years, months, days and seasons as they are written, each with every stretch it can mean.

A reader takes a match in a text made plain by `date_text` and gives nothing where the calendar
has no such date, several stretches where it can be read in several ways.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from catalogue.values.date_policy import DatePolicy
from catalogue.values.date_stretch import Stretch, single, year_text, years_from
from catalogue.values.days import exists

MONTH = (
    r"(?P<month>jan(?:uary)?|feb(?:ruary|r)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
YEAR = r"(?P<year>[0-9]{4})"
_DAY = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?(?: day)?"
_WEEKDAY = r"(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?,? )?"
_SEASON = r"(?P<season>spring|summer|autumn|fall|winter)"

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SEASONS = {"spring": "21", "summer": "22", "autumn": "23", "fall": "23", "winter": "24"}

Reader = Callable[[re.Match[str], DatePolicy], list[Stretch]]


def month_number(found: re.Match[str]) -> int:
    return _MONTHS.index(found["month"][:3]) + 1


def _full_date(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return _existing(int(found["year"]), month_number(found), int(found["day"]))


def _existing(year: int, month: int, day: int) -> list[Stretch]:
    if not exists((year, month, day)):
        return []
    return [single(f"{year_text(year)}-{month:02d}-{day:02d}")]


def _numeric_date(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    """Day and month in either order, where both are possible."""
    one, two = int(found["one"]), int(found["two"])
    readings = [
        stretch
        for year in _years(found["year"])
        for stretch in _existing(year, two, one) + _existing(year, one, two)
    ]
    return list(dict.fromkeys(readings))


def _years(digits: str) -> list[int]:
    """The year, or the two a pair of digits may stand for in the age of surviving quilts."""
    return [int(digits)] if len(digits) == 4 else [1800 + int(digits), 1900 + int(digits)]


def _year_first(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return _existing(int(found["year"]), int(found["two"]), int(found["one"]))


def _month_of_year(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return [single(f"{found['year']}-{month_number(found):02d}")]


def _numeric_month(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    month = int(found["one"])
    return [single(f"{found['year']}-{month:02d}")] if 1 <= month <= 12 else []


def _shortened(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    """1908-12: a range with a shortened end, a month of a year, or both."""
    year, end = found["year"], found["end"]
    readings = []
    last = completed_year(year, end)
    if last is not None:
        readings.append(Stretch(year, f"{last:04d}"))
    if len(end) == 2 and 1 <= int(end) <= 12:
        readings.append(single(f"{year}-{end}"))
    return readings


def completed_year(year: str, end: str) -> int | None:
    """The year a shortened end stands for: 1860-80 in the same century, 1898-02 in the next.

    A next century is taken only within ten years; None where no later year ends so.
    """
    first = int(year)
    last = int(year[: 4 - len(end)] + end)
    if last <= first and len(end) == 2:
        last += 100
        if last - first > 10:
            return None
    return last if last > first else None


def _season(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return [single(f"{found['year']}-{_SEASONS[found['season']]}")]


def _winter(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    """Winter 1935-36 is the one that begins in December 1935."""
    end = found["end"]
    if int(found["year"][: 4 - len(end)] + end) != int(found["year"]) + 1 and not (
        found["year"].endswith("99") and end == "00"
    ):
        return []
    return [single(f"{found['year']}-24")]


def _year(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return [single(found["year"])]


def _era_year(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    number = int(found["number"])
    if not number:
        return []
    return [single(year_text(1 - number if found[0].endswith(("bc", "bce")) else number))]


def _short_year(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return [single(str(year)) for year in _years(found["short"])]


def _give_or_take(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    year, years = int(found["year"]), int(found["years"])
    return [years_from(year, (-years, years))]


def _digits_left_out(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    known = found["known"]
    return [single(known + "X" * (4 - len(known)))]


def _negative(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    """-1940 is a year before our era in EDTF, and "until 1940" in a catalogue."""
    return [single(found[0]), Stretch("", found["year"])]


CALENDAR: tuple[tuple[str, Reader], ...] = (
    (YEAR, _year),
    (rf"{YEAR}[-/](?P<end>[0-9]{{1,2}})", _shortened),
    (rf"{_WEEKDAY}(?:the )?{_DAY}(?: of|,)?[ ./-]?{MONTH},?[ ./-]?{YEAR}", _full_date),
    (rf"{_WEEKDAY}{MONTH}[ ./-]?(?:the )?{_DAY}(?:,? |,|[./-]){YEAR}", _full_date),
    (rf"{YEAR}(?:,? |[./-]){MONTH}[ ./-]?{_DAY}", _full_date),
    (rf"{MONTH}(?: of|,)?[ ./-]?{YEAR}", _month_of_year),
    (rf"{YEAR}(?:,? |[./-]){MONTH}", _month_of_year),
    (
        r"(?P<one>[0-9]{1,2})[./-](?P<two>[0-9]{1,2})[./-]'?(?P<year>[0-9]{4}|[0-9]{2})",
        _numeric_date,
    ),
    (rf"{YEAR}[./-](?P<two>[0-9]{{1,2}})[./-](?P<one>[0-9]{{1,2}})", _year_first),
    (rf"(?P<one>[0-9]{{1,2}})[./-]{YEAR}", _numeric_month),
    (rf"{_SEASON}(?: of|,)? {YEAR}", _season),
    (rf"{YEAR},? {_SEASON}", _season),
    (rf"winter(?: of)? {YEAR}[-/](?P<end>[0-9]{{4}}|[0-9]{{1,2}})", _winter),
    (r"'(?P<short>[0-9]{2})", _short_year),
    (rf"{YEAR} ?(?:±|\+/-|\+-) ?(?P<years>[0-9]{{1,2}})(?: years?| yrs?)?", _give_or_take),
    (r"(?P<known>[0-9]{3})[-?x_]", _digits_left_out),
    (r"(?P<known>[0-9]{2})(?:--|\?\?|xx|__)", _digits_left_out),
    (r"(?:ad |ce )(?P<number>[0-9]{1,4})", _era_year),
    (r"(?P<number>[0-9]{1,4}) ?(?:ad|ce|bce?)", _era_year),
    (rf"-{YEAR}", _negative),
)
"""Patterns of written dates with what reads them, the commonest first."""

FULL_DATES = (_full_date, _numeric_date, _year_first)
"""The readers of days, which give nothing only where the calendar has no such day."""
