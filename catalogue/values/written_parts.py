"""The parts a written date is put together from: days, months, years, decades, centuries.

Every reader takes a text made plain by `date_text` and gives each stretch of time it can mean:
none where it is not of that kind, several where it can be read in several ways.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from catalogue.values.date_policy import DatePolicy
from catalogue.values.date_stretch import Stretch, single, year_text
from catalogue.values.days import days_in_month, exists

_MONTH_NAMES = (
    r"jan(?:uary)?|feb(?:ruary|r)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?"
)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SEASONS = {"spring": "21", "summer": "22", "autumn": "23", "fall": "23", "winter": "24"}

MONTH = rf"(?P<month>{_MONTH_NAMES})"
DAY = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?"
YEAR = r"(?P<year>[0-9]{4})"
WEEKDAY = r"(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?,? )?"
PART = (
    r"(?P<part>early|beginning|start|mid(?:dle)?|late|latter part|end)"
    r"(?:[ -]of)?(?:[ -]the)?[ -]"
)
FRACTION = (
    r"(?P<which>1st|2nd|3rd|4th|last|final|latter) "
    r"(?P<fraction>half|quarter|3rd)(?: of)?(?: the)?(?: year)? "
)
CENTURY = (
    r"(?:(?P<century>[0-9]{1,2})(?:st|nd|rd|th)?[ -]?(?:c|cent|centur(?:y|ies))"
    r"|c(?P<after>[0-9]{2})(?:th|st)?)"
)
DECADE = r"(?P<decade>[0-9]{3}0)(?:'?s|ies)"

Reader = Callable[[re.Match[str], DatePolicy], list[Stretch]]


def _month_number(found: re.Match[str]) -> int:
    return _MONTHS.index(found["month"][:3]) + 1


def _full_date(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    return _existing(int(found["year"]), _month_number(found), int(found["day"]))


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
    return [single(f"{found['year']}-{_month_number(found):02d}")]


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


def _part_number(found: re.Match[str]) -> int:
    part = found["part"]
    if part.startswith("mid"):
        return 1
    return 0 if part in ("early", "beginning", "start") else 2


def _third(found: re.Match[str], early: int, middle: int, last: int, first: int) -> tuple[int, int]:
    starts, ends = (first, early + 1, middle + 1), (early, middle, last)
    number = _part_number(found)
    return starts[number], ends[number]


def _part_of_month(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    year, month = int(found["year"]), _month_number(found)
    last = days_in_month(year, month)
    first, final = _third(found, policy.early_month_last, policy.middle_month_last, last, 1)
    return [Stretch(f"{year:04d}-{month:02d}-{first:02d}", f"{year:04d}-{month:02d}-{final:02d}")]


def _part_of_year(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    first, final = _third(found, policy.early_year_last, policy.middle_year_last, 12, 1)
    return [Stretch(f"{found['year']}-{first:02d}", f"{found['year']}-{final:02d}")]


def _fraction(found: re.Match[str], whole: int) -> tuple[int, int] | None:
    """First and last unit, from 0, of the half, third or quarter; None where there is none such."""
    count = {"half": 2, "3rd": 3, "quarter": 4}[found["fraction"]]
    which = found["which"]
    number = count if which in ("last", "final", "latter") else int(which[0])
    if number > count:
        return None
    # Rounded up, so that the thirds of a century are its years 0-33, 34-66 and 67-99.
    return -(-whole * (number - 1) // count), -(-whole * number // count) - 1


def _fraction_of_year(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    months = _fraction(found, 12)
    if months is None:
        return []
    first, last = months
    return [Stretch(f"{found['year']}-{first + 1:02d}", f"{found['year']}-{last + 1:02d}")]


def _fraction_of_decade(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    years = _fraction(found, 10) if found["fraction"] == "half" else None
    return [_within(start, years) for start, _ in _decades(found, policy)] if years else []


def _fraction_of_century(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    years = _fraction(found, 100)
    return [_within(_century_start(found), years)] if years else []


def _within(start: int, years: tuple[int, int]) -> Stretch:
    return Stretch(year_text(start + years[0]), year_text(start + years[1]))


def _decades(found: re.Match[str], policy: DatePolicy) -> list[tuple[int, int]]:
    """First year and length of what a number with an s may mean: 1930s, 1800s, '30s."""
    digits = found["decade"]
    if len(digits) == 2:
        return [(1800 + int(digits), 10), (1900 + int(digits), 10)]
    start = int(digits)
    if start % 100 == 0:
        lengths = [policy.hundreds] if policy.hundreds else [100, 10]
        return [(start, length) for length in lengths]
    return [(start, 10)]


