"""Blocks cut from the surface, each as a square of the same number of cells."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt

from catalogue.photographs.colour_space import Floats

Places = npt.NDArray[np.floating]
Place = tuple[int, int]  # column and row, from 0 at the top left


@dataclass(frozen=True)
class Seat:
    """Where a block lies: its middle, and its half sides as vectors to the right and down."""

    x: float
    y: float
    right: tuple[float, float]
    down: tuple[float, float]

    @classmethod
    def upright(cls, left: float, right: float, top: float, bottom: float) -> Seat:
        return cls(
            (left + right) / 2,
            (top + bottom) / 2,
            ((right - left) / 2, 0.0),
            (0.0, (bottom - top) / 2),
        )

    @classmethod
    def on_point(cls, x: float, y: float, across: float, down: float) -> Seat:
        """A block on its corner, `across` and `down` from corner to corner.

        Its own top left side is the one that runs from the left corner to the upper one.
        """
        return cls(x, y, (across / 4, down / 4), (-across / 4, down / 4))

    @property
    def side(self) -> float:
        """Geometric mean of the two sides, in pixels."""
        return 2 * sqrt(abs(self.right[0] * self.down[1] - self.right[1] * self.down[0]))


def cut(values: Floats, seats: list[Seat], cells: int, margin: int = 0) -> Floats:
    """The blocks, shape (blocks, cells + 2 margin, cells + 2 margin, channels).

    `margin` cells of what lies round each block are cut with it; beyond the picture its edge is
    repeated.
    """
    steps = (np.arange(-margin, cells + margin, dtype=np.float32) + 0.5) / cells * 2 - 1
    across, down = steps[None, None, :], steps[None, :, None]
    table = np.array([(s.x, s.y, *s.right, *s.down) for s in seats], np.float32)
    x, y, rx, ry, dx, dy = (table[:, k, None, None] for k in range(6))
    return sampled(values, x + across * rx + down * dx - 0.5, y + across * ry + down * dy - 0.5)


def sampled(values: Floats, x: Places, y: Places) -> Floats:
    """Values at places given in pixels, between them by linear interpolation."""
    height, width = values.shape[:2]
    x, y = np.clip(x, 0, width - 1.001), np.clip(y, 0, height - 1.001)
    left, top = x.astype(np.intp), y.astype(np.intp)
    fx, fy = (x - left)[..., None], (y - top)[..., None]
    upper = values[top, left] * (1 - fx) + values[top, left + 1] * fx
    lower = values[top + 1, left] * (1 - fx) + values[top + 1, left + 1] * fx
    between: Floats = (upper * (1 - fy) + lower * fy).astype(np.float32)
    return between
