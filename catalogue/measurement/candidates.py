"""The layouts worth weighing: the columns and rows that the sizes leave room for in a plan."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from catalogue.measurement.settings import Axis, Plan

MOST_COUNT: Final = 250
MOST_UNMEASURED: Final = 30  # columns or rows of a block nobody measured
MOST_CANDIDATES: Final = 400
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


def counts(plan: Plan, room: Room) -> Iterator[tuple[int, int]]:
    """Columns and rows that could fit, each pair once, at most MOST_CANDIDATES."""
    yielded = 0
    alone = None if room.free and room.width else _rows(plan, room, 1)
    for columns in _columns(plan, room):
        for rows in alone or _rows(plan, room, columns):
            if columns < plan.fewest[0] or rows < plan.fewest[1]:
                continue
            if columns * rows == 1 and plan.setting != "medallion":
                continue
            yield columns, rows
            yielded += 1
            if yielded >= MOST_CANDIDATES:
                return


def _columns(plan: Plan, room: Room) -> Sequence[int]:
    if plan.width.single:
        return (1,)
    size = room.width or _guessed(room.length, 1 / ASPECTS[1], 1 / ASPECTS[0])
    if size is None:
        return _whole([], room, 0)
    low, high = (room.sides[0] * margin for margin in room.margin)
    fewest = _solve(plan.width, size[0] - high, room.block_width[1], room.sash[1])
    most = _solve(plan.width, size[1] - low, room.block_width[0], room.sash[0])
    return _whole([fewest, most], room, 0)


def _rows(plan: Plan, room: Room, columns: int) -> Sequence[int]:
    if plan.length.single:
        return (1,)
    size = room.length or _guessed(room.width, *ASPECTS)
    if size is None:
        return _whole([], room, 1)
    found = [
        _solve(plan.length, extent - room.sides[1] * margin, block, sash)
        for block, sash, margin in _sizes(plan, room, columns)
        for extent in size
    ]
    return _whole(found, room, 1)


def _guessed(size: Range | None, least: float, most: float) -> Range | None:
    return None if size is None else (size[0] * least, size[1] * most)


def _solve(axis: Axis, size: float, block: float, sash: float) -> float:
    """How many fit into `size`, as a real number."""
    pitch = axis.block * block + axis.sash * sash
    return (size - axis.end_block * block - axis.end_sash * sash) / pitch


def _whole(found: Sequence[float], room: Room, axis: int) -> Sequence[int]:
    """The whole numbers from the least found to the greatest, and the one counted."""
    most = MOST_UNMEASURED if "block" in room.free else MOST_COUNT
    counted = room.counted[axis]
    numbers: list[int] = []
    if found and min(found) <= most:
        first = max(1, floor(min(found)))
        numbers = list(range(first, min(most, ceil(min(max(found), most))) + 1))
    if counted is not None and counted <= MOST_COUNT and counted not in numbers:
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
