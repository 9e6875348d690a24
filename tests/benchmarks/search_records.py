"""Records to search: made at random from a fixed seed, written straight into the tables.

Words follow Zipf's law over a vocabulary of 30,000, as the words of any large text roughly do
(Zipf, "Human Behavior and the Principle of Least Effort", 1949), 80 to 200 of them a record.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

VOCABULARY = 30_000
COLOURS = ("red", "green", "blue", "pink", "yellow", "brown", "purple", "grey", "black", "orange")
TECHNIQUES = tuple(f"technique {n}" for n in range(20))
PLACES = tuple(f"Place {n}" for n in range(200))
SETTINGS = ("straight", "on point", "strippy", "bars", "medallion", "one-patch")
STATUSES = ("accessioned", "accessioned", "accessioned", "accepted", "offered")
GRADES = ("excellent", "good", "fair", "poor", "fragile")
FAMILIES = ("four-patch", "nine-patch", "five-patch", "seven-patch", "curved", "hexagon")
PATTERNS, PUBLICATIONS = 300, 40

_SEED = 5
_BEGINNINGS = (*"bdfghklmnprstvw", *("br", "dr", "fl", "gr", "kl", "pr", "st", "tr"))
_MIDDLES = (*"aeiou", "ai", "ea", "oo")
_LAST = tuple("nrlktm")


@dataclass(frozen=True)
class Made:
    """Records as they were made: each a row of word numbers, the most frequent being 0."""

    quilts: int

    @cached_property
    def vocabulary(self) -> list[str]:
        """Return words that can be spoken, no two alike, the most frequent first."""
        chance = np.random.default_rng(_SEED)
        words: dict[str, None] = {}
        while len(words) < VOCABULARY:
            parts = [chance.choice(_BEGINNINGS) + chance.choice(_MIDDLES) for _ in range(2)]
            words["".join(parts) + chance.choice(_BEGINNINGS[:15]) + "o" + chance.choice(_LAST)] = (
                None
            )
        return list(words)

    @cached_property
    def texts(self) -> list[str]:
        """Return the text of each quilt, the same for a number however many there are."""
        chance = np.random.default_rng(_SEED + 1)
        share = 1 / np.arange(1, VOCABULARY + 1)
        bounds = np.cumsum(share / share.sum())
        lengths = chance.integers(80, 201, self.quilts)
        drawn = np.searchsorted(bounds, chance.random(int(lengths.sum())))
        words = np.array(self.vocabulary, object)[np.minimum(drawn, VOCABULARY - 1)]
        ends = np.cumsum(lengths)
        return [" ".join(words[end - n : end]) for end, n in zip(ends, lengths, strict=True)]


def fill(database: sqlite3.Connection, made: Made) -> None:
    """Write the records into the empty tables of a collection."""
    chance = np.random.default_rng(_SEED + 2)
    makers = max(20, made.quilts // 20)
    database.execute("BEGIN")
    _shared(database, made, makers, chance)
    count = made.quilts
    ids = range(1, count + 1)

    def of(values: Iterable[object]) -> list[object]:
        listed = list(values)
        return [listed[n] for n in chance.integers(0, len(listed), count)]

    published = chance.random(count) < 0.7
    _insert(
        *(database, "quilt"),
        id=ids,
        title=[" ".join(text.split(" ", 3)[:3]) for text in made.texts],
        accession=[f"{1950 + n % 70}.{n // 70 + 1}" for n in ids],
        accession_key=[f"{1950 + n % 70}.{n // 70 + 1:06}" for n in ids],
        status=of(STATUSES),
        published=[int(each) for each in published],
        description=[text[: len(text) // 2].rpartition(" ")[0] for text in made.texts],
        history=[text[: len(text) // 2].rpartition(" ")[2] + text[len(text) // 2 :]
                 for text in made.texts],
        setting_seen=of(SETTINGS),
    )  # fmt: skip
    begun = 1820 + (chance.beta(2, 1.5, count) * 170).astype(int)
    ended = begun + chance.integers(0, 30, count)
    _insert(
        *(database, "phase"),
        id=ids,
        quilt=ids,
        kind=["pieced"] * count,
        date_written=[f"{a}-{b}" for a, b in zip(begun, ended, strict=True)],
        date_edtf=[f"{a}/{b}" for a, b in zip(begun, ended, strict=True)],
        date_earliest=[f"{year}-01-01" for year in begun],
        date_latest=[f"{year}-12-31" for year in ended],
        date_says=[f"{a} to {b}" for a, b in zip(begun, ended, strict=True)],
        place=of(PLACES),
    )
    _insert(database, "phase_maker", id=ids, phase=ids, party=of(range(1, makers + 1)))
    patterns = of(range(1, PATTERNS + 1))
    _insert(database, "block_kind", id=ids, quilt=ids, pattern=patterns, printing=patterns)
    _insert(database, "technique", id=ids, quilt=ids, name=of(TECHNIQUES))
    pairs = [f"{a}, {b}" for a, b in zip(of(COLOURS), of(COLOURS), strict=True)]
    _insert(database, "material", id=ids, quilt=ids, part=["top"] * count, colours=pairs)
    _insert(database, "condition_report", id=ids, quilt=ids, grade=of(GRADES))
    for number, dimension in enumerate(("width", "length")):
        inches = [str(n) for n in chance.integers(60, 110, count)]
        _insert(
            *(database, "reading"),
            id=range(number * count + 1, (number + 1) * count + 1),
            quilt=ids,
            part=["overall"] * count,
            dimension=[dimension] * count,
            written=inches,
            inches=inches,
            number=[1] * count,
        )
    database.execute("COMMIT")


def _shared(
    database: sqlite3.Connection, made: Made, makers: int, chance: np.random.Generator
) -> None:
    """Write what several quilts refer to, with names from the rarer words."""
    names = [word.title() for word in made.vocabulary[5_000:]]

    def named(count: int, words: int) -> list[str]:
        drawn = chance.integers(0, len(names), (count, words))
        return [" ".join(names[n] for n in row) for row in drawn]

    ids = range(1, makers + 1)
    _insert(database, "party", id=ids, name=named(makers, 2), kind=["person"] * makers)
    ids = range(1, PATTERNS + 1)
    families = [FAMILIES[n % len(FAMILIES)] for n in ids]
    _insert(database, "pattern", id=ids, name=named(PATTERNS, 2), family=families)
    ids = range(1, PUBLICATIONS + 1)
    _insert(database, "publication", id=ids, name=named(PUBLICATIONS, 2))
    ids = range(1, PATTERNS + 1)
    printed = [n % PUBLICATIONS + 1 for n in ids]
    _insert(database, "printing", id=ids, pattern=ids, publication=printed)


def _insert(database: sqlite3.Connection, table: str, **columns: Iterable[object]) -> None:
    """Insert rows; a column that has to have a value and is not given gets an empty one."""
    described = database.execute(
        f"SELECT name, type, \"notnull\", pk FROM pragma_table_info('{table}')"
    )
    for name, type, needed, key in described.fetchall():
        if needed and not key and name not in columns:
            empty = "" if type == "TEXT" else 0
            columns[name] = [empty] * len(list(columns["id"]))
    names = ", ".join(f'"{name}"' for name in columns)
    marks = ", ".join("?" * len(columns))
    database.executemany(
        f'INSERT INTO "{table}" ({names}) VALUES ({marks})', zip(*columns.values(), strict=True)
    )
