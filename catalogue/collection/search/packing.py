"""Posting lists as bytes: which documents hold a word, how often, in which fields, and where.

One list is a header, then arrays without anything between them, so that it is read by looking at
the file and not by decoding it: ids as steps, counts, fields as bits; the places come last and are
left alone unless a phrase asks for them.
"""

from __future__ import annotations

import struct
from array import array
from dataclasses import dataclass
from mmap import mmap
from typing import Any

import numpy as np
from numpy.typing import NDArray

Ids = NDArray[np.int64]
Places = NDArray[np.uint32]

# A place is a field's number and the position of a word in it. Where all fit, two bytes hold it.
POSITION_BITS = 26
_NARROW_BITS = 12
MOST_FIELDS = 16
LAST_POSITION = (1 << POSITION_BITS) - 1

_HEADER = struct.Struct("<IIBBB")  # postings, places; bytes of a step, of a count, of a place
_MASK: np.dtype[Any] = np.dtype("<u2")
_DTYPES: dict[int, np.dtype[Any]] = {1: np.dtype("<u1"), 2: _MASK, 4: np.dtype("<u4")}


def place(field: int, position: int) -> int:
    """Return the number that stands for a position in a field; the next position is one more."""
    return (field << POSITION_BITS) + min(position, LAST_POSITION)


@dataclass(frozen=True)
class Postings:
    """Who holds one word: document ids, ascending, with a count and the fields as bits of each."""

    ids: Ids
    counts: NDArray[Any]
    fields: NDArray[np.uint16]
    _places: NDArray[Any]

    def places(self) -> Places:
        """Return where the word stands, `counts` places for each id in turn."""
        places: Places = self._places.astype(np.uint32)
        if self._places.itemsize == 4:
            return places
        positions = places & np.uint32((1 << _NARROW_BITS) - 1)
        return (places >> _NARROW_BITS << POSITION_BITS).astype(np.uint32) | positions


class Gathered:
    """The posting list of one word while documents are added, in the order of their ids."""

    __slots__ = ("counts", "ids", "places")

    def __init__(self) -> None:
        self.ids = array("I")
        self.counts = array("I")
        self.places = array("I")

    def add(self, id: int, places: list[int]) -> None:
        """Add a document and the places of the word in it."""
        self.ids.append(id)
        self.counts.append(len(places))
        self.places.extend(places)

    def packed(self) -> bytes:
        """Return the list as `unpacked` reads it."""
        counts = np.frombuffer(self.counts, np.uint32)
        places = np.frombuffer(self.places, np.uint32)
        numbers = places >> POSITION_BITS
        starts = np.cumsum(counts, dtype=np.int64) - counts
        fields = np.bitwise_or.reduceat(np.left_shift(np.uint32(1), numbers), starts)
        ids = np.frombuffer(self.ids, np.uint32)
        steps = np.concatenate([ids[:1], ids[1:] - ids[:-1]])
        steps, counts = _narrowed(steps), _narrowed(counts)
        positions = places & LAST_POSITION
        if int(positions.max()) < 1 << _NARROW_BITS:
            places = (numbers << _NARROW_BITS | positions).astype("<u2")
        sizes = steps.itemsize, counts.itemsize, places.itemsize
        header = _HEADER.pack(len(steps), len(places), *sizes)
        arrays = steps, counts, fields.astype(_MASK), places.astype(_DTYPES[places.itemsize])
        return header + b"".join(part.tobytes() for part in arrays)


def _narrowed(numbers: NDArray[np.uint32]) -> NDArray[Any]:
    most = int(numbers.max())
    width = 1 if most < 1 << 8 else 2 if most < 1 << 16 else 4
    return numbers.astype(_DTYPES[width])


def unpacked(buffer: bytes | mmap, offset: int) -> Postings:
    """Return the posting list that begins at this place of a file held in memory."""
    size, places, *widths = _HEADER.unpack_from(buffer, offset)
    step, count, place = (_DTYPES[width] for width in widths)
    arrays = []
    start = offset + _HEADER.size
    for dtype, length in ((step, size), (count, size), (_MASK, size), (place, places)):
        arrays.append(np.frombuffer(buffer, dtype, length, start))
        start += length * dtype.itemsize
    return Postings(np.cumsum(arrays[0], dtype=np.int64), *arrays[1:])
