"""What a check of an exhibit finds: a plain sentence with its numbers and their source."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from catalogue.values.date_says import MONTHS


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to put right or to know.

    `kind` is a short name that pages can group by; `about` names the quilts and walls concerned,
    by key; `source` is whoever the figure comes from, "" where it is plain arithmetic.
    """

    kind: str
    says: str
    about: tuple[str, ...] = ()
    source: str = ""


def written(day: date) -> str:
    """A day as it stands in a sentence: 17 February 2027."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def counted(number: int, thing: str) -> str:
    """So many things: "1 day", "3 days"."""
    return f"{number:,} {thing}{'' if number == 1 else 's'}"
