"""Straight, on point, or with every other block of another kind: how the blocks are set."""

from __future__ import annotations

import numpy as np

from catalogue.photographs.cells import Seat, cut
from catalogue.photographs.colour_space import Floats, distance
from catalogue.photographs.field import Extent
from catalogue.photographs.surface import FALLING, LEVEL, RISING, UPRIGHT, Surface

_CELLS = 24
_BESIDE = 3  # cells to either side of a seam in which the two cloths are looked at
_STRETCHES = 3  # into which the side of a block is cut


def grid(extent: Extent, columns: int, rows: int) -> tuple[float, float]:
    """Width and height of one repeat."""
    return (extent.right - extent.left) / columns, (extent.bottom - extent.top) / rows


def upright_seats(extent: Extent, columns: int, rows: int) -> list[Seat]:
    """The squares of a straight set, row by row."""
    wide, high = grid(extent, columns, rows)
    return [
        Seat.upright(
            extent.left + column * wide,
            extent.left + (column + 1) * wide,
            extent.top + row * high,
            extent.top + (row + 1) * high,
        )
        for row in range(rows)
        for column in range(columns)
    ]


def pointed_seats(extent: Extent, columns: int, rows: int) -> list[Seat]:
    """The squares on their corners of the main grid, row by row."""
    wide, high = grid(extent, columns, rows)
    return [
        Seat.on_point(
            extent.left + (column + 0.5) * wide, extent.top + (row + 0.5) * high, wide, high
        )
        for row in range(rows)
        for column in range(columns)
    ]


def plain_share(surface: Surface, seats: list[Seat]) -> float:
    """Share of these squares, their edges left out, in the median colour of each."""
    blocks = cut(surface.colour, seats, _CELLS)[:, 2:-2, 2:-2].reshape(len(seats), -1, 3)
    away = distance(blocks, np.median(blocks, axis=1, keepdims=True))
    nearest = np.sort(away.ravel())
    tolerance = float(np.clip(2.5 * nearest[: int(0.6 * len(nearest))].mean(), 4, 16))
    return float((away < tolerance).mean())


def seams_upright(surface: Surface, seats: list[Seat]) -> float:
    """Share of the seams inside these squares that run up and down or across, 0 to 1."""
    blocks = cut(surface.seams, seats, _CELLS)
    strength = blocks[:, 4:-4, 4:-4].mean(axis=(0, 1, 2))
    straight = strength[UPRIGHT] + strength[LEVEL]
    return float(straight / (straight + strength[RISING] + strength[FALLING] + 1e-6))


def edge_seams(surface: Surface, seats: list[Seat]) -> float:
    """How strong the seams along the edges of these squares are, less those that run across them.

    1 is the usual strength inside. Nothing that is sewn runs on from one block into the next,
    though seams of both may meet on their edge.
    """
    blocks = cut(surface.seams, seats, _CELLS, 1).mean(axis=0)
    first, second = (UPRIGHT, LEVEL) if seats[0].right[1] == 0 else (RISING, FALLING)
    sides = (
        (blocks[:, :3], first),
        (blocks[:, -3:], first),
        (blocks[:3].swapaxes(0, 1), second),
        (blocks[-3:].swapaxes(0, 1), second),
    )
    along = np.mean([side[..., run].max(axis=1).mean() for side, run in sides])
    across = np.mean([np.delete(side[:, 1], run, axis=-1).mean() for side, run in sides])
    usual = blocks[..., [first, second]].mean() + 1e-6
    return float(along / usual - across / (blocks.mean() + 1e-6))


def line_strengths(surface: Surface, field: Extent, columns: int) -> Floats:
    """How strong the upright seams on each line between columns are, 1 being usual in the field."""
    rows = slice(round(field.top), round(field.bottom))
    strength = surface.seams[rows, :, UPRIGHT].mean(axis=0)
    lines = np.linspace(field.left, field.right, columns + 1)[1:-1]
    usual = strength[round(field.left) : round(field.right)].mean() + 1e-6
    near = [strength[round(line) - 2 : round(line) + 2].max() for line in lines]
    strengths: Floats = np.array(near, np.float32) / usual
    return strengths


def outer_triangles(surface: Surface, seats: list[Seat], columns: int) -> float:
    """How far the cloth outside the outermost of these squares on point differs from theirs.

    A colour difference (CIELAB) that nearly all of that zigzag shows, in one direction of colour;
    0 where as much is seen between the squares too, which are then set among others like it.
    """
    blocks = cut(surface.colour, seats, _CELLS, _BESIDE)
    outer, inner = _beside(blocks, columns)
    middle = np.median(outer, axis=0)
    direction = middle / (float(np.linalg.norm(middle)) + 1e-6)
    shown = float(np.quantile(outer @ direction, 0.2))
    between = float(np.median(inner @ direction)) if len(inner) else shown
    return max(shown, 0.0) if between < shown / 2 else 0.0


def _beside(blocks: Floats, columns: int) -> tuple[Floats, Floats]:
    """Colour just outside less that just inside, along the outer sides of a set and the inner.

    Shapes (stretches, 3). A block's own top side is its upper right one in the picture, its left
    side the upper left one.
    """
    rows = len(blocks) // columns
    outer: list[Floats] = []
    inner: list[Floats] = []
    for number, block in enumerate(blocks):
        row, column = divmod(number, columns)
        first, last = (row == 0, column == 0), (row == rows - 1, column == columns - 1)
        turned = block.swapaxes(0, 1)
        for side, at_edge in (
            (block, first[0] or last[1]),
            (turned, first[0] or first[1]),
            (block[::-1], last[0] or first[1]),
            (turned[::-1], last[0] or last[1]),
        ):
            steps = side[: _BESIDE - 1].mean(axis=0) - side[_BESIDE + 1 : 2 * _BESIDE].mean(axis=0)
            along = steps[_BESIDE + 3 : -_BESIDE - 3]
            (outer if at_edge else inner).append(along.reshape(_STRETCHES, -1, 3).mean(axis=1))
    return np.concatenate(outer), np.concatenate(inner) if inner else np.empty((0, 3))
