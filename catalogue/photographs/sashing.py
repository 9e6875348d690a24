"""Sashing: strips of one cloth between all blocks, up and down and across, the same both ways."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from catalogue.photographs.colour_space import Floats, distance
from catalogue.photographs.field import Extent, Wholes, folding, phases_of
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.surface import Surface

PHASES = 64  # parts into which a repeat is cut
_SHOWS = 0.38  # how much rarer the sashing's colour has to be just beyond the strip
_ABOUT = 6  # phases to either side of the plainest in which the strip's middle is sought
_GUESSES = 4  # colours of each axis that are tried
_ANOTHER = 5.0  # colour difference (CIELAB) between two of them
_BLURRED = 1.3  # pixels on either side of a strip in which colours run together
_WIDEST = 0.34  # of a repeat


@dataclass(frozen=True)
class Sashing:
    """Strips: the middle of one of them each way, their width, pixels of the surface.

    `sharpness` is how much commoner their colour is on them than just beside them, 0 to 1.
    """

    upright: float
    level: float
    across: float
    down: float
    colour: Floats
    tolerance: float
    sharpness: float


def find_sashing(surface: Surface, lattice: Lattice, extent: Extent) -> Sashing | None:
    """The strips between the blocks, None where no cloth runs through the whole field both ways."""
    upright = _Folded.of(surface, extent, lattice.across)
    level = _Folded.of(surface.transposed(), extent.transposed(), lattice.down)
    guesses = (*_guesses(upright, level), *(g.flipped() for g in _guesses(level, upright)))
    found = [
        sashing
        for guess in guesses
        if (sashing := _fit(guess)).sharpness > _SHOWS
        and not _runs_together(sashing, upright, level)
    ]
    return max(found, key=lambda sashing: sashing.sharpness, default=None)


@dataclass(frozen=True)
class _Folded:
    """The field of one axis laid over itself repeat by repeat: `phase` of each column.

    `uneven` says by phase how far the colours along a column lie from their median.
    """

    field: Floats
    start: float
    repeat: float
    phase: Wholes
    averaging: Floats
    middle: Floats
    uneven: Floats

    @classmethod
    def of(cls, surface: Surface, extent: Extent, repeat: float) -> _Folded:
        left, right, top, bottom = (
            round(side) for side in (extent.left, extent.right, extent.top, extent.bottom)
        )
        field = surface.colour[top:bottom, left:right]
        phase = phases_of(right - left, repeat, PHASES)
        middle = np.median(field, axis=0)
        # A strip may be crossed by cornerstones: two thirds of it have to be of one colour.
        off = np.sort(((field - middle) ** 2).sum(-1), axis=0)
        uneven = np.sqrt(off[: max(1, int(0.65 * len(off)))].mean(axis=0))
        averaging = folding(phase, PHASES)
        folded = averaging @ uneven
        # Where the colour is on its way to another it belongs to no cloth.
        colours = averaging @ middle
        on_its_way = distance(np.roll(colours, 1, axis=0), np.roll(colours, -1, axis=0))
        folded = folded + on_its_way / 2
        smooth = (folded + np.roll(folded, 1) + np.roll(folded, -1)) / 3
        return cls(field, left, repeat, phase, averaging, middle, smooth)

    def near(self, at: int) -> npt.NDArray[np.bool_]:
        """The columns within a phase of this one."""
        near: npt.NDArray[np.bool_] = (
            np.minimum((self.phase - at) % PHASES, (at - self.phase) % PHASES) <= 1
        )
        return near


@dataclass(frozen=True)
class _Guess:
    """Both axes, where the strips of one of them may lie, and the colour they would have."""

    upright: _Folded
    level: _Folded
    at: int
    colour: Floats
    tolerance: float
    at_upright: bool = True

    def flipped(self) -> _Guess:
        return replace(self, upright=self.level, level=self.upright, at_upright=False)


def _runs_together(sashing: Sashing, upright: _Folded, level: _Folded) -> bool:
    """Whether the strips' colour is just what the colours on either side make when blurred."""
    shares = (
        _between_neighbours(folded, middle - folded.start, width / 2)
        for folded, middle, width in (
            (upright, sashing.upright, sashing.across),
            (level, sashing.level, sashing.down),
        )
    )
    return sum(shares) / 2 > 0.45


def _between_neighbours(folded: _Folded, middle: float, half: float) -> float:
    """Share of the strips along an axis whose colour lies between those to the left and right."""
    width = folded.field.shape[1]
    middles = np.arange(middle % folded.repeat, width, folded.repeat)
    reach = half + 2.0
    middles = middles[(middles > reach) & (middles < width - 1 - reach)]
    if len(middles) == 0:
        return 0.0
    left, before, strip, after, right = (
        folded.field[:, np.round(middles + shift).astype(np.intp)]
        for shift in (-reach, -1.5, 0, 1.5, reach)
    )
    apart = distance(left, right)
    by_way = distance(left, strip) + distance(strip, right)
    runs_through = distance(before, after) > 0.4 * apart
    return float((runs_through & (by_way < 1.1 * apart)).mean())


