"""The layouts worth weighing: the columns and rows that the sizes leave room for in a plan."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from catalogue.measurement.settings import Axis, Plan

MOST_COUNT: Final = 250
MOST_UNMEASURED: Final = 30  # columns or rows of a block nobody measured
SAMPLES: Final = 9
ASPECTS: Final = (0.6, 1.8)  # length over width where only one of them was measured

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Room:
    """Sizes as ranges when counts are proposed: narrow where measured, else wide and `free`.

    `width` and `length` are what blocks, sashing and free margin may take up, None where the
    overall size was not measured that way. `margin` is the width of an unmeasured border or float
    and `sides` how often it lies across and down. `alike` blocks have one size for both axes.
    """

    width: Range | None
    length: Range | None
    block_width: Range
    block_length: Range
    sash: Range
    margin: Range
    sides: tuple[float, float]
    free: frozenset[str]
    counted: tuple[int | None, int | None]


def columns_in(plan: Plan, room: Room) -> Sequence[int]:
    """The numbers of columns that could fit."""
    if plan.width.single:
        return (1,)
    size = room.width or _guessed(room.length, 1 / ASPECTS[1], 1 / ASPECTS[0])
    return _whole(_extremes(plan.width, size, room, 0), room, 0, plan.fewest[0])


def rows_in(plan: Plan, room: Room, columns: int) -> Sequence[int]:
    """The numbers of rows that could fit beside so many columns."""
    if plan.length.single:
        return (1,)
    size = room.length or _guessed(room.width, *ASPECTS)
    if not room.free or room.width is None or size is None:
        return _whole(_extremes(plan.length, size, room, 1), room, 1, plan.fewest[1])
    found = [
        _solve(plan.length, extent - room.sides[1] * margin, block, sash)
        for block, sash, margin in _sizes(plan, room, columns)
        for extent in size
    ]
    return _whole(found, room, 1, plan.fewest[1])


def _extremes(axis: Axis, size: Range | None, room: Room, which: int) -> list[float]:
    """How many of the largest and how many of the smallest parts fit, each axis by itself."""
    if size is None:
        return []
    block = (room.block_width, room.block_length)[which]
    low, high = (room.sides[which] * margin for margin in room.margin)
    return [
        _solve(axis, size[0] - high, block[1], room.sash[1]),
        _solve(axis, size[1] - low, block[0], room.sash[0]),
    ]


def _guessed(size: Range | None, least: float, most: float) -> Range | None:
    return None if size is None else (size[0] * least, size[1] * most)


def _solve(axis: Axis, size: float, block: float, sash: float) -> float:
    """How many fit into `size`, as a real number."""
    pitch = axis.block * block + axis.sash * sash
    return (size - axis.end_block * block - axis.end_sash * sash) / pitch


def _whole(found: Sequence[float], room: Room, axis: int, fewest: int) -> Sequence[int]:
    """The whole numbers from the least found to the greatest, and the one counted."""
    most = MOST_UNMEASURED if "block" in room.free else MOST_COUNT
    counted = room.counted[axis]
    numbers: list[int] = []
    if found and min(found) <= most:
        first = max(fewest, floor(min(found)))
        numbers = list(range(first, min(most, ceil(min(max(found), most))) + 1))
    if counted is not None and fewest <= counted <= MOST_COUNT and counted not in numbers:
        numbers.append(counted)
    return numbers


def _sizes(plan: Plan, room: Room, columns: int) -> Iterator[tuple[float, float, float]]:
    """(block length, sash, margin) that the overall width allows with so many columns.

    One size not measured is solved for from the width, others are sampled over their range.
    """
    pivot = None if room.width is None else _pivot(plan, room, columns)
    for width, length, sash, margin in _samples(room, pivot):
        if pivot is None:
            yield length, sash, margin
            continue
        taken = room.sides[0] * margin
        taken += plan.width.blocks(columns) * width + plan.width.sashes(columns) * sash
        yield from _pivoted(plan, room, columns, pivot, (length, sash, margin), taken)


def _pivot(plan: Plan, room: Room, columns: int) -> str | None:
    """The unmeasured size to solve for from the width, None where the width settles none."""
    weights = {
        "margin": room.sides[0],
        "sash": plan.width.sashes(columns),
        "block": plan.width.blocks(columns),
    }
    return next((name for name in weights if name in room.free and weights[name] > 0), None)


def _pivoted(
    plan: Plan,
    room: Room,
    columns: int,
    pivot: str,
    sizes: tuple[float, float, float],
    taken: float,
) -> Iterator[tuple[float, float, float]]:
    """`sizes` with the pivot's value at either end of what the width allows, if it allows any."""
    assert room.width is not None
    length, sash, margin = sizes
    times = {
        "margin": room.sides[0],
        "sash": plan.width.sashes(columns),
        "block": plan.width.blocks(columns),
    }[pivot]
    allowed = {"margin": room.margin, "sash": room.sash, "block": room.block_width}[pivot]
    low, high = ((extent - taken) / times for extent in room.width)
    if high < allowed[0] or low > allowed[1]:
        return
    for value in (max(low, allowed[0]), min(high, allowed[1])):
        if pivot == "margin":
            yield length, sash, value
        elif pivot == "sash":
            yield length, value, margin
        else:
            yield value, sash, margin


def _samples(room: Room, pivot: str | None) -> Iterator[tuple[float, float, float, float]]:
    """(block width, block length, sash, margin): the pivot 0, measured sizes at either end."""
    margins = [0.0] if pivot == "margin" else _spaced(room, "margin", room.margin)
    sashes = [0.0] if pivot == "sash" else _spaced(room, "sash", room.sash)
    for margin in margins:
        for sash in sashes:
            if pivot == "block":
                yield 0.0, 0.0, sash, margin
                continue
            widths = _spaced(room, "block", room.block_width)
            lengths = _spaced(room, "block", room.block_length)
            for width, length in zip(widths, lengths, strict=True):
                yield width, length, sash, margin


def _spaced(room: Room, name: str, extent: Range) -> list[float]:
    """Either end of a measured size; steps of equal ratio over the range of a free one."""
    low, high = extent
    if name not in room.free:
        return [low, high]
    steps = SAMPLES - 1
    return [low + (high - low) * (n / steps) ** 2 for n in range(SAMPLES)]
