"""The eight positions of a square, for blocks cut into cells."""

from __future__ import annotations

import numpy as np

from catalogue.photographs.cells import Seat, cut, sampled
from catalogue.photographs.colour_space import Floats
from catalogue.photographs.surface import FALLING, LEVEL, RISING, UPRIGHT, Surface

CELLS = 24  # along the side of a block
MARGIN = 2  # cells round it, by which it may lie beside its place

# By how a block lies: turned clockwise, or mirrored left to right and then turned.
NAMES = ("", "90", "180", "270", "mirrored", "mirrored", "mirrored", "mirrored")
POSITIONS = range(8)

COLOURS = 3  # the channels of a cell: CIELAB, then seams in four directions
_GROUPS = ((slice(0, 1), 1.0), (slice(1, 3), 0.5), (slice(3, 7), 1.0))
_QUARTER_TURN = [0, 1, 2, *(COLOURS + seam for seam in (LEVEL, FALLING, UPRIGHT, RISING))]
_MIRRORED = [0, 1, 2, *(COLOURS + seam for seam in (UPRIGHT, FALLING, LEVEL, RISING))]


def cut_blocks(surface: Surface, seats: list[Seat]) -> Floats:
    """Blocks with a margin round them, shape (blocks, side, side, 7), seen in their own frame.

    Lightness, hue and seams are brought to comparable weight; hue counts half, because makers of
    scrap quilts keep to light and dark before they keep to a colour.
    """
    blocks = cut(np.concatenate([surface.colour, surface.seams], axis=-1), seats, CELLS, MARGIN)
    if seats[0].right[1]:  # on its corner a block's upright seams rise in the picture
        blocks[..., COLOURS:] = np.roll(blocks[..., COLOURS:], -1, axis=-1)
    for group, weight in _GROUPS:
        part = blocks[..., group]
        spread = float(np.sqrt(part.var(axis=(0, 1, 2)).sum()))
        blocks[..., group] = part * (weight / (spread + 1e-6))
    return blocks


def moved(cells: Floats, position: int) -> Floats:
    """Cells, shape (..., side, side, channels), brought from position 0 into another."""
    if position >= 4:
        cells = cells[..., :, ::-1, _MIRRORED]
    quarters = position % 4
    cells = np.rot90(cells, -quarters, axes=(-3, -2))
    return cells[..., _QUARTER_TURN] if quarters % 2 else cells


def then(first: int, second: int) -> int:
    """The position that two moves lead to, one after the other."""
    quarters = second + (-first if second >= 4 else first)
    return quarters % 4 + (4 if (first >= 4) != (second >= 4) else 0)


def brought_back(cells: Floats, position: int) -> Floats:
    """Cells that lie in a position, as they would lie in position 0."""
    return moved(cells, position if position >= 4 else -position % 4)


def shifted(cells: Floats, across: float, down: float) -> Floats:
    """One block as it would be cut `across` cells to the right and `down` further down."""
    y, x = np.mgrid[: cells.shape[0], : cells.shape[1]].astype(np.float32)
    return sampled(cells, x + across, y + down)
