"""The layouts worth weighing: the columns and rows that the sizes leave room for in a plan."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Final, NamedTuple

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


class _Pivot(NamedTuple):
    """The size not measured that is solved for from the width: how often it lies across, range."""

    name: str
    times: float
    allowed: Range

    def solved(self, width: Range, taken: float) -> Iterator[float]:
        """Its least and greatest value beside what else is taken up, if the range has any."""
        low, high = ((extent - taken) / self.times for extent in width)
        if high >= self.allowed[0] and low <= self.allowed[1]:
            yield max(low, self.allowed[0])
            yield min(high, self.allowed[1])


def _sizes(plan: Plan, room: Room, columns: int) -> Iterator[tuple[float, float, float]]:
    """(block length, sash, margin) that the overall width allows with so many columns.

    One size not measured is solved for from the width, others are sampled over their range.
    """
    pivot = _pivot(plan, room, columns)
    blocks, sashes = plan.width.blocks(columns), plan.width.sashes(columns)
    for width, length, sash, margin in _samples(room, pivot.name if pivot else ""):
        if pivot is None or room.width is None:
            yield length, sash, margin
            continue
        taken = blocks * width + sashes * sash + room.sides[0] * margin
        for value in pivot.solved(room.width, taken):
            if pivot.name == "margin":
                yield length, sash, value
            elif pivot.name == "sash":
                yield length, value, margin
            else:
                yield value, sash, margin


def _pivot(plan: Plan, room: Room, columns: int) -> _Pivot | None:
    """The unmeasured size to solve for from the width, None where the width settles none."""
    if room.width is None:
        return None
    across = (
        _Pivot("margin", room.sides[0], room.margin),
        _Pivot("sash", plan.width.sashes(columns), room.sash),
        _Pivot("block", plan.width.blocks(columns), room.block_width),
    )
    return next((one for one in across if one.name in room.free and one.times > 0), None)


def _samples(room: Room, pivot: str) -> Iterator[tuple[float, float, float, float]]:
    """(block width, block length, sash, margin): the pivot 0, measured sizes at either end."""
    none = [0.0]
    margins = _spaced(room, "margin", room.margin) if room.margin[1] and pivot != "margin" else none
    sashes = _spaced(room, "sash", room.sash) if room.sash[1] and pivot != "sash" else none
    widths = none if pivot == "block" else _spaced(room, "block", room.block_width)
    lengths = none if pivot == "block" else _spaced(room, "block", room.block_length)
    for margin in margins:
        for sash in sashes:
            for width, length in zip(widths, lengths, strict=True):
                yield width, length, sash, margin


def _spaced(room: Room, name: str, extent: Range) -> list[float]:
    """Either end of a measured size; over the range of a free one, steps that widen upwards."""
    low, high = extent
    if name not in room.free:
        return [low, high]
    steps = SAMPLES - 1
    return [low + (high - low) * (n / steps) ** 2 for n in range(SAMPLES)]
