"""All quilts in memory as rows of numpy columns: facts to count, to narrow and to sort by.

A shelf is never changed. A saved quilt gets a new row at the end and its old row is dead from then
on; whoever is still counting on the shelf before sees it whole. Dead rows go when the index is
next opened.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from catalogue.collection.search.columns import Column, Flags, Rows
from catalogue.collection.search.facts import Fact, Facts

# The columns of facets, as `facts` calls them.
COLUMNS = (
    *("pattern", "family", "setting", "setting seen", "technique", "maker", "place", "colour"),
    *("condition", "publication", "status"),
)

SORTS = ("number", "date", "title", "size")

Numbers = NDArray[Any]
_INSERTED_AT_MOST = 500  # more new rows than this are sorted in with all the others anew


def _none(dtype: type) -> Callable[[], Numbers]:
    return lambda: np.zeros(0, dtype)


@dataclass(frozen=True)
class Plain:
    """Facts with one value each, as columns; see `facts.Fact` for what they mean."""

    quilt: NDArray[np.int64] = field(default_factory=_none(np.int64))
    published: Flags = field(default_factory=_none(np.bool_))
    first: NDArray[np.int16] = field(default_factory=_none(np.int16))
    last: NDArray[np.int16] = field(default_factory=_none(np.int16))
    first_known: NDArray[np.int16] = field(default_factory=_none(np.int16))
    last_known: NDArray[np.int16] = field(default_factory=_none(np.int16))
    first_day: NDArray[np.int32] = field(default_factory=_none(np.int32))
    last_day: NDArray[np.int32] = field(default_factory=_none(np.int32))
    area: NDArray[np.float32] = field(default_factory=_none(np.float32))
    words: NDArray[np.int32] = field(default_factory=_none(np.int32))

    def extended(self, facts: list[Fact]) -> Plain:
        """Return the columns with more rows."""
        joined = {}
        for name, column in vars(self).items():
            more = np.array([getattr(fact, name) for fact in facts], column.dtype)
            joined[name] = np.concatenate([column, more])
        return Plain(**joined)


@dataclass(frozen=True)
class Shelf:
    """Rows of quilts; `alive` where the row is the quilt as it now stands.

    `orders` holds all rows in the order of each sort. The two lists only ever grow, and are longer
    than the shelf where a later shelf shares them.
    """

    plain: Plain = field(default_factory=Plain)
    alive: Flags = field(default_factory=_none(np.bool_))
    columns: dict[str, Column] = field(
        default_factory=lambda: {name: Column.empty() for name in COLUMNS}
    )
    orders: dict[str, Rows] = field(
        default_factory=lambda: {name: np.zeros(0, np.int64) for name in SORTS}
    )
    numbers: list[str] = field(default_factory=list)
    titles: list[str] = field(default_factory=list)

    def __len__(self) -> int:
        return len(self.alive)

    def with_facts(self, facts: Facts, dead: Iterable[int]) -> Shelf:
        """Return a shelf with new rows for these quilts, and with some rows dead."""
        base, more = len(self), len(facts.quilts)
        place = {fact.quilt: row for row, fact in enumerate(facts.quilts)}
        alive = np.concatenate([self.alive, np.ones(more, bool)])
        alive[list(dead)] = False
        columns = {
            name: column.extended(
                more, ((place[id], value) for id, value in facts.values[name] if id in place)
            )
            for name, column in self.columns.items()
        }
        self.numbers[base:] = (fact.number for fact in facts.quilts)
        self.titles[base:] = (fact.title for fact in facts.quilts)
        grown = replace(self, plain=self.plain.extended(facts.quilts), alive=alive, columns=columns)
        return replace(grown, orders=grown._sorted_from(base))

    def _sorted_from(self, base: int) -> dict[str, Rows]:
        """Return the orders with the rows from `base` on put in."""
        if len(self) - base > _INSERTED_AT_MOST:
            return self._all_sorted()
        return {name: self._inserted(name, base) for name in SORTS}

    def _all_sorted(self) -> dict[str, Rows]:
        """Return every order made anew, as `_key` says; each keeps the order of the numbers."""
        by_number = sorted(range(len(self)), key=lambda row: _text_key(self.numbers[row]))
        rows = np.array(by_number, np.int64)
        first, last = self.plain.first_day[rows], self.plain.last_day[rows]
        return {
            "number": rows,
            "date": rows[np.lexsort((last, first))],
            "title": np.array(sorted(by_number, key=self.titles.__getitem__), np.int64),
            "size": rows[np.argsort(-self.plain.area[rows], kind="stable")],
        }

    def _inserted(self, sort: str, base: int) -> Rows:
        order = self.orders[sort]
        for row in range(base, len(self)):
            place = bisect_left(
                range(len(order)),
                self._key(sort, row),
                key=lambda at: self._key(sort, int(order[at])),
            )
            order = np.insert(order, place, row)
        return order

    def _key(self, sort: str, row: int) -> tuple[Any, ...]:
        """Return what a row is sorted by; a quilt that lacks it comes last."""
        number = *_text_key(self.numbers[row]), int(self.plain.quilt[row])
        if sort == "date":
            return self.plain.first_day[row], self.plain.last_day[row], *number
        if sort == "title":
            return self.titles[row], *number
        if sort == "size":
            return -self.plain.area[row], *number
        return number


def _text_key(number: str) -> tuple[bool, str]:
    return not number, number
