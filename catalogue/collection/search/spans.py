"""Years and eras inside a typed question: "1930-1940", "before 1900", "depression era"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from catalogue.dating.eras import Era, eras
from catalogue.values.date_policy import DEFAULT_POLICY, DatePolicy
from catalogue.values.dates import DateError, HistoricDate, read_date
from catalogue.values.days import year_of

_MOST_WORDS = 6  # of one date or era
_SPEAKS_OF_A_YEAR = re.compile(r"\b1[0-9]{3}|\b20[0-9]{2}|centur", re.IGNORECASE)
_YEAR = re.compile(r"[0-9]{4}")
_ACCESSION = re.compile(r"[0-9]{4}(?:\.[0-9]+)+[a-z]*", re.IGNORECASE)

# Words that say that a time is meant. Without one of them "victorian" or "civil war" may as well
# be a word of the record, and both are looked for.
_OF_TIME = re.compile(r"\b(?:eras?|period|years?|century|fad|revival|republic)\b")


@dataclass(frozen=True)
class Span:
    """Years that are asked for, None where open; `words` where the text may say it instead.

    `era` is the key of the era, where one was asked for by name.
    """

    first: int | None
    last: int | None
    says: str
    words: str = ""
    excluded: bool = False
    era: str = ""


def span_at(
    pieces: Sequence[str], place: int, policy: DatePolicy = DEFAULT_POLICY
) -> tuple[Span, int] | None:
    """Return the era or date that begins with this piece, and how many pieces it takes.

    The longest one counts; None where the piece begins neither.
    """
    for length in range(min(_MOST_WORDS, len(pieces) - place), 0, -1):
        text = " ".join(pieces[place : place + length])
        span = _era(text) or _dated(text, policy)
        if span is not None:
            return span, length
    return None


def _era(text: str) -> Span | None:
    words = _plain(text)
    found = _eras().get(words)
    if found is None:
        return None
    says = f"made {found.first} to {found.last} ({found.name})"
    instead = "" if _OF_TIME.search(words) else words
    return Span(found.first, found.last, says, instead, era=found.key)


@cache
def _eras() -> dict[str, Era]:
    """Every era by each of its words, the shorter era where two share a word."""
    found: dict[str, Era] = {}
    for era in sorted(eras(), key=lambda era: era.first - era.last):
        found |= {_plain(words): era for words in (era.name, *era.words)}
    return found


def _plain(text: str) -> str:
    return " ".join(re.split(r"[\s\u2010\u2011-]+", text.strip(".,;").casefold()))


def _dated(text: str, policy: DatePolicy) -> Span | None:
    if not _SPEAKS_OF_A_YEAR.search(text) or _ACCESSION.fullmatch(text) or not _edged(text):
        return None
    try:
        date = read_date(text.strip(",;"), policy)
    except DateError:
        return None
    if date.earliest is None and date.latest is None:
        return None
    return _of_date(date, text)


def _edged(text: str) -> bool:
    """Whether letters or figures stand at both ends, so that no lone dash is part of a date."""
    parts = text.split()
    return all(any(letter.isalnum() for letter in part) for part in (parts[0], parts[-1]))


def _of_date(date: HistoricDate, text: str) -> Span:
    first = year_of(date.earliest) if date.earliest is not None else None
    last = year_of(date.latest) if date.latest is not None else None
    plain_year = bool(_YEAR.fullmatch(text.strip(",;")))
    says = f"made in {date.says}" if date.says.startswith("the ") else f"made {date.says}"
    return Span(first, last, says, text.strip(",;") if plain_year else "")


def combined(spans: Sequence[Span]) -> tuple[Span, ...]:
    """Return the spans as alternatives; "after 1850" and "before 1900" together are one."""
    wanted = [span for span in spans if not span.excluded]
    begun = [span for span in wanted if span.last is None]
    ended = [span for span in wanted if span.first is None]
    if len(begun) != 1 or len(ended) != 1:
        return tuple(spans)
    first, last = begun[0].first, ended[0].last
    if first is None or last is None or first > last:
        return tuple(spans)
    both = Span(first, last, f"made {first} to {last}")
    return (both, *(span for span in spans if span not in (*begun, *ended)))
