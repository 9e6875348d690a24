"""Sashing of a set on point: the quilt is turned until its strips run up and down and across."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np

from catalogue.photographs.cells import Seat, cut, sampled
from catalogue.photographs.colour_space import distance
from catalogue.photographs.field import Extent
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.repeat import Repeat
from catalogue.photographs.sashing import Sashing, find_sashing
from catalogue.photographs.surface import Surface

# How much rarer the strips' colour has to be beside them: more than in a straight set, since
# designs with strips from corner to corner come near to it.
_SHOWS = 0.72
_CELLS = 12  # along the side of a block, where its surroundings are looked at


def with_sashing(surface: Surface, repeat: Repeat) -> Repeat:
    """The layout on point with the sashing between its blocks, as it is where there is none."""
    step = repeat.seats[0].side
    turned = _turned(surface, repeat)
    lattice = Lattice(step, step, likeness=1.0)
    sashing = find_sashing(turned, lattice, Extent(0, turned.width, 0, turned.height))
    if sashing is None or sashing.sharpness < _SHOWS:
        return repeat
    framed = _is_framed(surface, repeat, sashing)
    share = 1 - (sashing.across + sashing.down) / 2 / step
    return replace(
        repeat,
        sashing="framed" if framed else "between",
        seats=tuple(_shrunk(seat, share) for seat in repeat.seats),
        grounds=repeat.grounds.rstrip(".") + "; one cloth runs on the slant between them all.",
    )


def _turned(surface: Surface, repeat: Repeat) -> Surface:
    """The largest square on its corner in the middle of the field, set straight; no seams."""
    first, last = repeat.seats[0], repeat.seats[-1]
    width = last.x - first.x + 2 * (first.right[0] - first.down[0])
    height = last.y - first.y + 2 * (first.right[1] + first.down[1])
    side = int(min(width, height) / sqrt(2))
    along = (np.arange(side) + 0.5 - side / 2) / sqrt(2)
    right, down = along[None, :], along[:, None]
    x, y = (first.x + last.x) / 2 - 0.5, (first.y + last.y) / 2 - 0.5
    colour = sampled(surface.colour, x + right - down, y + right + down)
    return Surface(colour, np.zeros((side, side, 4), np.float32))


def _shrunk(seat: Seat, share: float) -> Seat:
    (rx, ry), (dx, dy) = seat.right, seat.down
    return replace(seat, right=(rx * share, ry * share), down=(dx * share, dy * share))


def _is_framed(surface: Surface, repeat: Repeat, sashing: Sashing) -> bool:
    """Whether the strips' cloth lies along the outer sides of the outermost blocks too.

    The blocks' seats, as they came, reach to the middle of the strips.
    """
    blocks = cut(surface.colour, list(repeat.seats), _CELLS)
    same = distance(blocks, sashing.colour) < sashing.tolerance
    grid = same.reshape(repeat.rows, repeat.columns, _CELLS, _CELLS)
    # A block's own top is its upper right side in the picture, and so on round.
    outside = np.concatenate(
        [
            grid[0, :, 0].ravel(),
            grid[0, :, :, 0].ravel(),
            grid[-1, :, -1].ravel(),
            grid[-1, :, :, -1].ravel(),
        ]
    )
    return bool(outside.mean() > 0.5)
