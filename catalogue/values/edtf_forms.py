"""Our own strict reading of EDTF (Library of Congress, 4 February 2019; ISO 8601-2:2019 Annex A).

Nothing here is lenient: no blanks, no impossible days, no interval that runs backwards. The
second reader that every form must also satisfy stands in `edtf_guard`.
"""

from __future__ import annotations

import re

from catalogue.values.date_policy import DEFAULT_POLICY
from catalogue.values.edtf_points import (
    DateSet,
    End,
    Expression,
    Interval,
    Point,
    days_from_start,
    first_day,
    last_day,
    months_of,
)

LONGEST = 400
"""Characters read at most; EDTF itself sets no limit."""

MOST_YEAR_DIGITS = 18
"""Digits of a year counted at most, so that every bound fits a 64-bit number."""


class DateError(ValueError):
    """A text that cannot be understood as a date; its message is one sentence for the user."""


def quoted(text: str) -> str:
    """The text in quotation marks for a message: shortened, and with nothing unprintable in it."""
    shown = text if len(text) <= 60 else text[:57] + "..."
    return '"' + "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in shown) + '"'


_POINT = re.compile(
    r"(?P<q1>[?~%])?"
    r"(?P<year>-?[0-9X]{4}|Y-?[1-9][0-9]{4,}|Y-?[1-9][0-9]*E[1-9][0-9]{0,3})"
    r"(?:S(?P<figures>[1-9][0-9]?))?(?P<q2>[?~%])?"
    r"(?:-(?P<q3>[?~%])?(?P<month>[0-9X]{2})(?P<q4>[?~%])?"
    r"(?:-(?P<q5>[?~%])?(?P<day>[0-9X]{2})(?P<q6>[?~%])?)?)?"
)
_TIME = re.compile(
    r"T(?:(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]|24:00:00)"
    r"(?:Z|[+-](?:(?:0[0-9]|1[0-3])(?::[0-5][0-9])?|14(?::00)?))?"
)
_DATE_WITH_TIME = re.compile(r"(?P<date>-?[0-9]{4}-[0-9]{2}-[0-9]{2})(?P<time>T.*)", re.DOTALL)


def parse(text: str) -> Expression:
    """The EDTF text taken apart; raises `DateError` where the standard does not allow it."""
    if len(text) > LONGEST:
        raise DateError(f"{quoted(text)} is longer than the {LONGEST} characters read as a date.")
    if text[:1] in ("[", "{"):
        return _set(text)
    if "/" in text:
        return _interval(text)
    timed = _DATE_WITH_TIME.fullmatch(text)
    if timed and _TIME.fullmatch(timed["time"]):
        return _point(timed["date"], text)
    return _point(text, text)


def _point(text: str, whole: str) -> Point:
    found = _POINT.fullmatch(text)
    if found is None:
        raise DateError(f"{quoted(whole)} is not a date in EDTF.")
    year, month, day = found["year"], found["month"], found["day"]
    figures = int(found["figures"]) if found["figures"] else None
    point = Point(text, year, figures, month, day, _marks(found), _years(year, figures, whole))
    _refuse_impossible(point, whole)
    return point


def _marks(found: re.Match[str]) -> tuple[str, str, str]:
    """Qualifiers of year, month and day: one on the right holds for all that stands to its left."""
    q1, q2, q3, q4, q5, q6 = (found[f"q{n}"] or "" for n in range(1, 7))
    return q1 or q2 or q4 or q6, q3 or q4 or q6, q5 or q6


def _years(year: str, figures: int | None, whole: str) -> tuple[int, int]:
    """The first and the last year that the digits allow."""
    if year == "-0000":
        raise DateError(f"{quoted(whole)} has a year -0000, which the standard excludes.")
    digits = year.lstrip("Y-")
    sign = -1 if "-" in year else 1
    if "X" in digits:
        if figures:
            raise DateError(f"{quoted(whole)} counts the significant digits of an unknown year.")
        ends = int(digits.replace("X", "0")), int(digits.replace("X", "9"))
    else:
        ends = _significant(_long_digits(digits, whole), figures, whole)
    low, high = sorted(sign * end for end in ends)
    return low, high


def _long_digits(digits: str, whole: str) -> str:
    base, _, exponent = digits.partition("E")
    zeros = int(exponent or 0)
    if len(base) + zeros > MOST_YEAR_DIGITS:
        raise DateError(f"{quoted(whole)} lies further away than {MOST_YEAR_DIGITS} digits count.")
    return base + "0" * zeros


def _significant(digits: str, figures: int | None, whole: str) -> tuple[int, int]:
    value = int(digits)
    if figures is None:
        return value, value
    if figures > len(digits):
        raise DateError(f"{quoted(whole)} has fewer digits than it calls significant.")
    unit: int = 10 ** (len(digits) - figures)
    low = value // unit * unit
    return low, low + unit - 1


def _refuse_impossible(point: Point, whole: str) -> None:
    if point.month is None:
        return
    if point.figures or point.year.startswith("Y"):
        raise DateError(f"{quoted(whole)} is not a date in EDTF.")
    if point.season and (point.season < 21 or point.season > 41 or point.day):
        raise DateError(f"{quoted(whole)} names a month or season that does not exist.")
    if not point.season and not months_of(point):
        raise DateError(f"{quoted(whole)} names a month that does not exist.")
    if point.day and next(days_from_start(point), None) is None:
        raise DateError(f"{quoted(whole)} names a day that the calendar does not have.")


def _interval(text: str) -> Interval:
    left, _, right = text.partition("/")
    if left in ("", "..") and right in ("", ".."):
        raise DateError(f"{quoted(text)} is an interval without any date.")
    return _run(left, right, text)


def _run(left: str, right: str, whole: str) -> Interval:
    interval = Interval(_end(left, whole), _end(right, whole))
    if not _in_order(interval):
        raise DateError(f"{quoted(whole)} runs backwards: {left} comes after {right}.")
    return interval


def _end(text: str, whole: str) -> End:
    if text == "":
        return ""
    return ".." if text == ".." else _point(text, whole)


def _in_order(interval: Interval) -> bool:
    start, end = interval.start, interval.end
    if isinstance(start, str) or isinstance(end, str):
        return True
    return first_day(start, DEFAULT_POLICY) <= last_day(end, DEFAULT_POLICY)


def _set(text: str) -> DateSet:
    closing = {"[": "]", "{": "}"}[text[0]]
    parts = text[1:-1].split(",")
    if not text.endswith(closing) or (len(parts) == 1 and ".." not in parts[0]):
        raise DateError(f"{quoted(text)} is not a set of dates in EDTF.")
    last = len(parts) - 1
    return DateSet(
        text[0] == "{",
        tuple(_member(part, i == 0, i == last, text) for i, part in enumerate(parts)),
    )


def _member(part: str, first: bool, last: bool, whole: str) -> Point | Interval:
    left, dots, right = part.partition("..")
    if not dots:
        return _point(part, whole)
    if (not left and not first) or (not right and not last) or not (left or right):
        raise DateError(f"{quoted(whole)} has an open end inside a set.")
    return _run(left or "..", right or "..", whole)
