"""Facets: ways of narrowing a search, each value with the number of quilts it would leave.

Several values of one facet are alternatives; several facets must all agree. The counts of a facet
are worked out as if nothing were chosen in it, so that each says what choosing that value as well,
or instead, would give. Counts are over rows that the person asking may see, and facets that are
for members are not counted for visitors and do not narrow their searches.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

import numpy as np
from sqlite_utils import Database

from catalogue.collection.exhibits.displayed import on_display
from catalogue.collection.privacy import Reader
from catalogue.collection.search.columns import Column, Flags, Rows
from catalogue.collection.search.facts import Value
from catalogue.collection.search.shelf import Shelf
from catalogue.collection.vocabulary import CONDITION_GRADES, SETTINGS, STATUSES

LABELS = {
    "pattern": "Pattern",
    "family": "Drafting family",
    "decade": "Made in",
    "setting": "Setting",
    "technique": "Technique",
    "maker": "Maker",
    "place": "Place",
    "colour": "Colour",
    "condition": "Condition",
    "display": "On display",
    "publication": "Published in",
    "status": "Status",
}
NUMBERED = frozenset({"pattern", "decade", "maker", "publication"})  # values are whole numbers
DISPLAYED, NOT_DISPLAYED = "yes", "no"
NOT_KNOWN = "not on record"  # of an id in an address

# What each facet is made from that is not for everybody.
_FOR_MEMBERS = {"condition": "conditions", "status": "status"}

# Values that are ids of records, and the order of values that have one of their own.
_NAMED = {"pattern": "pattern", "maker": "party", "publication": "publication"}
_ORDERS: dict[str, tuple[Value, ...]] = {
    "condition": CONDITION_GRADES,
    "status": STATUSES,
    "setting": SETTINGS,
    "display": (DISPLAYED, NOT_DISPLAYED),
}
_WORDS: dict[tuple[str, Value], str] = {
    ("display", DISPLAYED): "on display",
    ("display", NOT_DISPLAYED): "not on display",
    ("setting", "none"): "no setting",
}


@dataclass(frozen=True)
class FacetValue:
    """One value: as it stands in an address, in words, how many quilts, whether it is chosen."""

    value: Value
    label: str
    count: int
    chosen: bool


@dataclass(frozen=True)
class Facet:
    """One facet with its values, the most frequent first; `more` of them are not listed."""

    name: str
    label: str
    values: tuple[FacetValue, ...]
    more: int = 0


Chosen = Mapping[str, tuple[Value, ...]]


class Facets:
    """The facets of one shelf for one person, on one day."""

    def __init__(
        self, shelf: Shelf, database: Database, reader: Reader, day: date | None = None
    ) -> None:
        self._shelf = shelf
        self._database = database
        self._reader = reader
        self._day = day or date.today()
        self.names = tuple(n for n in LABELS if n not in _FOR_MEMBERS or _sees(reader, n))

    def narrowed(self, rows: Rows, chosen: Chosen) -> tuple[Rows, dict[str, Rows]]:
        """Return the rows that fit every choice, and for each choice those that fit all others."""
        fitting = {
            name: self._having(name, rows, values)
            for name, values in chosen.items()
            if values and name in self.names
        }
        if not fitting:
            return rows, {}
        misses = np.sum([~fits for fits in fitting.values()], axis=0)
        others = {name: rows[misses == ~fits] for name, fits in fitting.items()}
        return rows[misses == 0], others

    def counted(self, name: str, rows: Rows, chosen: tuple[Value, ...], most: int) -> Facet:
        """Return one facet over these rows; what is chosen is listed with however few quilts."""
        counts = self._counts(name, rows)
        keys = sorted(counts, key=lambda key: (-counts[key][1], str(key)))
        whole = name in _ORDERS or name == "decade"
        wanted = {_key(value): value for value in chosen}
        listed = keys if whole else keys[:most]
        listed = [*listed, *(key for key in wanted if key not in listed)]
        shown = {key: counts.get(key, (wanted.get(key, key), 0)) for key in listed}
        told = [v for key, (v, _) in shown.items() if key in counts or self._may_learn(name, v)]
        labels = self._labels(name, told)
        values = [
            FacetValue(value, labels.get(value, NOT_KNOWN), count, key in wanted)
            for key, (value, count) in shown.items()
        ]
        values.sort(key=lambda each: _place(name, each))
        return Facet(name, LABELS[name], tuple(values), len(counts.keys() - shown.keys()))

    def _column(self, name: str) -> Column:
        if name == "setting" and not self._reader.sees("Quilt", "decisions"):
            name = "setting seen"  # not what somebody decided about a layout
        return self._shelf.columns[name]

    def _having(self, name: str, rows: Rows, values: tuple[Value, ...]) -> Flags:
        """Return which of the rows have any of the values."""
        if name == "decade":
            return self._in_decades(rows, values)
        if name == "display":
            shown = self._displayed(rows)
            wanted = [shown if value == DISPLAYED else ~shown for value in values]
            fitting: Flags = np.any(wanted, axis=0)
            return fitting
        return self._column(name).having(rows, values)

    def _counts(self, name: str, rows: Rows) -> dict[Value, tuple[Value, int]]:
        """Return by key the values that any of the rows have, as they are spelt, with how many."""
        counted: dict[Value, int]
        if name == "decade":
            counted = self._decades(rows)
        elif name == "display":
            shown = int(np.count_nonzero(self._displayed(rows)))
            counted = {DISPLAYED: shown, NOT_DISPLAYED: len(rows) - shown}
        else:
            column = self._column(name)
            spelt = column.values.spelt
            counted = {spelt[number]: count for number, count in column.counted(rows).items()}
        return {_key(value): (value, count) for value, count in counted.items() if count}

    def _decades(self, rows: Rows) -> dict[Value, int]:
        """Return in how many spans of these rows each decade lies, wholly or in part."""
        plain = self._shelf.plain
        first, last = plain.first_known[rows] // 10, plain.last_known[rows] // 10
        known = first <= last
        if not known.any():
            return {}
        first, last = first[known].astype(np.int64), last[known].astype(np.int64)
        lowest = int(first.min())
        size = int(last.max()) - lowest + 2
        begun = np.bincount(first - lowest, minlength=size)
        ended = np.bincount(last - lowest + 1, minlength=size)
        under_way = np.cumsum(begun - ended)
        return {10 * (lowest + int(at)): int(under_way[at]) for at in np.flatnonzero(under_way)}

    def _in_decades(self, rows: Rows, decades: tuple[Value, ...]) -> Flags:
        plain = self._shelf.plain
        first, last = plain.first_known[rows], plain.last_known[rows]
        years = [decade for decade in decades if isinstance(decade, int) and abs(decade) < 10_000]
        within = [(first <= year + 9) & (last >= year) for year in years]
        none = np.zeros(len(rows), bool)
        fitting: Flags = np.any([none, *within], axis=0) & (first <= last)
        return fitting

    def _displayed(self, rows: Rows) -> Flags:
        shown = on_display(self._database, self._day, published_only=self._reader.is_visitor)
        return np.isin(self._shelf.plain.quilt[rows], list(shown))

    def _labels(self, name: str, values: list[Value]) -> dict[Value, str]:
        """Return values in words: the name of the record, if there is one, where it is an id."""
        if name == "decade":
            return {value: f"{value}s" for value in values}
        labels = {value: _WORDS.get((name, value), str(value)) for value in values}
        if name in _NAMED and values:
            ids = json.dumps(values)
            query = f"SELECT id, name FROM {_NAMED[name]} WHERE id IN"
            query += " (SELECT value FROM json_each(?))"
            return dict(self._database.execute(query, [ids]).fetchall())
        return labels

    def _may_learn(self, name: str, value: Value) -> bool:
        """Say whether the reader may see the name of an id that none of the rows has."""
        if name not in _NAMED or not self._reader.is_visitor:
            return True
        published = np.flatnonzero(self._shelf.alive & self._shelf.plain.published)
        return bool(self._column(name).having(published, (value,)).any())


def _sees(reader: Reader, facet: str) -> bool:
    return not reader.is_visitor and reader.sees("Quilt", _FOR_MEMBERS[facet])


def _key(value: Value) -> Value:
    return value.casefold() if isinstance(value, str) else value


def _place(name: str, each: FacetValue) -> tuple[int, str]:
    """Return what a value is listed by: its own order, its years, or how many quilts."""
    if name in _ORDERS:
        order = _ORDERS[name]
        return order.index(each.value) if each.value in order else len(order), each.label
    if name == "decade":
        return int(each.value), ""
    return -each.count, each.label.casefold()
