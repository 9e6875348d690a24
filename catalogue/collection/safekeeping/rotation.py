"""Which copies are kept: the last few, then one a week, then one a month.

The figures of the policy are common practice, no source; a collection may change them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime


class KeepPolicyError(ValueError):
    """A figure that no policy can have; the message is one sentence for the user."""


@dataclass(frozen=True)
class KeepPolicy:
    """How many copies stay: the last, and the newest of each of so many weeks and months."""

    last: int = 7
    weeks: int = 4
    months: int = 12

    @classmethod
    def from_texts(cls, asked: Mapping[str, str]) -> KeepPolicy:
        """Return the policy that was typed. Raises KeepPolicyError."""
        return cls(**{name: _figure(name, asked[name]) for name in asdict(cls())})


def _figure(name: str, text: str) -> int:
    least = 1 if name == "last" else 0
    if not text.isascii() or not text.isdigit() or not least <= int(text) <= 999:
        raise KeepPolicyError(f"“{text[:20]}” is not a number of copies from {least} to 999.")
    return int(text)


@dataclass(frozen=True)
class Dated:
    """A copy as the policy sees it; a higher number was made later, whatever the clock said."""

    number: int
    made: datetime


def kept(copies: Iterable[Dated], policy: KeepPolicy) -> set[int]:
    """Return the numbers of the copies that stay.

    A week or a month counts if a copy was made in it: years without any cost no old copy.
    """
    newest_first = sorted(copies, key=lambda copy: -copy.number)
    return {
        *(copy.number for copy in newest_first[: policy.last]),
        *_newest_of_each(newest_first, policy.weeks, lambda made: made.isocalendar()[:2]),
        *_newest_of_each(newest_first, policy.months, lambda made: (made.year, made.month)),
    }


def _newest_of_each(
    newest_first: list[Dated], spans: int, span_of: Callable[[datetime], tuple[int, int]]
) -> list[int]:
    newest: dict[tuple[int, int], int] = {}
    for copy in newest_first:
        newest.setdefault(span_of(copy.made), copy.number)
    return list(newest.values())[:spans]
