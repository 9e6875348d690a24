"""How long a result page takes, against the same page over SQLite's FTS5: medians and ratios.

    python tests/benchmarks/search.py [quilts ..., 2000 20000 100000 unless given]

A page is everything but its HTML: hits, total, counts of all facets, 20 extracts with the hits
marked. Both are asked in turn, in the same process, each time for other words of the same rank.
"""

from __future__ import annotations

import gc
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from search_fts5 import Fts5
from search_records import Made, fill

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Quilt
from catalogue.collection.search.extracts import extracts_of
from catalogue.collection.search.finding import Found, Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import save
from catalogue.patterns.thesaurus import designs

Result = TypeVar("Result")
ROUNDS = 11
READER = Reader("historian")
YEARS = (1900, 1919)
# The most that a page may take at 100,000 quilts, as a part of what it takes over FTS5.
BARS = {
    "common word": 0.8,
    "middling word": 0.8,
    "two words": 1.0,
    "phrase": 3.0,
    "prefix": 1.0,
    "word and years": 1.0,
    "facets only": 1.0,
}
MISSPELLING_BAR = 50.0  # ms


@dataclass(frozen=True)
class Asked:
    """One question, for both: what is typed, and FTS5's way to put it."""

    wanted: Wanted
    match: str
    years: tuple[int, int] | None = None
    technique: str | None = None


class Questions:
    """Questions of each kind about records that were made."""

    def __init__(self, made: Made) -> None:
        self._words = made.vocabulary
        self._texts = made.texts
        self._chance = random.Random(7)

    def kinds(self) -> dict[str, Callable[[], Asked]]:
        """Return what makes a question, by kind."""
        return {
            "common word": lambda: _plain(self._of_rank(2, 12)),
            "middling word": lambda: _plain(self._of_rank(250, 400)),
            "two words": lambda: _plain(self._of_rank(10, 40), self._of_rank(40, 120)),
            "phrase": self._phrase,
            "prefix": self._prefix,
            "word and years": self._with_years,
            "facets only": self._facets,
            "misspelling": self._misspelt,
        }

    def _of_rank(self, first: int, last: int) -> str:
        return self._words[self._chance.randrange(first, last)]

    def _phrase(self) -> Asked:
        words = self._chance.choice(self._texts[:2_000]).split()
        place = self._chance.randrange(10, 30)
        two = " ".join(words[place : place + 2])
        return Asked(Wanted(f'"{two}"', sort="fit"), f'"{two}"')

    def _prefix(self) -> Asked:
        start = self._of_rank(50, 3_000)[:4]
        return Asked(Wanted(f"{start}*", sort="fit"), f"{start}*")

    def _with_years(self) -> Asked:
        word = self._of_rank(5, 40)
        typed = Wanted(f"{word} {YEARS[0]}-{YEARS[1]}", sort="fit")
        return Asked(typed, word, YEARS)

    def _facets(self) -> Asked:
        technique = f"technique {self._chance.randrange(20)}"
        return Asked(Wanted(technique=(technique,)), "", technique=technique)

    def _misspelt(self) -> Asked:
        while True:
            word = self._of_rank(50, 2_000)
            place = self._chance.randrange(1, len(word) - 2)
            wrong = word[:place] + word[place + 1] + word[place] + word[place + 2 :]
            if wrong not in self._words:
                return Asked(Wanted(wrong, sort="fit"), wrong)


def _plain(*words: str) -> Asked:
    return Asked(Wanted(" ".join(words), sort="fit"), " ".join(words))


@dataclass(frozen=True)
class Figures:
    """Medians of a kind of question: hits, ours and FTS5's in milliseconds."""

    hits: float
    ours: float
    theirs: float


