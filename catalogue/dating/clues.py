"""Dating clues: what is seen on a quilt or told of it, and the years it speaks for.

The table `clues.csv` holds the clues that cataloguers tick, each with its source, the
disagreements between sources, and a mark on every figure given from memory.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Literal

Force = Literal["earliest possible", "usual span", "says nothing"]
FORCES: tuple[Force, ...] = ("earliest possible", "usual span", "says nothing")

Role = Literal["original", "repair", "replacement"]


class ClueError(ValueError):
    """A clue or a reading of one that cannot be used."""


@dataclass(frozen=True, slots=True)
class Clue:
    """One clue: the years in which it is possible, usual and still usual.

    `earliest` is a floor where the force is "earliest possible", else the first year known;
    `peak_from` and `peak_to` bound the usual years; `latest` is the last usual year. Any may be
    None. `short` is the name inside a sentence. `reproduced` marks what has been made again since,
    so that only its beginning counts; `memory` names the figures given from memory ("all", or
    some of the fields).
    """

    key: str
    name: str
    short: str
    kind: str
    force: Force
    earliest: int | None = None
    peak_from: int | None = None
    peak_to: int | None = None
    latest: int | None = None
    reproduced: bool = False
    memory: str = ""
    caution: str = ""
    source: str = ""
    address: str = ""

    def __post_init__(self) -> None:
        listed = (self.earliest, self.peak_from, self.peak_to, self.latest)
        years = [year for year in listed if year is not None]
        if years != sorted(years):
            raise ClueError(f'The years of the clue "{self.name}" are not in order: {years}.')

    @property
    def begins(self) -> int | None:
        """The first year it speaks for, None where it has no beginning."""
        return self.peak_from if self.earliest is None else self.earliest

    @property
    def ends(self) -> int | None:
        """The last usual year, None where it has no end or has been reproduced."""
        if self.reproduced:
            return None
        return self.peak_to if self.latest is None else self.latest

    @property
    def peak_end(self) -> int | None:
        """The last year at its best, None where it never wanes."""
        if self.reproduced:
            return None
        return self.latest if self.peak_to is None else self.peak_to

    def of_year(self, first: int, last: int | None = None) -> Clue:
        """The same clue with its own years, for prints and sources that bear a date."""
        return replace(self, earliest=first, peak_from=first, peak_to=last or first)


SURENESS: Mapping[str, float] = {"sure": 1.0, "likely": 0.8, "possible": 0.5, "doubtful": 0.2}
"""How sure a cataloguer is, as a chance (house rule)."""


@dataclass(frozen=True, slots=True)
class ClueReading:
    """A clue ticked on a phase of making.

    `present` and `original` are chances from 0 to 1 that it is there and that it belongs to this
    phase; `role` says whether it sits in a repair or a replaced part; `reproduced` overrules the
    table's own word on later reproductions.
    """

    clue: Clue
    present: float = 1.0
    original: float = 1.0
    role: Role = "original"
    reproduced: bool | None = None

    def __post_init__(self) -> None:
        for chance in (self.present, self.original):
            if not 0 <= chance <= 1:
                raise ClueError(f'"{chance}" is not a chance between 0 and 1 ({self.clue.name}).')

    @property
    def sure(self) -> float:
        """Chance that the clue speaks for this phase at all."""
        return self.present * self.original

    @property
    def effective(self) -> Clue:
        """The clue as it counts here: with an end or, where reproduced, without."""
        if self.reproduced is None or self.reproduced == self.clue.reproduced:
            return self.clue
        return replace(self.clue, reproduced=self.reproduced)


@lru_cache(maxsize=1)
def clue_table() -> Mapping[str, Clue]:
    """Every clue of the data file by its key, in the order of the file."""
    table = Path(__file__).with_name("clues.csv")
    with table.open(encoding="utf-8", newline="") as lines:
        return {row["key"]: _clue(row) for row in csv.DictReader(lines)}


def _clue(row: dict[str, str]) -> Clue:
    force = next((force for force in FORCES if force == row["force"]), None)
    if force is None:
        raise ClueError(f'"{row["force"]}" is not a force of a clue ({row["key"]}).')
    return Clue(
        row["key"],
        row["clue"],
        row["short"],
        row["kind"],
        force,
        _year(row["earliest"]),
        _year(row["peak_from"]),
        _year(row["peak_to"]),
        _year(row["latest"]),
        reproduced=row["reproduced"] == "yes",
        memory=row["memory"],
        caution=row["caution"],
        source=row["source"],
        address=row["address"],
    )


def _year(text: str) -> int | None:
    return int(text) if text else None


def inscription(first: int, last: int | None = None, name: str = "inscription") -> Clue:
    """A date on the quilt or its label: strong, yet it may have been added later."""
    return _told("inscription", name, first, last)


def document(first: int, last: int | None = None, name: str = "document") -> Clue:
    """A letter, receipt or diary that tells of the making."""
    return _told("document", name, first, last)


def memory(first: int, last: int | None = None, name: str = "family memory") -> Clue:
    """What the family remembers of the making."""
    return _told("memory", name, first, last)


def _told(kind: str, name: str, first: int, last: int | None) -> Clue:
    return Clue(kind, name, name, kind, "usual span", None, first, first if last is None else last)
