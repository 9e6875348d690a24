"""Which blocks are meant to be alike: all of them, or those that take turns with others."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from catalogue.photographs.colour_space import Floats
from catalogue.photographs.positions import MARGIN, POSITIONS, brought_back, moved

Wholes = npt.NDArray[np.intp]

_APART = 0.08  # by how much blocks of one kind have to be more alike than blocks of two
_LEAST_OF_A_KIND = 3  # of two, one that was turned would pass for the half of a design
_SAME_DESIGN = 0.65  # likeness from which two kinds are one design in two positions
_CLEARER = 0.08  # by which another position has to fit better than the same


@dataclass(frozen=True)
class Fellows:
    """Blocks of one design: their numbers in the grid, row by row, and the position of each.

    `order` says how positions take turns where that is part of the design, else it is empty.
    """

    blocks: tuple[int, ...]
    positions: tuple[int, ...]
    order: str = ""


def find_fellows(blocks: Floats, columns: int) -> list[Fellows]:
    """The blocks sorted by design, shape (blocks, side, side, channels), row by row."""
    order, kinds = _kinds(blocks, columns)
    members = [np.flatnonzero(kinds == kind) for kind in np.unique(kinds)]
    members.sort(key=len, reverse=True)
    joined: list[tuple[Floats, list[tuple[Wholes, int]]]] = []
    for kind in members:
        middle = np.median(blocks[kind], axis=0)
        for known, parts in joined:
            position = _position_of(middle, known, len(kind))
            if position is not None:
                parts.append((kind, position))
                break
        else:
            joined.append((middle, [(kind, 0)]))
    return [_fellows(parts, order) for _, parts in joined]


def _fellows(parts: list[tuple[Wholes, int]], order: str) -> Fellows:
    numbered = sorted((int(block), position) for kind, position in parts for block in kind)
    blocks, positions = zip(*numbered, strict=True)
    return Fellows(blocks, positions, order if len(set(positions)) > 1 else "")


def aligned(blocks: Floats, fellows: Fellows) -> Floats:
    """The blocks of one design, all brought into the same position."""
    pairs = zip(fellows.blocks, fellows.positions, strict=True)
    return np.stack([brought_back(blocks[block], position) for block, position in pairs])


def _kinds(blocks: Floats, columns: int) -> tuple[str, Wholes]:
    """How blocks take turns, and the kind of each; all of one kind unless the picture says so."""
    alike = _likeness(blocks)
    best: tuple[str, Wholes] = "", np.zeros(len(blocks), np.intp)
    number = np.arange(len(blocks))
    within = _mean_of(alike, best[1])
    column, row = number % columns, number // columns
    for name, kinds in _orders(column, row).items():
        if np.bincount(kinds).min() < _LEAST_OF_A_KIND:
            continue
        more = _mean_of(alike, kinds)
        # Four kinds hold two of two, so that they have to explain more once again.
        if more > within + _APART:
            best, within = (name, kinds), more
    return best


def _orders(column: Wholes, row: Wholes) -> dict[str, Wholes]:
    """The ways in which kinds of block take turns, and the kind of each block."""
    return {
        "every other column": column % 2,
        "every other row": row % 2,
        "like the squares of a chequerboard": (column + row) % 2,
        "by twos both ways": column % 2 + 2 * (row % 2),
    }


def _likeness(blocks: Floats) -> Floats:
    """Correlation of every block with every other."""
    inner = blocks[:, MARGIN:-MARGIN, MARGIN:-MARGIN]
    size = inner.shape[1] // 2
    coarse = inner.reshape(len(inner), size, 2, size, 2, -1).mean(axis=(2, 4))
    centred = (coarse - coarse.mean(axis=(1, 2), keepdims=True)).reshape(len(coarse), -1)
    centred /= np.linalg.norm(centred, axis=1, keepdims=True) + 1e-6
    alike: Floats = centred @ centred.T
    return alike


def _mean_of(alike: Floats, kinds: Wholes) -> float:
    """Mean likeness of two blocks of one kind."""
    same = (kinds[:, None] == kinds[None, :]) & ~np.eye(len(kinds), dtype=bool)
    return float(alike[same].mean()) if same.any() else 0.0


def _position_of(middle: Floats, known: Floats, blocks: int) -> int | None:
    """The position in which one design shows the other, None where they are two designs."""
    fits = list(_fits(middle, known))
    best = int(np.argmax(fits))
    if fits[best] < _SAME_DESIGN:
        return None
    # A single block in another position is no order.
    return best if blocks > 1 and fits[best] > fits[0] + _CLEARER else 0


def _fits(middle: Floats, known: Floats) -> Iterator[float]:
    for position in POSITIONS:
        both = [
            (cells - cells.mean(axis=(0, 1)))[MARGIN:-MARGIN, MARGIN:-MARGIN]
            for cells in (middle, moved(known, position))
        ]
        lengths = [float(np.linalg.norm(cells)) for cells in both]
        yield float((both[0] * both[1]).sum() / (lengths[0] * lengths[1] + 1e-6))
