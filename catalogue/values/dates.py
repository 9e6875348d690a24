"""Dates with their doubt: what was written, the same as EDTF, its bounds, and how it reads.

Conformance: EDTF (Library of Congress, 4 February 2019) level 1, read and written. Of level 2
these are read: seasons and parts of the year 25 to 41, exponential years, significant digits,
sets of dates, qualified and unspecified parts anywhere. Of level 2 only sets ([1935,1936],
{1935,1936}) and the wholly unknown year XXXX are written.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from catalogue.values import date_says, edtf_forms, written_dates
from catalogue.values.date_policy import DEFAULT_POLICY, DatePolicy
from catalogue.values.days import iso, year_of
from catalogue.values.edtf_forms import DateError, quoted
from catalogue.values.edtf_guard import guarded
from catalogue.values.edtf_points import Expression, bounds
from catalogue.values.phase_texts import phase_texts

__all__ = [
    "UNDATED",
    "DateError",
    "HistoricDate",
    "WrittenPhase",
    "answer_date",
    "read_date",
    "read_edtf",
    "read_phases",
]


@dataclass(frozen=True, slots=True)
class HistoricDate:
    """A date as a historian knows it.

    `written` is the cataloguer's own text; `edtf` the same in EDTF; `earliest` and `latest` are
    ISO dates (signed beyond years 0001 to 9999), None where that end is open or unknown; `says`
    is the interpretation in words.
    """

    written: str
    edtf: str
    earliest: str | None
    latest: str | None
    says: str

    @property
    def earliest_year(self) -> int | None:
        """Year of the earliest bound, None where it is open or unknown."""
        return None if self.earliest is None else year_of(self.earliest)

    @property
    def latest_year(self) -> int | None:
        """Year of the latest bound, None where it is open or unknown."""
        return None if self.latest is None else year_of(self.latest)


UNDATED = HistoricDate("undated", "XXXX", None, None, "undated")
"""What "undated", "n.d." and "date unknown" mean: EDTF's year with no digit specified."""


def read_date(text: str, policy: DatePolicy = DEFAULT_POLICY) -> HistoricDate:
    """The date that a person's words or EDTF mean under the policy.

    Raises `DateError` with one sentence that quotes the text where it cannot be understood, where
    nothing is written, and, naming every reading, where it can be understood in several ways.
    """
    if not text.strip():
        raise DateError('No date is written; write "undated" where none is known.')
    readings = written_dates.readings(text, policy)
    dates = [_dated(text, edtf, edtf_forms.parse(edtf), policy) for edtf in readings]
    if not dates:
        raise DateError(_not_understood(text))
    if len(dates) > 1:
        raise DateError(_ambiguous(text, dates))
    return dates[0]


_AGE = re.compile(r"\b(?:years?|yrs?|centur(?:y|ies)|decades?) (?:old|ago)\b", re.IGNORECASE)


def _not_understood(text: str) -> str:
    phases = phase_texts(text) if len(text) <= written_dates.LONGEST_WORDS else ()
    if phases:
        told = "; ".join(f"{label} {date}" for label, date in phases)
        if len(phases) == 1:
            return f"{quoted(text)} dates one phase of making ({told}); enter it on that phase."
        return f"{quoted(text)} tells of several phases of making ({told}); enter each on its own."
    if _AGE.search(text):
        return f"{quoted(text)} tells an age and not a date; write the years that it means."
    if written_dates.names_missing_day(text):
        return f"{quoted(text)} names a day that the calendar does not have."
    return f"{quoted(text)} is not understood as a date."


_COUNTS = {2: "two", 3: "three", 4: "four"}


def _ambiguous(text: str, dates: list[HistoricDate]) -> str:
    count = _COUNTS.get(len(dates), str(len(dates)))
    means = " or as ".join(date.says for date in dates)
    return f"{quoted(text)} can be read in {count} ways, as {means}; write which is meant."


@dataclass(frozen=True, slots=True)
class WrittenPhase:
    """One phase of making as a text tells it: what was done ("" if it does not say), and when."""

    done: str
    date: HistoricDate


def read_phases(text: str, policy: DatePolicy = DEFAULT_POLICY) -> tuple[WrittenPhase, ...]:
    """The phases of making that a text tells of: two for "top 1935; quilted 1972".

    A plain date gives one phase without a name. Raises `DateError` as `read_date` does.
    """
    phases = phase_texts(text) if len(text) <= written_dates.LONGEST_WORDS else ()
    if not phases:
        return (WrittenPhase("", read_date(text, policy)),)
    return tuple(WrittenPhase(done, read_date(date, policy)) for done, date in phases)


def read_edtf(text: str, policy: DatePolicy = DEFAULT_POLICY) -> HistoricDate:
    """The date that an EDTF text means; raises `DateError` where two readers do not agree on it."""
    return _dated(text, text, guarded(text), policy)


def _dated(written: str, edtf: str, expression: Expression, policy: DatePolicy) -> HistoricDate:
    first, last = bounds(expression, policy)
    words = UNDATED.says if edtf == UNDATED.edtf else date_says.says(expression)
    return HistoricDate(
        written,
        edtf,
        None if first is None else iso(first),
        None if last is None else iso(last),
        words,
    )


def answer_date(line: str, edtf_only: bool = False) -> dict[str, str | None]:
    """The answer of `catalogue read dates` to one line: never raises, whatever the characters."""
    try:
        date = read_edtf(line) if edtf_only else read_date(line)
    except DateError as error:
        return {"id": None, "text": line, "error": str(error)}
    return {
        "text": line,
        "edtf": date.edtf,
        "earliest": date.earliest,
        "latest": date.latest,
        "says": date.says,
    }
