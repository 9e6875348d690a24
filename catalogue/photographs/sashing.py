"""Sashing: strips of one cloth between all blocks, up and down and across, the same both ways."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from catalogue.photographs.colour_space import Floats, distance
from catalogue.photographs.field import Extent
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.surface import Surface

PHASES = 64  # parts into which a repeat is cut
_SHOWS = 0.3  # how much rarer the sashing's colour has to be just beyond the strip
_WIDEST = 0.45  # of a repeat


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
    found = [_fit(upright, level, colour) for colour in (upright.plainest, level.plainest)]
    best = max(found, key=lambda sashing: sashing.sharpness)
    return best if best.sharpness > _SHOWS else None


@dataclass(frozen=True)
class _Folded:
    """The field of one axis laid over itself repeat by repeat: `phase` of each column."""

    field: Floats
    start: float
    repeat: float
    phase: np.typing.NDArray[np.intp]
    best: int
    plainest: Floats

    @classmethod
    def of(cls, surface: Surface, extent: Extent, repeat: float) -> _Folded:
        left, right, top, bottom = (
            round(side) for side in (extent.left, extent.right, extent.top, extent.bottom)
        )
        field = surface.colour[top:bottom, left:right]
        phase = ((np.arange(right - left) / repeat) % 1 * PHASES).astype(int) % PHASES
        middle = np.median(field, axis=0)
        # A strip may be crossed by cornerstones: two thirds of it have to be of one colour.
        distance = np.sort(((field - middle) ** 2).sum(-1), axis=0)
        uneven = np.sqrt(distance[: max(1, int(0.65 * len(distance)))].mean(axis=0))
        folded = _fold(uneven, phase)
        best = int(np.argmin(folded + np.roll(folded, 1) + np.roll(folded, -1)))
        near = _near(phase, best)
        return cls(field, left, repeat, phase, best, np.median(middle[near], axis=0))

    @property
    def strip(self) -> Floats:
        """The field at the plainest phase."""
        return self.field[:, _near(self.phase, self.best)]


def _near(phase: np.typing.NDArray[np.intp], at: int) -> np.typing.NDArray[np.bool_]:
    near: np.typing.NDArray[np.bool_] = (
        np.minimum((phase - at) % PHASES, (at - phase) % PHASES) <= 1
    )
    return near


def _fold(values: Floats, phase: np.typing.NDArray[np.intp]) -> Floats:
    """Mean by phase; phases without a column take their neighbours'."""
    counts = np.bincount(phase, minlength=PHASES)
    sums = np.bincount(phase, values, minlength=PHASES)
    known = np.flatnonzero(counts)
    folded: Floats = np.interp(
        np.arange(PHASES), known, sums[known] / counts[known], period=PHASES
    ).astype(np.float32)
    return folded


def _fit(upright: _Folded, level: _Folded, colour: Floats) -> Sashing:
    """The strips of this colour that stand out best both ways, one width for both."""
    away = [distance(folded.strip, colour).ravel() for folded in (upright, level)]
    nearest = np.sort(np.concatenate(away))
    tolerance = max(4.0, 2.5 * float(nearest[: max(1, int(0.6 * len(nearest)))].mean()))
    shares = []
    for folded in (upright, level):
        share = (distance(folded.field, colour) < tolerance).mean(axis=0)
        shares.append(_fold(share, folded.phase))
    vague = 0.01 * max(0.0, tolerance - 10)  # so wide a tolerance takes in other cloth
    best = (-1.0, 1, 0.0, 0.0)
    for width in range(3, int(_WIDEST * PHASES)):
        one, other = (
            _stands_out(share, folded.best, width)
            for share, folded in zip(shares, (upright, level), strict=True)
        )
        best = max(best, (min(one[0], other[0]) - vague, width, one[1], other[1]))
    sharpness, width, across, down = best
    return Sashing(
        upright=upright.start + across / PHASES * upright.repeat,
        level=level.start + down / PHASES * level.repeat,
        across=width / PHASES * upright.repeat,
        down=width / PHASES * level.repeat,
        colour=colour,
        tolerance=tolerance,
        sharpness=sharpness,
    )


def _stands_out(share: Floats, about: int, width: int) -> tuple[float, float]:
    """How far a strip of this width near a phase stands out, and the phase of its middle."""
    best = (-1.0, 0.0)
    for middle in range(about - 6, about + 7):
        start = middle - width // 2
        inside = share[np.arange(start + 1, start + max(2, width - 1)) % PHASES]
        beside = (
            share[np.arange(start - 3, start - 1) % PHASES].mean(),
            share[np.arange(start + width + 1, start + width + 3) % PHASES].mean(),
        )
        sharpness = min(float(inside.mean()), float(inside.min()) + 0.15) - float(max(beside))
        best = max(best, (sharpness, start + width / 2))
    return best


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
