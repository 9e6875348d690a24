"""Straight, on point, or with every other block of another kind: how the blocks are set."""

from __future__ import annotations

import numpy as np

from catalogue.photographs.cells import Seat, cut
from catalogue.photographs.colour_space import Floats, distance
from catalogue.photographs.field import Extent
from catalogue.photographs.surface import FALLING, LEVEL, RISING, UPRIGHT, Surface

_CELLS = 24


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
    """How much stronger the seams along the edges of these squares are than all over them."""
    directions = (UPRIGHT, LEVEL) if seats[0].right[1] == 0 else (RISING, FALLING)
    blocks = cut(surface.seams, seats, _CELLS, 1).mean(axis=0)
    first, second = (blocks[..., direction] for direction in directions)
    edges = (first[:, :3], first[:, -3:], second[:3], second[-3:])
    along = np.mean(
        [edge.max(axis=axis).mean() for edge, axis in zip(edges, (1, 1, 0, 0), strict=True)]
    )
    return float(along / (blocks[..., list(directions)].mean() + 1e-6))


def line_strengths(surface: Surface, field: Extent, columns: int) -> Floats:
    """How strong the upright seams on each line between columns are, 1 being usual in the field."""
    rows = slice(round(field.top), round(field.bottom))
    strength = surface.seams[rows, :, UPRIGHT].mean(axis=0)
    lines = np.linspace(field.left, field.right, columns + 1)[1:-1]
    usual = strength[round(field.left) : round(field.right)].mean() + 1e-6
    near = [strength[round(line) - 2 : round(line) + 2].max() for line in lines]
    strengths: Floats = np.array(near, np.float32) / usual
    return strengths
