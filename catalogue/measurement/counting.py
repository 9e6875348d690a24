"""What a count by eye says of a layout: evidence that may be wrong, never an override.

Error rates are judgement (common practice, no source): a person miscounts about one time in thirty,
mostly by one, and on large quilts by a few.
"""

from functools import lru_cache
from math import exp, log
from typing import Final

from catalogue.measurement.layouts import Pieces
from catalogue.measurement.pieces import count_pieces
from catalogue.measurement.readings import Counted
from catalogue.measurement.settings import Plan

RIGHT: Final = 0.965
OFF_BY_ONE: Final = 0.008
ASTRAY: Final = 0.0002
EVERY_ROW: Final = 0.01  # on point, all rows of blocks counted instead of the main grid


def log_counted(counted: Counted, plan: Plan, columns: int, rows: int) -> float:
    """The logarithm of the probability of what was counted, were this the layout."""
    total = 0.0
    if counted.columns is not None:
        total += log(_line(counted.columns, columns, plan))
    if counted.rows is not None:
        total += log(_line(counted.rows, rows, plan))
    if counted.pieced_blocks is not None:
        total += log(_pieced(counted.pieced_blocks, plan, columns, rows))
    return total


def _line(counted: int, count: int, plan: Plan) -> float:
    if counted == count:
        return RIGHT
    if abs(counted - count) == 1:
        return OFF_BY_ONE
    if plan.setting == "on point" and counted == 2 * count - 1:
        return EVERY_ROW
    return ASTRAY


def _pieced(counted: int, plan: Plan, columns: int, rows: int) -> float:
    ways = ways_to_count(plan, columns, rows)
    if plan.setting == "medallion":
        return 0.5 if counted == 1 else 0.005  # blocks of the frames are counted too, any number
    total = max(ways)
    spread = 1.0 + 0.02 * total
    near = min(abs(counted - way) for way in ways)
    miscounted = 0.02 * exp(-near / spread) / (2 * spread)
    some = 0.01 / total if counted < total else 0.0  # pieced blocks scattered without a rule
    return ways.get(counted, 0.0) * RIGHT + miscounted + some + 1e-6


@lru_cache(maxsize=4096)
def ways_to_count(plan: Plan, columns: int, rows: int) -> dict[int, float]:
    """The counts of pieced blocks that this layout leads one to expect, with their shares."""
    pieces = count_pieces(plan, columns, rows, cornerstones=None)
    ways = {pieces.blocks: 0.55}
    if pieces.half_blocks:
        both = pieces.blocks + pieces.half_blocks
        ways[both] = ways.get(both, 0.0) + 0.15
    for half in alternate_counts(plan, columns, rows, pieces):
        ways[half] = ways.get(half, 0.0) + 0.2
    return ways


def alternate_counts(plan: Plan, columns: int, rows: int, pieces: Pieces) -> tuple[int, ...]:
    """How many blocks are pieced where every second one is plain or of another pattern."""
    if plan.setting in ("straight", "one-patch") and pieces.blocks > 1:
        half = pieces.blocks // 2
        return (pieces.blocks - half, half) if pieces.blocks % 2 else (half,)
    if plan.setting == "on point" and not plan.sashed:
        return columns * rows, (columns - 1) * (rows - 1)
    return ()
