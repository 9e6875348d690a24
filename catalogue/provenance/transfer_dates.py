"""When an owner received an object and when it left again, as provenance texts word it.

Source of the phrases and of their bounds: Art Tracks digital provenance standard v0.2 (CC0), date
tables; our additions are marked in `transfer_phrases.csv`. What the dates inside a phrase mean is
settled by `catalogue.values.dates`.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from catalogue.values.dates import DateError, read_date

__all__ = [
    "NO_DATES",
    "UNKNOWN",
    "Bounds",
    "TransferDates",
    "could_begin_dates",
    "read_transfer_dates",
]

Bounds = tuple[str | None, str | None]
"""Earliest and latest day as ISO dates, None where not known."""

UNKNOWN: Bounds = (None, None)


@dataclass(frozen=True)
class TransferDates:
    """The words for the dates of one period, and the bounds of its begin and of its end.

    `caution` is a sentence where the words were read in one of two possible ways.
    """

    phrase: str = ""
    begins: Bounds = UNKNOWN
    ends: Bounds = UNKNOWN
    begins_doubtful: bool = False
    ends_doubtful: bool = False
    caution: str = ""


NO_DATES = TransferDates()

_UNTIL = re.compile(r"(?:^|(?<=\s))(?:until|till|through)\s+", re.IGNORECASE)
_HAS_DATE = re.compile(r"[0-9]|centur|undated|no date", re.IGNORECASE)
_FIRST_WORDS = re.compile(
    r"[0-9]|(?:c|ca)\.|(?:the|early|mid|middle|late|first|second|third|fourth|last|turn|about|"
    r"around|approx\w*|circa|ca|c|by|before|after|since|until|till|through|in|on|as|prior|from|"
    r"between|sometime|some|no|not|possibly|probably|perhaps|undated|spring|summer|autumn|fall|"
    r"winter|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*|[a-z]+teenth|twentieth)\b",
    re.IGNORECASE,
)
_LONGEST = 160  # signs; the longest phrase of four dates has about 110
_DASH = r"\s*[-–—]\s*"
_YEARS_ONLY = re.compile(rf"(?P<one>[0-9]{{4}}\??){_DASH}(?P<two>[0-9]{{2}}(?:[0-9]{{2}})?\??)")


@dataclass(frozen=True)
class _Form:
    """One row of the table of phrases: the words it begins with, and what its dates give."""

    pattern: re.Pattern[str]
    gives: str
    hesitates: bool


@cache
def _forms(of: str) -> tuple[_Form, ...]:
    """Return the phrases for a begin or an end, the most specific first."""
    with (Path(__file__).parent / "transfer_phrases.csv").open(
        encoding="utf-8", newline=""
    ) as file:
        rows = [row for row in csv.DictReader(file) if row["of"] == of]
    rows.sort(key=lambda row: (-len(row["lead"]), -int(row["dates"])))
    return tuple(_form(row["lead"], row["dates"] == "2", row["gives"]) for row in rows)


def _form(lead: str, two_dates: bool, gives: str) -> _Form:
    words = re.escape(lead).replace(r"sometime\ ", r"(?:sometime|some\ time)\ ")
    link = r"\ and\ " if "between" in lead else r"\ to\ "
    second = rf"(?:{link}|{_DASH}(?=[0-9]{{4}}\b))(?P<two>.+)" if two_dates else ""
    one = r"(?P<one>[0-9]{4}\??|.+?)" if two_dates else "(?P<one>.+)"
    start = rf"{words}\ " if lead else ""
    pattern = re.compile(f"{start}{one}{second}", re.IGNORECASE)
    return _Form(pattern, gives, hesitates=gives == "span" and lead == "between")


def could_begin_dates(text: str) -> bool:
    """True where `text` begins as phrases of dates do; a quick test before reading one."""
    return _FIRST_WORDS.match(text) is not None


def read_transfer_dates(text: str) -> TransferDates:
    """Return the bounds that a phrase such as `by 1995 until sometime before 1996?` gives.

    Raises DateError where a date in it cannot be read, or can be read in two ways.
    """
    phrase = " ".join(text.split())
    if len(phrase) > _LONGEST or not _HAS_DATE.search(phrase):
        raise DateError(f'"{phrase}" has no date in it.')
    until = _UNTIL.search(phrase)
    if until is None:
        return replace(_read_begin(phrase), phrase=phrase)
    begin = _read_begin(phrase[: until.start()].strip()) if until.start() else NO_DATES
    if begin.ends[1] is not None:
        raise DateError(f'"{phrase}" gives the end twice.')
    end, doubtful = _read_end(phrase[until.end() :])
    ends = (end[0] or begin.ends[0], end[1])
    caution = begin.caution
    if begin.begins[0] and ends[1] and ends[1] < begin.begins[0]:
        caution = f'"{phrase}" ends before it begins.'
    return replace(begin, phrase=phrase, ends=ends, ends_doubtful=doubtful, caution=caution)


def _read_begin(text: str) -> TransferDates:
    years = _YEARS_ONLY.fullmatch(text)
    if years and (span := _years_span(text, years["one"], years["two"])):
        return span
    form, match = _matching("begin", text)
    one, doubtful = _bounds(match["one"])
    if form.gives == "latest":
        return TransferDates("", (None, one[1]), UNKNOWN, doubtful)
    if form.gives == "earliest":
        return TransferDates("", (one[0], None), UNKNOWN, doubtful)
    if form.gives == "possessed":
        return TransferDates("", (None, one[1]), (one[0], None), doubtful)
    if form.gives == "exact":
        return TransferDates("", one, UNKNOWN, doubtful)
    two, later_doubtful = _bounds(match["two"])
    _in_order(text, one, two)
    if form.gives == "within":
        return TransferDates("", (one[0], two[1]), UNKNOWN, doubtful or later_doubtful)
    caution = (
        f'"{text}" is read as owned from the first date to the second; '
        'write "sometime between" for a passage at some time between them.'
    )
    return TransferDates("", one, two, doubtful, later_doubtful, caution * form.hesitates)


def _years_span(text: str, one: str, two: str) -> TransferDates | None:
    """Read 1935-1960 and 1935-60 as begin and end; 1935-06 is left to the reader of dates."""
    if len(two.rstrip("?")) == 2:
        if int(two.rstrip("?")) <= 12:
            return None
        two = one[:2] + two
    (begin, begin_doubt), (end, end_doubt) = _bounds(one), _bounds(two)
    _in_order(text, begin, end)
    return TransferDates("", begin, end, begin_doubt, end_doubt)


def _read_end(text: str) -> tuple[Bounds, bool]:
    form, match = _matching("end", text)
    one, doubtful = _bounds(match["one"])
    if form.gives == "within":
        two, later_doubtful = _bounds(match["two"])
        _in_order(text, one, two)
        return (one[0], two[1]), doubtful or later_doubtful
    return {"earliest": (one[0], None), "latest": (None, one[1])}.get(form.gives, one), doubtful


def _matching(of: str, text: str) -> tuple[_Form, re.Match[str]]:
    for form in _forms(of):
        match = form.pattern.fullmatch(text)
        if match is not None:
            return form, match
    raise DateError(f'"{text}" is not a date.')


def _bounds(text: str) -> tuple[Bounds, bool]:
    """Return the bounds of one date and whether a question mark follows it."""
    bare = text.strip().removesuffix("?").rstrip()
    date = read_date(bare)
    if date.earliest is None and date.latest is None:
        raise DateError(f'"{bare}" gives no bounds.')
    return (date.earliest, date.latest), text.strip() != bare


def _in_order(text: str, one: Bounds, two: Bounds) -> None:
    if one[0] and two[1] and one[0] > two[1]:
        raise DateError(f'"{text}" ends before it begins.')
