"""How many pieces of each kind a layout takes.

Counts checked against published quilts: tests/published/worked_examples.csv.
"""

from collections.abc import Callable
from typing import Final

from catalogue.measurement.layouts import (
    COLUMNS_ON_POINT,
    CORNERSTONE_CENTRED,
    FRAMED_BLOCKS,
    POINTS_UP,
    Pieces,
)
from catalogue.measurement.settings import Plan


def count_pieces(plan: Plan, columns: int, rows: int, cornerstones: bool | None) -> Pieces:
    """The pieces of a layout, its blocks all alike.

    Without cornerstones the strips one way run through; where nothing is said of cornerstones the
    strips are counted as running through. Pieces that the edge cuts through are left out, save
    half-blocks, which have a count of their own.
    """
    return _COUNTERS[plan.setting](plan, columns, rows, bool(cornerstones))


def _grid(plan: Plan, columns: int, rows: int, cornerstones: bool) -> Pieces:
    blocks = columns * rows
    if not plan.sashed:
        return Pieces(blocks)
    if FRAMED_BLOCKS in plan.details:
        return Pieces(blocks, sash_strips=4 * blocks, cornerstones=4 * blocks * cornerstones)
    outside = 1 if plan.sashing == "framed" else -1
    upright, level = columns + outside, rows + outside
    if cornerstones:
        strips = upright * rows + level * columns
        return Pieces(blocks, sash_strips=strips, cornerstones=upright * level)
    return Pieces(blocks, sash_strips=(columns - 1) * rows + level + (2 if outside > 0 else 0))


def _on_point(plan: Plan, columns: int, rows: int, cornerstones: bool) -> Pieces:
    if CORNERSTONE_CENTRED in plan.details:
        return _cornerstone_centred(columns, rows, cornerstones)
    inner = (columns - 1) * (rows - 1)
    blocks = columns * rows + inner
    sides = 2 * (columns + rows) - 4
    if not plan.sashed:
        return Pieces(blocks, 0, sides, 4)
    strips = 4 * inner if plan.sashing == "between" else 4 * columns * rows
    joints = (columns - 1) * rows + columns * (rows - 1)
    return Pieces(blocks, 0, sides, 4, 0, strips, joints * cornerstones)


def _cornerstone_centred(columns: int, rows: int, cornerstones: bool) -> Pieces:
    """Blocks on the edges of the pitch grid, cornerstones on its centres and inner corners."""
    blocks = (columns - 1) * rows + columns * (rows - 1)
    joints = columns * rows + (columns - 1) * (rows - 1)
    halves = 2 * (columns + rows)
    return Pieces(blocks, 0, 0, 0, halves, 4 * columns * rows, joints * cornerstones)


def _strippy(plan: Plan, columns: int, rows: int, cornerstones: bool) -> Pieces:
    del cornerstones  # strips run the whole length: there is nothing for one to join
    strips = columns + (1 if plan.sashing == "framed" else -1)
    if COLUMNS_ON_POINT not in plan.details:
        return Pieces(columns * rows, sash_strips=strips)
    sides = columns * 2 * (rows - 1)
    return Pieces(columns * rows, 0, sides, 4 * columns, 0, strips)


def _zigzag(plan: Plan, columns: int, rows: int, cornerstones: bool) -> Pieces:
    """Columns of n whole blocks, and between them columns of n - 1 with a half at either end."""
    del plan, cornerstones
    full, dropped = columns - columns // 2, columns // 2
    sides = full * 2 * (rows - 1) + dropped * 2 * rows
    return Pieces(full * rows + dropped * (rows - 1), 0, sides, 4 * full, 2 * dropped)


def _hexagon(plan: Plan, columns: int, rows: int, cornerstones: bool) -> Pieces:
    """Rows of n and n - 1 by turns; upright columns of n and n - 1 where a flat side is up."""
    del cornerstones
    longest, lines = (columns, rows) if POINTS_UP in plan.details else (rows, columns)
    return Pieces(longest * lines - lines // 2)


_COUNTERS: Final[dict[str, Callable[[Plan, int, int, bool], Pieces]]] = {
    "straight": _grid,
    "one-patch": _grid,
    "bars": _grid,
    "medallion": _grid,
    "on point": _on_point,
    "strippy": _strippy,
    "zigzag": _zigzag,
    "hexagon": _hexagon,
}
