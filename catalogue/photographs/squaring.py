"""A quilt's picture put in proportion and to scale, and inches read from it with their error."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, sqrt

import numpy as np
import numpy.typing as npt
from PIL import Image

from catalogue.photographs.homography import (
    Corners,
    Matrix,
    Point,
    carried,
    checked_corners,
    homography,
    proportion,
)
from catalogue.photographs.straightening import frame_of, straightened

# Standard deviations of what a distance rests on; all but the tape's are judgement, held to by
# tests/photographs/test_squaring.py, where nine distances in ten lie within the error stated.
CORNER = 0.004  # of the quilt's width in the picture, each way, at each corner
POINT = 0.0015  # of the same, for a point set by eye on the squared-up picture
TAPE = 0.3  # inches: how overall readings of one quilt scatter, as the layout inference takes it
SLACK = 0.12  # inches: cloth that hangs or lies a little out of true

NINE_IN_TEN = 1.645  # standard deviations that hold nine tenths of a normal distribution

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Distance:
    """Inches between two points, and the ± within which nine in ten such readings lie."""

    inches: float
    error: float


@dataclass(frozen=True)
class Squared:
    """How a quilt lies in a picture: its corners in pixels, and its width and length in inches."""

    corners: Corners
    width: float
    length: float

    def size(self, longest: int) -> tuple[int, int]:
        """Pixels across and down of the squared-up picture, `longest` on its longer side."""
        share = longest / max(self.width, self.length)
        return max(1, round(self.width * share)), max(1, round(self.length * share))

    def picture(self, photograph: Image.Image, longest: int) -> Image.Image:
        """Return the quilt edge to edge, in proportion. `photograph` has the corners' pixels."""
        return straightened(photograph, self.corners, self.size(longest))

    def distance(self, one: Point, other: Point) -> Distance:
        """Return the distance between two points given in inches from the top left corner.

        The error is carried from corners, points and tape to the distance by its derivatives
        (first order). A lens that bends straight lines is not reckoned with.
        """
        length = hypot(other[0] - one[0], other[1] - one[1])
        if length == 0:
            return Distance(0.0, 0.0)
        moved = self._moved_by_corners(one, other)
        across, down = abs(other[0] - one[0]) / length, abs(other[1] - one[1]) / length
        tape = TAPE**2 * (
            (across * abs(other[0] - one[0]) / self.width) ** 2
            + (down * abs(other[1] - one[1]) / self.length) ** 2
        )
        seen = CORNER * self._width_seen
        points = 2 * (POINT * self.width) ** 2
        variance = seen**2 * float((moved**2).sum()) + tape + points + SLACK**2
        return Distance(length, NINE_IN_TEN * sqrt(variance))

    @property
    def _width_seen(self) -> float:
        """The quilt's width in the picture, in pixels, the mean of top and bottom."""
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = self.corners
        return (hypot(bx - ax, by - ay) + hypot(cx - dx, cy - dy)) / 2

    def _moved_by_corners(self, one: Point, other: Point) -> Floats:
        """Inches by which the distance changes for each pixel a corner moves, eight of them."""
        back_to_picture = homography(frame_of(self.width, self.length), self.corners)
        ends = carried(back_to_picture, np.array([one, other], float))
        step = self._width_seen / 1000
        changes = []
        for place in range(8):
            shifted = np.array(self.corners, float).ravel()
            lengths = []
            for way in (step, -step):
                moved = shifted.copy()
                moved[place] += way
                back = carried(self._to_inches(_as_corners(moved)), ends)
                lengths.append(float(np.hypot(*(back[1] - back[0]))))
            changes.append((lengths[0] - lengths[1]) / (2 * step))
        return np.array(changes)

    def _to_inches(self, corners: Corners) -> Matrix:
        return homography(corners, frame_of(self.width, self.length))


def squared(
    corners: Sequence[Sequence[float]],
    pixels: tuple[int, int],
    width: float | None,
    length: float | None,
) -> Squared:
    """Return how the quilt lies in a picture of this many pixels.

    With the tape's width and length the picture is to scale. Without both it is only in proportion,
    as the perspective tells it, and its width counts as 1. Raises CornersError.
    """
    checked = checked_corners(corners)
    if width and length:
        return Squared(checked, width, length)
    shape = proportion(checked, (pixels[0] / 2, pixels[1] / 2))
    return Squared(checked, 1.0, 1.0 / shape)


def _as_corners(values: Floats) -> Corners:
    points = [(float(x), float(y)) for x, y in values.reshape(4, 2)]
    return points[0], points[1], points[2], points[3]
