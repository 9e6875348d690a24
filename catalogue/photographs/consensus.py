"""What the blocks of one design agree on, and how like it each of them is in every position."""

from __future__ import annotations

import numpy as np

from catalogue.photographs.colour_space import Floats
from catalogue.photographs.lattice import vertex
from catalogue.photographs.positions import CELLS, MARGIN, POSITIONS, moved, shifted

_NEARLY = 0.8  # likeness from which the design in another position is nearly the same


def likeness_by_position(blocks: Floats) -> Floats:
    """How like each block is to the consensus in each of the eight positions, shape (blocks, 8).

    Where a position changes little of the design, what it changes would drown in how the block is
    best laid on it: then all are laid as they fit in the usual position.
    """
    consensus = np.median(blocks, axis=0)
    weight = _worth(blocks, consensus)
    _, beside = _laid_on(blocks, consensus, weight)
    laid = np.stack([shifted(block, *by) for block, by in zip(blocks, beside, strict=True)])
    consensus = np.median(laid, axis=0)
    weight = _worth(laid, consensus)
    seen = _directions(laid[:, MARGIN:-MARGIN, MARGIN:-MARGIN], weight)
    likeness = []
    for position in POSITIONS:
        expected = moved(consensus, position)
        nearly, by = _laid_on(consensus[None], expected, weight)
        if nearly[0] < _NEARLY:
            likeness.append(_laid_on(blocks, expected, weight)[0])
            continue
        there = shifted(expected, -by[0][0], -by[0][1])[None, MARGIN:-MARGIN, MARGIN:-MARGIN]
        likeness.append((seen @ _directions(there, weight).T)[:, 0])
    by_position: Floats = np.stack(likeness, axis=1)
    return by_position


def _worth(blocks: Floats, consensus: Floats) -> Floats:
    worth: Floats = np.sqrt(_reliability(blocks, consensus))[MARGIN:-MARGIN, MARGIN:-MARGIN]
    return worth


def _laid_on(blocks: Floats, expected: Floats, weight: Floats) -> tuple[Floats, Floats]:
    """How well each block fits what is expected, and the cells right and down it lies beside it."""
    steps = np.arange(2 * MARGIN + 1)
    beside = [expected[y : y + CELLS, x : x + CELLS] for y in steps for x in steps]
    seen = _directions(blocks[:, MARGIN:-MARGIN, MARGIN:-MARGIN], weight)
    fits = (seen @ _directions(np.stack(beside), weight).T).reshape(-1, len(steps), len(steps))
    offsets = [_top(fit) for fit in fits]
    return fits.max(axis=(1, 2)), np.array(offsets)


def _top(fit: Floats) -> tuple[float, float]:
    """Where a block lies, right and down, that fits best there; to a fraction of a cell."""
    row, column = np.unravel_index(int(np.argmax(fit)), fit.shape)
    x = column + vertex(fit[row], int(column))
    y = row + vertex(fit[:, column], int(row))
    return MARGIN - x, MARGIN - y


def _directions(cells: Floats, weight: Floats) -> Floats:
    """Each block as one vector of unit length, less its mean colour, cells weighed."""
    centred = (cells - cells.mean(axis=(1, 2), keepdims=True)) * weight
    flat = centred.reshape(len(cells), -1)
    directions: Floats = flat / (np.linalg.norm(flat, axis=1, keepdims=True) + 1e-6)
    return directions


def _reliability(blocks: Floats, consensus: Floats) -> Floats:
    """What a cell is worth: the inverse of how much it varies from block to block.

    Alike in all eight positions, so that none is favoured.
    """
    off = 1.48 * np.median(np.abs(blocks - consensus), axis=0)
    everywhere = np.mean([moved(off**2, position) for position in POSITIONS], axis=0)
    varying = _neighbourly(everywhere)
    least = 0.3 * varying.mean(axis=(0, 1)) + 1e-4
    worth: Floats = 1 / (varying + least)
    return worth


def _neighbourly(cells: Floats) -> Floats:
    """The mean of each cell and its eight neighbours."""
    padded = np.pad(cells, ((1, 1), (1, 1), (0, 0)), mode="edge")
    high, wide = cells.shape[:2]
    around = [padded[y : y + high, x : x + wide] for y in range(3) for x in range(3)]
    mean: Floats = np.mean(around, axis=0)
    return mean
