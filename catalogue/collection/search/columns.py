"""One facet of all quilts in memory: which values each row has, counted and matched in numpy."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from catalogue.collection.search.facts import Value

Rows = NDArray[np.int64]
Flags = NDArray[np.bool_]


class Values:
    """The values of a facet by number; differences of case make no other value. It only grows."""

    def __init__(self) -> None:
        self._numbers: dict[Value, int] = {}
        self.spelt: list[Value] = []

    def number(self, value: Value) -> int:
        """Return the number of a value, a new one where it was not known."""
        key = value.casefold() if isinstance(value, str) else value
        known = self._numbers.get(key)
        if known is None:
            known = self._numbers[key] = len(self.spelt)
            self.spelt.append(value)
        return known

    def known(self, value: Value) -> int | None:
        """Return the number of a value, None where no quilt ever had it."""
        return self._numbers.get(value.casefold() if isinstance(value, str) else value)


@dataclass(frozen=True)
class Column:
    """The numbers of row r's values are `numbers[starts[r] : starts[r + 1]]`; never changed."""

    values: Values
    starts: NDArray[np.int64]
    numbers: NDArray[np.int32]

    @classmethod
    def empty(cls) -> Column:
        """Return the column of no rows."""
        return cls(Values(), np.zeros(1, np.int64), np.zeros(0, np.int32))

    def extended(self, more: int, pairs: Iterable[tuple[int, Value]]) -> Column:
        """Return the column with `more` rows; each pair is one of them, from 0, and a value."""
        found = {(row, self.values.number(value)) for row, value in pairs}
        ordered = np.array(sorted(found), np.int64).reshape(-1, 2)
        counts = np.bincount(ordered[:, 0], minlength=more)
        starts = self.starts[-1] + np.cumsum(counts)
        return Column(
            self.values,
            np.concatenate([self.starts, starts]),
            np.concatenate([self.numbers, ordered[:, 1].astype(np.int32)]),
        )

    def of(self, rows: Rows) -> tuple[NDArray[np.int32], Rows]:
        """Return the values of these rows, and for each its row's place among them."""
        starts = self.starts[rows]
        counts = self.starts[rows + 1] - starts
        owners = np.repeat(np.arange(len(rows)), counts)
        first = np.cumsum(counts) - counts
        return self.numbers[np.arange(len(owners)) + (starts - first)[owners]], owners

    def counted(self, rows: Rows) -> dict[int, int]:
        """Return in how many of these rows each value stands."""
        counts = np.bincount(self._of_most(rows), minlength=1)
        return {int(number): int(counts[number]) for number in np.flatnonzero(counts)}

    def _of_most(self, rows: Rows) -> NDArray[np.int32]:
        if len(rows) == len(self.starts) - 1:
            return self.numbers
        return self.of(rows)[0]

    def having(self, rows: Rows, values: Collection[Value]) -> Flags:
        """Return for each of these rows whether it has any of the values."""
        wanted = np.zeros(len(self.values.spelt) + 1, bool)
        for value in values:
            number = self.values.known(value)
            if number is not None:
                wanted[number] = True
        numbers, owners = self.of(rows)
        having = np.zeros(len(rows), bool)
        having[owners[wanted[numbers]]] = True
        return having