def _guesses(folded: _Folded, other: _Folded) -> Iterator[_Guess]:
    """The plainest phases of an axis, each of another colour."""
    tried: list[Floats] = []
    for at in np.argsort(folded.uneven):
        near = folded.near(int(at))
        if not near.any():
            continue  # so few columns that this phase has none
        colour = np.median(folded.middle[near], axis=0)
        if any(distance(colour, before) < _ANOTHER for before in tried):
            continue
        away = np.sort(distance(folded.field[:, near], colour).ravel())
        tolerance = max(4.0, 2.5 * float(away[: max(1, int(0.6 * len(away)))].mean()))
        yield _Guess(folded, other, int(at), colour, tolerance)
        tried.append(colour)
        if len(tried) == _GUESSES:
            return


def _fit(guess: _Guess) -> Sashing:
    """The strips of this colour that stand out best both ways, one width for both."""
    upright, level = guess.upright, guess.level
    same = (distance(upright.field, guess.colour) < guess.tolerance).astype(np.float32)
    near, anywhere = guess.at + np.arange(-_ABOUT, _ABOUT + 1), np.arange(PHASES)
    middles = (near, anywhere) if guess.at_upright else (anywhere, near)
    summed = _Summed.of(level.averaging @ same @ upright.averaging.T)
    fits = [summed.fit(width, *middles) for width in range(3, int(_WIDEST * PHASES))]
    sharpness, width, across, down = max(fits)
    vague = 0.03 * max(0.0, guess.tolerance - 10)  # so wide a tolerance takes in other cloth
    return Sashing(
        upright=upright.start + across / PHASES * upright.repeat,
        level=level.start + down / PHASES * level.repeat,
        across=width / PHASES * upright.repeat + 2 * _BLURRED,
        down=width / PHASES * level.repeat + 2 * _BLURRED,
        colour=guess.colour,
        tolerance=guess.tolerance,
        sharpness=sharpness - vague,
    )


@dataclass(frozen=True)
class _Summed:
    """Share of the strips' colour in one repeat, by phase, summed so that boxes are quick."""

    sums: Floats

    @classmethod
    def of(cls, share: Floats) -> _Summed:
        wide = np.tile(share, (4, 4))
        return cls(np.pad(wide.cumsum(0).cumsum(1), ((1, 0), (1, 0))))

    def box(self, top: Wholes, bottom: Wholes, left: Wholes, right: Wholes) -> Floats:
        """Mean share in boxes, their sides counted in phases."""
        y0, y1, x0, x1 = (side + PHASES for side in (top, bottom, left, right))
        total = self.sums[y1, x1] - self.sums[y0, x1] - self.sums[y1, x0] + self.sums[y0, x0]
        mean: Floats = total / ((y1 - y0) * (x1 - x0)).astype(np.float32)
        return mean

    def fit(self, width: int, across: Wholes, down: Wholes) -> tuple[float, int, float, float]:
        """How far strips of this width stand out, the width, and the middles of both strips.

        The middles are sought among the phases `across` and `down`.
        """
        x, y = across[None, :] - width // 2, down[:, None] - width // 2
        # Where strips cross nothing is told, and a strip has to end along a whole block.
        rows, columns = (y + width + 1, y + PHASES - 1), (x + width + 1, x + PHASES - 1)
        drops = []
        for inside, beyond in (((0, 2), (-3, -1)), ((width - 2, width), (width + 1, width + 3))):
            drops.append(self._drop(rows, x, inside, beyond))
            drops.append(self._drop(columns, y, inside, beyond, level=True))
        upright = self.box(*rows, x + 1, x + width - 1)
        level = self.box(y + 1, y + width - 1, *columns)
        stands_out = np.minimum.reduce(drops) - np.maximum(0, 0.7 - np.minimum(upright, level))
        row, column = np.unravel_index(int(np.argmax(stands_out)), stands_out.shape)
        half = width / 2 - width // 2
        best = float(stands_out[row, column])
        return best, width, float(across[column]) + half, float(down[row]) + half

    def _drop(
        self,
        along: tuple[Wholes, Wholes],
        start: Wholes,
        inside: tuple[int, int],
        beyond: tuple[int, int],
        level: bool = False,
    ) -> Floats:
        """How much rarer the colour is just beyond the edge of a strip than just inside."""
        within, outside = (
            self.box(start + low, start + high, *along)
            if level
            else self.box(*along, start + low, start + high)
            for low, high in (inside, beyond)
        )
        return within - outside


def is_framed(surface: Surface, sashing: Sashing, blocks: Extent) -> bool:
    """Whether the strips go round the outside too: their cloth lies next to the blocks there.

    The nearest strips inside are the measure, since light and fading differ over the quilt.
    """
    sides = (
        _outside(surface, sashing, blocks, flip=False),
        _outside(surface.transposed(), sashing, blocks.transposed(), flip=True),
    )
    shares = sorted(share for pair in sides for share in pair)
    return (shares[1] + shares[2]) / 2 > 0.5


def _outside(surface: Surface, sashing: Sashing, blocks: Extent, flip: bool) -> tuple[float, float]:
    """Share of the sashing's colour in a strip to the left and to the right of the blocks."""
    strip = sashing.down if flip else sashing.across
    width = max(2, round(strip))
    same = distance(surface.colour, sashing.colour) < sashing.tolerance
    rows = slice(round(blocks.top), round(blocks.bottom))
    left, right = round(blocks.left), round(blocks.right)
    shares = []
    for low, high in ((left - width, left), (right, right + width)):
        room = min(high, surface.width) - max(low, 0)
        part = same[rows, max(low + 1, 0) : min(high - 1, surface.width)]
        shares.append(float(part.mean()) if part.size and room > 0.6 * width else 0.0)
    return shares[0], shares[1]