class Comparison:
    """A collection with our index, and FTS5 over the same texts."""

    def __init__(self, folder: Path, made: Made) -> None:
        self.collection = Collection.open(folder)
        self.index = SearchIndex(self.collection)
        self._theirs = Fts5(folder / "catalogue.db", folder.parent / "fts5.db")
        self._made = made

    def ours(self, asked: Asked) -> Found:
        """Make our page."""
        database = self.collection.database
        found = find(*(database, self.index, asked.wanted), reader=READER, per_page=20, count=True)
        extracts_of(database, found.ids, found.question, reader=READER)
        return found

    def run(self) -> dict[str, Figures]:
        """Time pages of all kinds, one of each in turn, and return the medians by kind."""
        kinds = Questions(self._made).kinds()
        times: dict[str, list[tuple[int, float, float]]] = {kind: [] for kind in kinds}
        for round in range(ROUNDS + 2):
            for kind, make in kinds.items():
                measured = self._both(make(), ours_first=bool(round % 2))
                if round >= 2:
                    times[kind].append(measured)
        return {
            kind: Figures(*(statistics.median(column) for column in zip(*rows, strict=True)))
            for kind, rows in times.items()
        }

    def _both(self, asked: Asked, ours_first: bool) -> tuple[int, float, float]:
        def theirs() -> int:
            return self._theirs.page(asked.match, asked.years, asked.technique)

        if ours_first:
            found, ours = timed(lambda: self.ours(asked))
            count, their_time = timed(theirs)
        else:
            count, their_time = timed(theirs)
            found, ours = timed(lambda: self.ours(asked))
        assert found.total == count, (asked, found.total, count)
        return found.total, ours, their_time

    def suggestions(self) -> tuple[int, int]:
        """Return how many of how many misspelt words were put right."""
        make = Questions(self._made).kinds()["misspelling"]
        given = [self.ours(make()).suggestion for _ in range(30)]
        return sum(map(bool, given)), len(given)

    def saves(self) -> list[float]:
        """Return the milliseconds from before a save until what was saved is found."""
        times = []
        for number in range(1, 41):
            word = f"unheardof{chr(96 + number % 26 + 1)}{'abc'[number % 3]}{number}"
            times.append(timed(lambda word=word, id=number: self._save_and_find(id, word))[1])
        return times

    def _save_and_find(self, id: int, word: str) -> None:
        database = self.collection.database
        revision = database.execute("SELECT revision FROM quilt WHERE id = ?", [id]).fetchone()[0]
        save(database, Quilt, id, {"title": word}, by="bench", expecting=revision)
        self.index.catch_up()
        assert find(database, self.index, Wanted(word), reader=READER).ids == (id,)

    def sizes(self) -> Iterator[str]:
        """Yield what the index takes on the disk, and FTS5's."""
        ours = sum(file.stat().st_size for file in self.collection.index.iterdir())
        yield f"index on disk {ours / 1e6:.1f} MB, FTS5's {self._theirs.size() / 1e6:.1f} MB"


def timed(run: Callable[[], Result]) -> tuple[Result, float]:
    """Return what comes of it, and the milliseconds that it took."""
    began = time.perf_counter()
    result = run()
    return result, 1000 * (time.perf_counter() - began)


def resident() -> float:
    """Return the memory of this process in megabytes (Linux)."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def make(folder: Path, quilts: int) -> None:
    """Make collection, index and FTS5's file; in a process of its own, for the memory's sake."""
    made = Made(quilts)
    collection = Collection.create(folder)
    _, filled = timed(lambda: fill(collection.database.conn, made))
    index = SearchIndex(collection)
    _, built = timed(index.rebuild)
    _, fts5 = timed(Fts5(folder / "catalogue.db", folder.parent / "fts5.db").fill)
    print(f"records {filled / 1000:.1f} s, index {built / 1000:.1f} s, FTS5 {fts5 / 1000:.1f} s")


def measure(quilts: int) -> dict[str, Figures]:
    """Print the figures of one number of quilts, and return the medians by kind."""
    print(f"\n{quilts:,} quilts", flush=True)
    designs()  # as the server does before it serves
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "collection"
        command = [sys.executable, __file__, "--make", str(folder), str(quilts)]
        subprocess.run(command, check=True)
        comparison = Comparison(folder, Made(quilts))
        comparison.collection.database  # noqa: B018 - opened before memory is measured
        gc.collect()
        before = resident()
        _, opened = timed(comparison.index.snapshot)
        print(f"opened in {opened / 1000:.1f} s, {resident() - before:.0f} MB", flush=True)
        figures = comparison.run()
        for kind, each in figures.items():
            print(line(kind, each, quilts), flush=True)
        print("{} of {} misspelt words were put right".format(*comparison.suggestions()))
        print(*comparison.sizes(), sep="\n")
        saves = comparison.saves()
        print(f"saved and found: median {statistics.median(saves):.0f} ms, worst {max(saves):.0f}")
        comparison.collection.close()
    return figures


def line(kind: str, figures: Figures, quilts: int) -> str:
    """Return one kind's figures, with the bar that it has to keep."""
    bar = f"bar {BARS[kind]}" if kind in BARS else f"bar {MISSPELLING_BAR:.0f} ms"
    return (
        f"{kind:16}{figures.hits:8.0f} hits {figures.ours:8.2f} ms   FTS5 {figures.theirs:8.2f} ms"
        f"   ratio {figures.ours / figures.theirs:5.2f}"
        + (f"   ({bar})" if quilts >= 100_000 else "")
    )


def main(sizes: list[int]) -> None:
    before: dict[str, Figures] = {}
    for quilts in sizes:
        figures = measure(quilts)
        for kind in figures.keys() & before.keys() if quilts >= 100_000 else ():
            one, other = before[kind], figures[kind]
            hits = other.hits / one.hits if one.hits else 0
            print(f"growth of {kind}: time {other.ours / one.ours:.1f}, hits {hits:.1f}")
        before = figures


if __name__ == "__main__":
    if sys.argv[1:2] == ["--make"]:
        make(Path(sys.argv[2]), int(sys.argv[3]))
    else:
        main([int(each) for each in sys.argv[1:]] or [2_000, 20_000, 100_000])