def _decade(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    return [
        single(f"{start:04d}"[: 3 if length == 10 else 2] + ("X" if length == 10 else "XX"))
        for start, length in _decades(found, policy)
    ]


def _part_of_decade(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    return [_part_of(found, start, length, policy) for start, length in _decades(found, policy)]


def _part_of(found: re.Match[str], start: int, length: int, policy: DatePolicy) -> Stretch:
    if length == 10:
        ends = policy.early_decade_last, policy.middle_decade_last
        return _within(start, _third(found, *ends, 9, 0))
    if found["part"] in ("beginning", "start"):
        return _within(start, (0, policy.edge_century_years - 1))
    if found["part"] == "end":
        return _within(start, (100 - policy.edge_century_years, 99))
    ends = policy.early_century_last, policy.middle_century_last
    return _within(start, _third(found, *ends, 99, 0))


def _century_start(found: re.Match[str]) -> int:
    """The 19th century is 1800 to 1899."""
    return 100 * (int(found["century"] or found["after"]) - 1)


def _century(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    start = _century_start(found)
    return [single(f"{start:04d}"[:2] + "XX")] if 0 <= start <= 9900 else []


def _part_of_century(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    return [_part_of(found, _century_start(found), 100, policy)]


def _decade_of_century(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    which = found["which"]
    number = 9 if which in ("last", "final") else int(which[:-2]) - 1
    if not 0 <= number <= 9:
        return []
    return [single(f"{_century_start(found) + 10 * number:04d}"[:3] + "X")]


def _turn(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    """The years about the first of a century.

    "Turn of the 19th century" is used of 1800 and of 1900 alike; of the 20th and 21st only their
    beginning is in use.
    """
    if found["century"] is None:
        starts = [policy.turn_bare] if policy.turn_bare else [1800, 1900, 2000]
    else:
        first = _century_start(found)
        starts = [first] if first >= 1900 else [first, first + 100]
    years = policy.turn_years
    return [Stretch(year_text(year - years), year_text(year + years)) for year in starts]


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
    return [_within(year, (-years, years))]


def _digits_left_out(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    known = found["known"]
    return [single(known + "X" * (4 - len(known)))]


def _negative(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    """-1940 is a year before our era in EDTF, and "until 1940" in a catalogue."""
    return [single(found[0]), Stretch("", found["year"])]


_TABLE: tuple[tuple[str, Reader], ...] = (
    (YEAR, _year),
    (DECADE, _decade),
    (rf"{PART}{DECADE}", _part_of_decade),
    (CENTURY, _century),
    (rf"{PART}{CENTURY}", _part_of_century),
    (rf"{FRACTION}{CENTURY}", _fraction_of_century),
    (rf"{YEAR}[-/](?P<end>[0-9]{{1,2}})", _shortened),
    (rf"{WEEKDAY}{DAY}(?: of|,)?[ ./-]?{MONTH},?[ ./-]?{YEAR}", _full_date),
    (rf"{WEEKDAY}(?:the )?{MONTH}[ ./-]?{DAY}(?:,? |,|[./-]){YEAR}", _full_date),
    (rf"{YEAR}(?:,? |[./-]){MONTH}[ ./-]?{DAY}", _full_date),
    (rf"{MONTH}(?: of|,)?[ ./-]?{YEAR}", _month_of_year),
    (rf"{YEAR}(?:,? |[./-]){MONTH}", _month_of_year),
    (
        r"(?P<one>[0-9]{1,2})[./-](?P<two>[0-9]{1,2})[./-]'?(?P<year>[0-9]{4}|[0-9]{2})",
        _numeric_date,
    ),
    (rf"{YEAR}[./-](?P<two>[0-9]{{1,2}})[./-](?P<one>[0-9]{{1,2}})", _year_first),
    (rf"(?P<one>[0-9]{{1,2}})[./-]{YEAR}", _numeric_month),
    (rf"(?P<season>spring|summer|autumn|fall|winter)(?: of|,)? {YEAR}", _season),
    (rf"{YEAR},? (?P<season>spring|summer|autumn|fall|winter)", _season),
    (rf"winter(?: of)? {YEAR}[-/](?P<end>[0-9]{{4}}|[0-9]{{1,2}})", _winter),
    (rf"{PART}{YEAR}", _part_of_year),
    (rf"{PART}{MONTH}(?: of|,)? {YEAR}", _part_of_month),
    (rf"{FRACTION}{YEAR}", _fraction_of_year),
    (rf"{FRACTION}{DECADE}", _fraction_of_decade),
    (
        rf"(?P<which>[0-9]{{1,2}}(?:st|nd|rd|th)|last|final) decade (?:of )?(?:the )?{CENTURY}",
        _decade_of_century,
    ),
    (rf"turn[ -]of[ -](?:the[ -])?(?:{CENTURY}|century)", _turn),
    (r"'?(?P<decade>[1-9]0)'?s", _decade),
    (rf"{PART}'?(?P<decade>[1-9]0)'?s", _part_of_decade),
    (r"'(?P<short>[0-9]{2})", _short_year),
    (rf"{YEAR} ?(?:±|\+/-|\+-) ?(?P<years>[0-9]{{1,2}})(?: years?| yrs?)?", _give_or_take),
    (r"(?P<known>[0-9]{3})[-?x_]", _digits_left_out),
    (r"(?P<known>[0-9]{2})(?:--|\?\?|xx|__)", _digits_left_out),
    (r"(?:ad |ce )(?P<number>[0-9]{1,4})", _era_year),
    (r"(?P<number>[0-9]{1,4}) ?(?:ad|ce|bce?)", _era_year),
    (rf"-{YEAR}", _negative),
)
_READERS = tuple((re.compile(pattern), reader) for pattern, reader in _TABLE)


def parts(text: str, policy: DatePolicy) -> list[Stretch]:
    """Every stretch of time that one part of a date can mean; empty where it is not understood."""
    for pattern, reader in _READERS:
        found = pattern.fullmatch(text)
        if found:
            stretches = reader(found, policy)
            if stretches:
                return stretches
    return []
