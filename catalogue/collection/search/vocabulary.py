"""All words of one layer of the index: those with one stem, and those spelt nearly alike."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from catalogue.collection.search.words import stem_of

_SHORTEST, _LONGEST = 3, 24  # of words that are taken for misspellings of one another
_PARTS = 8


class Vocabulary:
    """The words that the index holds or has held; it only ever grows."""

    def __init__(self) -> None:
        self._with_stem: dict[str, tuple[str, ...]] = {}
        self._terms: set[str] = set()
        self._compared: list[_Near] = []
        self._not_compared: list[str] = []

    def add(self, terms: Iterable[str]) -> None:
        """Take in words; those that are known already change nothing."""
        for term in terms:
            if term not in self._terms:
                self._terms.add(term)
                stem = stem_of(term)
                self._with_stem[stem] = (*self._with_stem.get(stem, ()), term)
                self._not_compared.append(term)

    def with_stem_of(self, term: str) -> tuple[str, ...]:
        """Return all words that share their stem with this one."""
        return self._with_stem.get(stem_of(term), ())

    def near(self, term: str) -> list[tuple[int, int, str]]:
        """Return the words one or two letters away, the nearest first.

        Before each stand in how many letters it differs, and less how many it begins alike.
        """
        if not _fits(term):
            return []
        if self._not_compared:
            self._compare()
        return sorted(each for part in self._compared for each in part.to(term))

    def _compare(self) -> None:
        """Make the words that are new ready to be compared, all of them anew from time to time."""
        if len(self._compared) >= _PARTS:
            self._compared, self._not_compared = [], list(self._terms)
        self._compared.append(_Near([term for term in self._not_compared if _fits(term)]))
        self._not_compared = []


def _fits(term: str) -> bool:
    return _SHORTEST <= len(term) <= _LONGEST and term.isalpha()


class _Near:
    """Words as columns of letters, so that a word is compared with all of them at once."""

    def __init__(self, terms: list[str]) -> None:
        self._terms = np.array(terms, dtype=f"U{_LONGEST}")
        letters = self._terms.view(np.uint32).reshape(len(terms), _LONGEST)
        self._letters = np.ascontiguousarray(letters.T)
        self._lengths = np.char.str_len(self._terms)

    def to(self, term: str) -> list[tuple[int, int, str]]:
        """Return the words within reach, each after its distance and what it has in common.

        So they sort by distance, then by how much of the beginning is the same.
        """
        most = 1 if len(term) < 5 else 2
        letters = np.frombuffer(term.encode("utf-32-le"), np.uint32)
        close = np.flatnonzero(np.abs(self._lengths - len(term)) <= most)
        columns = self._letters[: len(term) + most, close]
        likely = np.flatnonzero(_shared(columns, letters) >= len(term) - most)
        close, columns = close[likely], columns[:, likely]
        distances = _distances(columns, self._lengths[close], letters)
        within = np.flatnonzero((distances > 0) & (distances <= most))
        found = [(int(distances[i]), str(self._terms[close[i]])) for i in within]
        return [(far, -_alike(term, word), word) for far, word in found]


def _alike(one: str, other: str) -> int:
    """Return with how many of the same letters two words begin."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((place for place, (a, b) in pairs if a != b), min(len(one), len(other)))


def _shared(columns: NDArray[np.uint32], letters: NDArray[np.uint32]) -> NDArray[np.int8]:
    """Return how many of the letters each word holds in any order, the most it can have alike."""
    total = np.zeros(columns.shape[1], np.int8)
    for letter, wanted in zip(*np.unique(letters, return_counts=True), strict=True):
        held = (columns == letter).sum(axis=0, dtype=np.int8)
        total += np.minimum(held, np.int8(wanted))
    return total


def _distances(
    columns: NDArray[np.uint32], lengths: NDArray[np.int64], letters: NDArray[np.uint32]
) -> NDArray[np.int8]:
    """Return in how many letters each word differs: one put in, left out, changed or swapped.

    The Damerau-Levenshtein distance (restricted, "optimal string alignment"), a row of its table
    for all words at a time.
    """
    width, count = columns.shape
    above = np.repeat(np.arange(width + 1, dtype=np.int8)[:, None], count, axis=1)
    before = above
    for i, letter in enumerate(letters):
        row = np.empty_like(above)
        row[0] = i + 1
        same = columns == letter
        for j in range(width):
            best = np.minimum(above[j + 1], row[j]) + np.int8(1)
            np.minimum(best, above[j] + ~same[j], out=best)
            if i and j:
                swapped = same[j - 1] & (columns[j] == letters[i - 1])
                np.minimum(best, before[j - 1] + np.int8(1), out=best, where=swapped)
            row[j + 1] = best
        before, above = above, row
    return above[lengths, np.arange(count)]
