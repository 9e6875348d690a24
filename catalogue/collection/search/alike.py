"""More like this: other quilts by pattern, maker, era, technique and colour, with the reasons."""

from __future__ import annotations

import json
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from sqlite_utils import Database

from catalogue.collection.privacy import Reader
from catalogue.collection.search.columns import Column, Flags
from catalogue.collection.search.facts import Value
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.search.matching import Matching
from catalogue.collection.search.shelf import Shelf

# What one shared value is worth at most, by house rule: it is worth the less the more quilts
# share it, and a shared span of years as much as it covers of both spans.
_WORTH = {"pattern": 4.0, "maker": 4.0, "technique": 1.5, "colour": 1.0}
_WORTH_OF_YEARS = 2.0
_LEAST = 2.0  # below this two quilts are not called alike
_MOST_NAMED = 4  # shared values of one kind that a reason names
_YEARS_ALIKE = 0.3  # part of both spans together that must be shared to be named as a reason


@dataclass(frozen=True)
class Alike:
    """A quilt like another, and why, in words; the strongest reason first."""

    quilt: int
    reasons: tuple[str, ...]


def more_like_this(
    database: Database, index: SearchIndex, quilt: int, *, reader: Reader, most: int = 6
) -> list[Alike]:
    """Return the quilts most like this one that the reader may see, at most `most`."""
    snapshot = index.snapshot()
    shelf = snapshot.shelf
    visible = Matching(snapshot, reader).visible
    rows = np.flatnonzero((shelf.plain.quilt == quilt) & visible)
    if not len(rows):
        return []
    return _Comparison(shelf, int(rows[0]), visible).best(database, most)


class _Comparison:
    """One row compared with all others."""

    def __init__(self, shelf: Shelf, row: int, visible: Flags) -> None:
        self._shelf = shelf
        self._row = row
        self._visible = visible
        self._total = int(np.count_nonzero(visible))
        self._own = np.array([row])

    def best(self, database: Database, most: int) -> list[Alike]:
        """Return the quilts that are most like this one."""
        worth = self._of_years() + sum(self._of_values(name) for name in _WORTH)
        worth[~self._visible] = 0
        worth[self._row] = 0
        likely = np.flatnonzero(worth >= _LEAST)
        rows = likely[np.argsort(-worth[likely], kind="stable")][:most]
        quilts = self._shelf.plain.quilt
        return [Alike(int(quilts[row]), self._reasons(database, int(row))) for row in rows]

    def _of_values(self, name: str) -> NDArray[np.float64]:
        """Return what the values that a row shares in this facet are worth."""
        column = self._shelf.columns[name]
        worth = np.zeros(len(self._shelf))
        for number in column.of(self._own)[0]:
            rows = _having(column, int(number))
            worth[rows] += _WORTH[name] * self._rarity(rows)
        return worth

    def _rarity(self, rows: NDArray[np.int64]) -> float:
        """Return 1 for what only two quilts share, less for more, 0 for what all have."""
        count = int(np.count_nonzero(self._visible[rows]))
        if not 1 < count < self._total:
            return 0.0
        return float(np.log(self._total / count) / np.log(self._total / 2))

    def _of_years(self) -> NDArray[np.float64]:
        return _WORTH_OF_YEARS * self._years_alike()

    def _years_alike(self) -> NDArray[np.float64]:
        """Return the years that both spans share as a part of those that either has."""
        plain = self._shelf.plain
        first, last = plain.first_known.astype(float), plain.last_known.astype(float)
        shared = np.minimum(last, last[self._row]) - np.maximum(first, first[self._row]) + 1
        either = np.maximum(last, last[self._row]) - np.minimum(first, first[self._row]) + 1
        known = (first <= last) & bool(first[self._row] <= last[self._row])
        return np.where(known & (shared > 0), shared / np.maximum(either, 1), 0.0)

    def _reasons(self, database: Database, row: int) -> tuple[str, ...]:
        reasons = [self._same_values(database, name, row) for name in _WORTH]
        reasons.insert(2, self._same_years(row))
        return tuple(reason for reason in reasons if reason)

    def _same_values(self, database: Database, name: str, row: int) -> str:
        column = self._shelf.columns[name]
        theirs = set(column.of(np.array([row]))[0].tolist())
        shared = [number for number in column.of(self._own)[0].tolist() if number in theirs]
        telling = [n for n in shared if self._rarity(_having(column, n)) > 0]
        labels = _labels(database, name, [column.values.spelt[number] for number in telling])
        if not labels:
            return ""
        more = [f"{len(labels) - _MOST_NAMED} more"] if len(labels) > _MOST_NAMED else []
        named = ", ".join((*labels[:_MOST_NAMED], *more))
        return f"{_BEFORE[name]}{'s' if len(labels) > 1 else ''}: {named}"

    def _same_years(self, row: int) -> str:
        if self._years_alike()[row] < _YEARS_ALIKE:
            return ""
        plain = self._shelf.plain
        first = max(int(plain.first_known[row]), int(plain.first_known[self._row]))
        last = min(int(plain.last_known[row]), int(plain.last_known[self._row]))
        return f"the same years: {first}" + (f" to {last}" if last > first else "")


_BEFORE = {
    "pattern": "the same pattern",
    "maker": "the same maker",
    "technique": "the same technique",
    "colour": "the same colour",
}
_TABLES = {"pattern": "pattern", "maker": "party"}


def _having(column: Column, number: int) -> NDArray[np.int64]:
    """Return the rows that have a value."""
    places = np.flatnonzero(column.numbers == number)
    return np.searchsorted(column.starts, places, side="right") - 1


def _labels(database: Database, name: str, values: list[Value]) -> list[str]:
    if name not in _TABLES:
        return [str(value) for value in values]
    query = f"SELECT name FROM {_TABLES[name]} WHERE id IN (SELECT value FROM json_each(?))"
    return [row[0] for row in database.execute(query, [json.dumps(values)])]
