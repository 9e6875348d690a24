"""The repeat of a quilt: how far across and down it has to be moved to lie on itself again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from catalogue.photographs.colour_space import Floats
from catalogue.photographs.surface import Surface

MARGIN = 0.15  # of each side left out at first: there borders are likeliest
MOST_REPEATS = 20  # along the longer side; more is a one-patch, or the cloth's own print
SQUARENESS = 1.3  # a block may be that much longer than wide
TURNING_AS_GOOD = 0.88  # likewise where two kinds of block take turns
_HALVED = 2  # pixels of the surface to a cell
AS_GOOD = 0.8  # a finer repeat is taken where it explains that much of what the best explains


@dataclass(frozen=True)
class Lattice:
    """The step from block to block in pixels of the surface, and how alike the quilt is to itself.

    `likeness` is the mean over the moves that bring it back on itself: 1 for a perfect repeat, near
    0 for none. Where blocks of two kinds take turns, `turns` says how: "" (they do not),
    "chequered", "columns" or "rows"; a step then leads to a block of the other kind. With
    `seams_alone` only the seams repeat: light and dark lie otherwise from block to block.
    """

    across: float
    down: float
    likeness: float
    turns: str = ""
    seams_alone: bool = False

    @property
    def period(self) -> tuple[float, float]:
        """Across and down: after how many pixels the same comes again in the same row or column."""
        return (
            self.across * (2 if self.turns in ("chequered", "columns") else 1),
            self.down * (2 if self.turns in ("chequered", "rows") else 1),
        )

    @property
    def area(self) -> float:
        """What repeats, in square pixels."""
        return self.across * self.down * (2 if self.turns else 1)


def find_lattice(surface: Surface) -> Lattice | None:
    """The finest repeat that explains the middle of the quilt, None where nothing repeats."""
    # Of the colours only their lightness: makers of scrap quilts keep to it before the hue.
    lightness, seams = map(_Likeness.of, (surface.colour[..., :1], surface.seams))
    likeness = lightness.with_other(seams)
    square, chequered, oblong = (
        _finest(found) for found in (_square(likeness), _chequered(likeness), _oblong(likeness))
    )
    best = square
    for other in (chequered, oblong):
        if other and (best is None or _better(other, best)):
            best = other
    sewn = _finest(_square(seams))
    if sewn and (best is None or sewn.likeness > best.likeness / AS_GOOD):
        return replace(_refined(seams, sewn), seams_alone=True)
    return best and _refined(likeness, best)


def _finest(found: Iterable[Lattice]) -> Lattice | None:
    known = [lattice for lattice in found if lattice.likeness > 0]
    best = max((lattice.likeness for lattice in known), default=0)
    fine = [lattice for lattice in known if lattice.likeness >= AS_GOOD * best]
    return min(fine, key=lambda lattice: lattice.area, default=None)


def _better(other: Lattice, best: Lattice) -> bool:
    """Whether blocks that take turns explain more than blocks of one kind, or more finely."""
    if other.area < 0.9 * best.area:
        return other.likeness > TURNING_AS_GOOD * best.likeness
    return other.likeness > best.likeness / AS_GOOD


@dataclass(frozen=True)
class _Likeness:
    """Autocorrelation by shift, wrapped round; `near` is its maximum within two cells."""

    exact: Floats
    near: Floats
    reach: tuple[float, float]
    least: float

    @classmethod
    def of(cls, values: Floats) -> _Likeness:
        # Half the pixels tell the repeat as well, in a fifth of the time.
        values = _halved(values)
        height, width = values.shape[:2]
        exact = _autocorrelation(values, _middle(height, width))
        reach = (1 - 2 * MARGIN) * width, (1 - 2 * MARGIN) * height
        return cls(exact, _at_best_near(exact), reach, max(width, height) / MOST_REPEATS)

    def with_other(self, other: _Likeness) -> _Likeness:
        """The mean of two witnesses of one quilt."""
        both = (self.exact + other.exact) / 2
        return replace(self, exact=both, near=_at_best_near(both))

    def at(self, across: float, down: float, exact: bool = False) -> float:
        """Likeness after a move, in cells, by linear interpolation."""
        values = self.exact if exact else self.near
        x, y = int(np.floor(across)), int(np.floor(down))
        fx, fy = across - x, down - y
        height, width = values.shape
        rows, columns = (y % height, (y + 1) % height), (x % width, (x + 1) % width)
        upper = (1 - fx) * values[rows[0], columns[0]] + fx * values[rows[0], columns[1]]
        lower = (1 - fx) * values[rows[1], columns[0]] + fx * values[rows[1], columns[1]]
        return float((1 - fy) * upper + fy * lower)

    def top_near(self, across: float, down: float) -> tuple[float, float, float]:
        """The greatest likeness within two cells of a move, and the move that has it."""
        height, width = self.exact.shape
        x, y = round(across), round(down)
        around = np.arange(-2, 3)
        part = self.exact[np.ix_((y + around) % height, (x + around) % width)]
        row, column = divmod(int(np.argmax(part)), 5)
        return (
            float(part[row, column]),
            x + column - 2 + vertex(part[row], column),
            y + row - 2 + vertex(part[:, column], row),
        )

    def overlap(self, across: float, down: float) -> float:
        """Share of the middle that still covers itself after a move."""
        width, height = self.reach
        return max(0.0, 1 - abs(across) / width) * max(0.0, 1 - abs(down) / height)


def _at_best_near(exact: Floats) -> Floats:
    near = exact
    for axis in (0, 1):
        near = np.maximum.reduce([np.roll(near, shift, axis) for shift in range(-1, 2)])
    return near


def vertex(values: Floats, at: int) -> float:
    """Where the parabola through a maximum and its neighbours is highest, in cells from it."""
    if not 0 < at < len(values) - 1:
        return 0.0
    before, top, after = (float(value) for value in values[at - 1 : at + 2])
    bend = before - 2 * top + after
    return 0.0 if bend >= 0 else (before - after) / (2 * bend)


def _halved(values: Floats) -> Floats:
    height, width = (side // 2 * 2 for side in values.shape[:2])
    even = values[:height, :width]
    halves: Floats = (even[::2, ::2] + even[1::2, ::2] + even[::2, 1::2] + even[1::2, 1::2]) / 4
    return halves


def _middle(height: int, width: int) -> Floats:
    inside = np.zeros((height, width), np.float32)
    top, left = round(MARGIN * height), round(MARGIN * width)
    inside[top : height - top, left : width - left] = 1
    return inside


def _autocorrelation(values: Floats, inside: Floats) -> Floats:
    """Correlation of the values with themselves by shift, over what overlaps, channels pooled."""
    shape = tuple(int(side * 1.7) // 16 * 16 + 16 for side in inside.shape)
    covered = np.fft.rfft2(inside, shape)
    total = inside.sum()
    products = np.zeros(shape)
    energy = np.zeros(shape)
    for channel in np.moveaxis(values, -1, 0):
        centred = (channel - (channel * inside).sum() / total) * inside
        products += np.fft.irfft2(np.abs(np.fft.rfft2(centred, shape)) ** 2, shape)
        squares = np.fft.irfft2(np.fft.rfft2(centred**2, shape) * np.conj(covered), shape)
        mirrored = np.roll(squares[::-1, ::-1], 1, axis=(0, 1))
        energy += np.sqrt(np.maximum(squares, 0) * np.maximum(mirrored, 0))
    overlap = np.fft.irfft2(np.abs(covered) ** 2, shape) / total
    alike: Floats = (products / np.maximum(energy, 1e-4 * energy.max() + 1e-12)).astype(np.float32)
    alike[overlap < 0.15] = 0
    return alike


def _reaches(likeness: _Likeness) -> tuple[list[float], list[float]]:
    width, height = likeness.reach
    across = _peaks(likeness, 0.62 * width, upright=False)
    down = _peaks(likeness, 0.62 * height, upright=True)
    return across, down


def _square(likeness: _Likeness) -> Iterator[Lattice]:
    """One kind of block, about as long as wide."""
    for x, y in product(*_reaches(likeness)):
        if abs(np.log(x / y)) < np.log(SQUARENESS):
            yield Lattice(x, y, _mean(likeness, x, y, _ALL_MOVES))


def _oblong(likeness: _Likeness) -> Iterator[Lattice]:
    """Columns, or rows, of square blocks that take turns."""
    for x, y in product(*_reaches(likeness)):
        if abs(np.log(x / y / 2)) < np.log(SQUARENESS):
            yield Lattice(x / 2, y, _mean(likeness, x, y, _ALL_MOVES), "columns")
        if abs(np.log(x / y * 2)) < np.log(SQUARENESS):
            yield Lattice(x, y / 2, _mean(likeness, x, y, _ALL_MOVES), "rows")


def _chequered(likeness: _Likeness) -> Iterator[Lattice]:
    """Blocks that take turns both ways: found by moves of one step across and one down."""
    width, height = (int(0.62 * side) for side in likeness.reach)
    least = int(likeness.least)
    falling = likeness.exact[: height + 1, : width + 1]
    rising = np.roll(likeness.exact[::-1], 1, axis=0)[: height + 1, : width + 1]
    both = np.minimum(falling, rising)
    inner = both[1:-1, 1:-1]
    around = [both[1 + dy : height + dy, 1 + dx : width + dx] for dy in _NEAR for dx in _NEAR]
    tops = (inner > 0.1) & (inner >= np.maximum.reduce(around))
    for row, column in zip(*np.nonzero(tops), strict=True):
        x, y = float(column + 1), float(row + 1)
        if min(x, y) >= least and abs(np.log(x / y)) < np.log(SQUARENESS):
            yield Lattice(x, y, _mean(likeness, x, y, _CHEQUERED_MOVES), "chequered")


_NEAR = (-1, 0, 1)
_ALL_MOVES = [(a, b) for a in range(3) for b in range(-2, 3) if a > 0 or b > 0]
_CHEQUERED_MOVES = [
    (a, b) for a in range(4) for b in range(-3, 4) if (a > 0 or b > 0) and (a + b) % 2 == 0
]


def _peaks(likeness: _Likeness, farthest: float, upright: bool) -> list[float]:
    """Shifts along one axis after which the quilt is more like itself than just before or after."""
    shifts = np.arange(likeness.least, farthest, 0.25)
    sideways = (-2, -1, 0, 1, 2)  # a quilt hangs a little askew
    values = [
        max(
            likeness.at(side, shift, True) if upright else likeness.at(shift, side, True)
            for side in sideways
        )
        for shift in map(float, shifts)
    ]
    return [
        float(shifts[k])
        for k in range(1, len(values) - 1)
        if values[k] > 0.1 and values[k] >= values[k - 1] and values[k] > values[k + 1]
    ]


def _mean(likeness: _Likeness, x: float, y: float, moves: list[tuple[int, int]]) -> float:
    """Mean likeness over these multiples of a step, by how much each overlaps."""
    total = weighted = 0.0
    for a, b in moves:
        weight = likeness.overlap(a * x, b * y)
        if weight >= 0.15:
            weighted += weight * likeness.at(a * x, b * y)
            total += weight
    return weighted / total if total else 0.0


def _refined(likeness: _Likeness, lattice: Lattice) -> Lattice:
    """The same in pixels of the surface, to a fraction of one, from moves as far as they reach."""
    x, y = lattice.across, lattice.down
    moves = _CHEQUERED_MOVES if lattice.turns == "chequered" else _ALL_MOVES
    unit = {"columns": (2, 1), "rows": (1, 2)}.get(lattice.turns, (1, 1))
    steps = [(a * unit[0], b * unit[1]) for a, b in moves]
    for reach in (1, 2, 3):
        across, down = [], []
        for a, b in steps:
            weight = likeness.overlap(a * x, b * y)
            if max(a, abs(b)) > reach or weight < 0.2:
                continue
            top, found_x, found_y = likeness.top_near(a * x, b * y)
            if top > 0.1:
                across.append((a * a * weight, found_x / a if a else 0))
                down.append((b * b * weight, found_y / b if b else 0))
        x, y = _weighted(across, x), _weighted(down, y)
    return replace(lattice, across=x * _HALVED, down=y * _HALVED)


def _weighted(found: list[tuple[float, float]], otherwise: float) -> float:
    total = sum(weight for weight, _ in found)
    return sum(weight * value for weight, value in found) / total if total else otherwise
