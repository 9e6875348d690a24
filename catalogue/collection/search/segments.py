"""What is written to a segment of the index, and what is read of one; see `fulltext`."""

from __future__ import annotations

import mmap
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from catalogue.collection.search.packing import Postings, unpacked

# What anybody may search, and what members may search besides: two fields, never mixed.
LAYERS = ("public", "members")


@dataclass(frozen=True)
class Addition:
    """A quilt to be written: for every layer its terms with their places."""

    quilt: int
    terms: Mapping[str, Mapping[str, list[int]]]


@dataclass(frozen=True)
class Dictionary:
    """The terms of one layer of a segment, in order, and where their posting lists begin."""

    terms: list[str]
    offsets: NDArray[np.int64]
    postings_file: mmap.mmap | bytes

    def postings(self, term: str) -> Postings | None:
        """Return who holds a term, None where nobody does."""
        place = bisect_left(self.terms, term)
        if place == len(self.terms) or self.terms[place] != term:
            return None
        return unpacked(self.postings_file, int(self.offsets[place]))

    def beginning(self, start: str) -> Iterator[Postings]:
        """Yield who holds each term that begins so."""
        for place in range(bisect_left(self.terms, start), len(self.terms)):
            if not self.terms[place].startswith(start):
                return
            yield unpacked(self.postings_file, int(self.offsets[place]))


@dataclass(frozen=True)
class Segment:
    """One segment: the quilt of each document, -1 where that document is deleted."""

    name: str
    quilts: NDArray[np.int64]
    layers: dict[str, Dictionary]


def without(quilts: NDArray[np.int64], deleted: Iterable[int]) -> NDArray[np.int64]:
    """Return the quilts with -1 where a document is deleted."""
    kept = quilts.copy()
    kept[list(deleted)] = -1
    return kept


def mapped(file: Path) -> mmap.mmap | bytes:
    """Return a file to be read in place."""
    with file.open("rb") as opened:
        if file.stat().st_size == 0:
            return b""
        return mmap.mmap(opened.fileno(), 0, access=mmap.ACCESS_READ)
