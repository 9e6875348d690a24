"""The trade's words for eras, with the years they are taken to mean and where that comes from."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path


class UnknownEraError(KeyError):
    """No era has this key."""


@dataclass(frozen=True, slots=True)
class Era:
    """One era: its name, the words that ask for it, its first and last year, the source."""

    key: str
    name: str
    words: tuple[str, ...]
    first: int
    last: int
    source: str


@lru_cache(maxsize=1)
def eras() -> tuple[Era, ...]:
    """Every era of the table, in the order of the years."""
    with Path(__file__).with_name("eras.csv").open(encoding="utf-8", newline="") as lines:
        found = [
            Era(
                row["key"],
                row["name"],
                tuple(word.strip() for word in row["words"].split(";")),
                int(row["first"]),
                int(row["last"]),
                row["source"],
            )
            for row in csv.DictReader(lines)
        ]
    return tuple(sorted(found, key=lambda era: (era.first, era.last)))


def era(key: str) -> Era:
    """The era with this key. Raises UnknownEraError."""
    for each in eras():
        if each.key == key:
            return each
    raise UnknownEraError(key)


def eras_within(first: int, last: int) -> tuple[Era, ...]:
    """The eras that share a year with the span, those with the most of it first."""
    shared = [(min(last, each.last) - max(first, each.first) + 1, each) for each in eras()]
    overlapping = [(years, each) for years, each in shared if years > 0]
    return tuple(each for _, each in sorted(overlapping, key=lambda pair: -pair[0]))
