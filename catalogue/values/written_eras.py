"""Decades, centuries and the parts of them, and of years and months, as they are written.

Readers as in `written_calendar`: every stretch of time that the words can mean.
"""

from __future__ import annotations

import re

from catalogue.values.date_policy import DatePolicy
from catalogue.values.date_stretch import Stretch, single, years_from
from catalogue.values.days import days_in_month
from catalogue.values.written_calendar import MONTH, YEAR, Reader, month_number

_PART = r"(?P<part>early|beginning|start|mid(?:dle)?|late|latter|end)(?: part)?"
_PART_OF = rf"{_PART}(?:[ -]of)?(?:[ -]the)?[ -]"
_FRACTION = r"(?P<which>1st|2nd|3rd|4th|last|final|latter)[ -](?P<fraction>half|quarter|qtr|3rd)"
_FRACTION_OF = rf"{_FRACTION}(?: of|,)?(?: the)?(?: year)? "
_CENTURY = (
    r"(?:(?P<century>[0-9]{1,2})(?:st|nd|rd|th)?[ -]?(?:c|cent|centur(?:y|ies))(?: ad)?"
    r"|c(?P<after>[0-9]{2})(?:th|st)?)"
)
_DECADE = r"(?P<decade>[0-9]{3}0)(?:'?s|ies)"
_BARE_DECADE = r"'?(?P<decade>[1-9]0)'?s"


def _part_of_month(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    year, month = int(found["year"]), month_number(found)
    last = days_in_month(year, month)
    first, final = _third(found, policy.early_month_last, policy.middle_month_last, last, 1)
    return [Stretch(f"{year:04d}-{month:02d}-{first:02d}", f"{year:04d}-{month:02d}-{final:02d}")]


def _part_number(found: re.Match[str]) -> int:
    part = found["part"]
    if part.startswith("mid"):
        return 1
    return 0 if part in ("early", "beginning", "start") else 2


def _third(found: re.Match[str], early: int, middle: int, last: int, first: int) -> tuple[int, int]:
    starts, ends = (first, early + 1, middle + 1), (early, middle, last)
    number = _part_number(found)
    return starts[number], ends[number]


def _part_of_year(found: re.Match[str], policy: DatePolicy) -> list[Stretch]:
    first, final = _third(found, policy.early_year_last, policy.middle_year_last, 12, 1)
    return [Stretch(f"{found['year']}-{first:02d}", f"{found['year']}-{final:02d}")]


def _fraction(found: re.Match[str], whole: int) -> tuple[int, int] | None:
    """First and last unit, from 0, of the half, third or quarter; None where there is none such."""
    count = {"half": 2, "3rd": 3, "quarter": 4, "qtr": 4}[found["fraction"]]
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
    """Halves of a decade; every fraction of "the 1800s" where they may be a century."""
    return [
        years_from(start, years)
        for start, length in _decades(found, policy)
        if (length == 100 or found["fraction"] == "half") and (years := _fraction(found, length))
    ]


def _fraction_of_century(found: re.Match[str], _policy: DatePolicy) -> list[Stretch]:
    years = _fraction(found, 100)
    return [years_from(_century_start(found), years)] if years else []


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
        return years_from(start, _third(found, *ends, 9, 0))
    if found["part"] in ("beginning", "start"):
        return years_from(start, (0, policy.edge_century_years - 1))
    if found["part"] == "end":
        return years_from(start, (100 - policy.edge_century_years, 99))
    ends = policy.early_century_last, policy.middle_century_last
    return years_from(start, _third(found, *ends, 99, 0))


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
    return [years_from(year, (-years, years)) for year in starts]


ERAS: tuple[tuple[str, Reader], ...] = (
    (_DECADE, _decade),
    (rf"{_PART_OF}{_DECADE}", _part_of_decade),
    (_CENTURY, _century),
    (rf"{_PART_OF}{_CENTURY}", _part_of_century),
    (rf"{_FRACTION_OF}{_CENTURY}", _fraction_of_century),
    (rf"{_CENTURY},? {_FRACTION}", _fraction_of_century),
    (rf"{_CENTURY},? {_PART}", _part_of_century),
    (rf"{_DECADE},? {_PART}", _part_of_decade),
    (rf"{_PART_OF}{YEAR}", _part_of_year),
    (rf"{_PART_OF}{MONTH}(?: of|,)? {YEAR}", _part_of_month),
    (rf"{_FRACTION_OF}{YEAR}", _fraction_of_year),
    (rf"{_FRACTION_OF}{_DECADE}", _fraction_of_decade),
    (
        rf"(?P<which>[0-9]{{1,2}}(?:st|nd|rd|th)|last|final) decade (?:of )?(?:the )?{_CENTURY}",
        _decade_of_century,
    ),
    (rf"turn[ -]of[ -](?:the[ -])?(?:{_CENTURY}|century)", _turn),
    (_BARE_DECADE, _decade),
    (rf"{_PART_OF}{_BARE_DECADE}", _part_of_decade),
)
"""Patterns of stretches of years with what reads them, the commonest first."""
