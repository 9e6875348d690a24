"""Straight, on point, or with every other block of another kind: how the blocks are set."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from catalogue.photographs.cells import Seat, cut
from catalogue.photographs.colour_space import Floats, distance
from catalogue.photographs.field import Extent
from catalogue.photographs.surface import FALLING, LEVEL, RISING, UPRIGHT, Surface

_CELLS = 24
_ROUND = 6  # cells cut round each square as well


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


def pointed_seats(extent: Extent, columns: int, rows: int, between: bool = False) -> list[Seat]:
    """The squares on their corners of the main grid, or those `between` them, row by row."""
    wide, high = grid(extent, columns, rows)
    shift = 1.0 if between else 0.5
    return [
        Seat.on_point(
            extent.left + (column + shift) * wide, extent.top + (row + shift) * high, wide, high
        )
        for row in range(rows - between)
        for column in range(columns - between)
    ]


@dataclass(frozen=True)
class Plain:
    """Squares of one cloth each: the share of them in their median colour, and how they end.

    `ends` is the share of their edges on which that colour becomes rarer from inside to outside.
    """

    share: float
    ends: float


def plain_squares(surface: Surface, seats: list[Seat]) -> Plain:
    """How far the squares are each of one cloth that ends just at their edges."""
    blocks = cut(surface.colour, seats, _CELLS, _ROUND)
    u = (np.arange(-_ROUND, _CELLS + _ROUND) + 0.5) / _CELLS * 2 - 1
    well_inside = np.maximum(np.abs(u)[:, None], np.abs(u)[None, :]) < 0.85
    inside = blocks[:, well_inside]
    middle = np.median(inside, axis=1, keepdims=True)
    nearest = np.sort(distance(inside, middle).ravel())
    tolerance = float(np.clip(2.5 * nearest[: int(0.6 * len(nearest))].mean(), 4, 16))
    same = distance(blocks, middle[:, None]) < tolerance
    along = slice(_ROUND, _ROUND + _CELLS)
    drops = []
    for way in (same, same.transpose(0, 2, 1)):
        for side in (u, -u):
            within, beyond = (side > 0.78) & (side < 0.95), (side > 1.05) & (side < 1.25)
            drops.append(way[:, within, along].mean((0, 1)) - way[:, beyond, along].mean((0, 1)))
    ends = float((np.concatenate(drops) > 0.3).mean())
    return Plain(float(same[:, well_inside].mean()), ends)


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
