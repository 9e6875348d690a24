"""Plain squares on their corners between the blocks: what tells a set on point."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from catalogue.photographs.colour_space import Floats, distance
from catalogue.photographs.field import Extent, folding, phases_of
from catalogue.photographs.surface import Surface

PHASES = 48  # parts into which a repeat is cut, each way
Allowed = tuple[npt.NDArray[Any], ...]

_SHOWS = 0.55  # how much rarer the squares' colour has to be just beyond their sides
_OFF = 0.25  # of a repeat by which the field may seem to end too early or too late
_GUESSES = 6  # colours that are tried
_ANOTHER = 5.0  # colour difference (CIELAB) between two of them


@dataclass(frozen=True)
class PlainSquares:
    """Squares of one cloth on their corners, one to a repeat: the middle of one, in pixels.

    `sharpness` is how much commoner their colour is on them than just beside them, 0 to 1.
    """

    x: float
    y: float
    sharpness: float


def find_plain_squares(
    surface: Surface, period: tuple[float, float], extent: Extent
) -> PlainSquares | None:
    """The plain squares on point of this repeat, None where no cloth fills such squares."""
    fold = _Fold.of(surface, period, extent)
    allowed = np.ix_(
        _in_step(extent.top, extent.bottom, fold.top, period[1]),
        _in_step(extent.left, extent.right, fold.left, period[0]),
    )
    found = [_placed(fold, share, allowed) for share in _shares(fold)]
    best = max(found, key=lambda squares: squares.sharpness, default=None)
    return best if best and best.sharpness > _SHOWS else None


@dataclass(frozen=True)
class _Fold:
    """The field, and the matrices that lay it over itself repeat by repeat."""

    field: Floats
    across: Floats
    down: Floats
    left: int
    top: int
    period: tuple[float, float]

    @classmethod
    def of(cls, surface: Surface, period: tuple[float, float], extent: Extent) -> _Fold:
        # Along the field's edges lie triangles, often of another cloth than the squares.
        left, right = _inset(extent.left, extent.right, period[0])
        top, bottom = _inset(extent.top, extent.bottom, period[1])
        return cls(
            surface.colour[top:bottom, left:right],
            folding(phases_of(right - left, period[0], PHASES), PHASES),
            folding(phases_of(bottom - top, period[1], PHASES), PHASES),
            left,
            top,
            period,
        )

    def mean(self, values: Floats) -> Floats:
        """By phase, shape (PHASES, PHASES) and the channels of the values."""
        folded = np.tensordot(self.down, values, (1, 0))
        turned = np.tensordot(self.across, folded, (1, 1))
        return np.asarray(turned.swapaxes(0, 1))


def _inset(low: float, high: float, period: float) -> tuple[int, int]:
    depth = max(0.0, min(0.45 * period, (high - low - 1.2 * period) / 2))
    return round(low + depth), round(high - depth)


def _shares(fold: _Fold) -> Iterator[Floats]:
    """By phase, the share of a colour that may be the squares', for the likeliest colours.

    Likely is what looks the same in every repeat and for a good way around.
    """
    mean = fold.mean(fold.field)
    spread = np.sqrt(np.maximum(fold.mean(fold.field**2) - mean**2, 0).sum(-1))
    around = _correlated(_square(0.0, 0.5), mean)
    uneven = spread + distance(mean, around)
    calm = _correlated(_square(0.0, 0.5), uneven[..., None])[..., 0]
    tried: list[Floats] = []
    for at in np.argsort(calm, axis=None):
        colour = around.reshape(-1, 3)[at]
        if any(distance(colour, before) < _ANOTHER for before in tried):
            continue
        away = distance(fold.field, colour)
        tolerance = max(4.0, 2.5 * float(np.sqrt(fold.mean((away**2)[..., None])).flat[at]))
        yield fold.mean((away < min(tolerance, 16.0)).astype(np.float32)[..., None])[..., 0]
        tried.append(colour)
        if len(tried) == _GUESSES:
            return


def _in_step(low: float, high: float, start: float, period: float) -> npt.NDArray[np.bool_]:
    """The phases from which a whole number of repeats leads to an end of the field, or nearly."""
    places = start + (np.arange(PHASES) + 0.5) / PHASES * period
    off = [np.abs((places - end) / period % 1 - 0.5) for end in (low, high)]
    nearly: npt.NDArray[np.bool_] = np.maximum(*off) > 0.5 - _OFF
    return nearly


def _placed(fold: _Fold, share: Floats, allowed: Allowed) -> PlainSquares:
    """Where squares of this colour stand out best from what lies beyond all four sides."""
    filled = _correlated(_square(0.0, 0.85), share[..., None])[..., 0]
    drops = []
    for side in range(4):
        inside = _correlated(_square(0.78, 0.95, side), share[..., None])
        beyond = _correlated(_square(1.07, 1.24, side), share[..., None])
        drops.append((inside - beyond)[..., 0])
    stands_out = np.full(share.shape, -1.0)
    stands_out[allowed] = (np.minimum.reduce(drops) - np.maximum(0, 0.7 - filled))[allowed]
    row, column = np.unravel_index(int(np.argmax(stands_out)), stands_out.shape)
    return PlainSquares(
        fold.left + (float(column) + 0.5) / PHASES * fold.period[0],
        fold.top + (float(row) + 0.5) / PHASES * fold.period[1],
        float(stands_out[row, column]),
    )


def _square(inner: float, outer: float, side: int | None = None) -> Floats:
    """The weights of a square on its corner, round phase 0, between two parts of its size.

    With a `side`, 0 to 3, the part along that side alone, its ends left out.
    """
    u = ((np.arange(PHASES) + PHASES // 2) % PHASES - PHASES // 2) / (PHASES / 2)
    across, down = u[None, :], u[:, None]
    size = np.abs(across) + np.abs(down)
    chosen = (size >= inner) & (size <= outer)
    if side is not None:
        right, low = side % 2 * 2 - 1, side // 2 * 2 - 1
        chosen = chosen & (across * right > 0.12) & (down * low > 0.12)
    weights: Floats = chosen / chosen.sum()
    return weights


def _correlated(weights: Floats, values: Floats) -> Floats:
    """The weighted mean of the values round every phase, closed round its edges."""
    turned = np.conj(np.fft.rfft2(weights))[..., None] * np.fft.rfft2(values, axes=(0, 1))
    mean: Floats = np.fft.irfft2(turned, weights.shape, axes=(0, 1))
    return mean
