"""The plane seen in perspective: four points to four others, and the proportion behind them."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite, sqrt

import numpy as np
import numpy.typing as npt

Point = tuple[float, float]
Corners = tuple[Point, Point, Point, Point]
Matrix = npt.NDArray[np.float64]

CORNERS = ("top left", "top right", "bottom right", "bottom left")


class CornersError(ValueError):
    """Four points that cannot be the corners of a quilt; the message is one sentence."""


def checked_corners(points: Sequence[Sequence[float]]) -> Corners:
    """The points as corners clockwise from the top left, as they are handed in.

    Raises CornersError where there are not four, or where they do not go round a convex shape
    clockwise (y runs down).
    """
    if len(points) != 4 or any(len(point) != 2 for point in points):
        raise CornersError(f"A quilt has four corners, each x,y: {list(points)!r} are not that.")
    corners = [(float(x), float(y)) for x, y in points]
    if not all(isfinite(value) for corner in corners for value in corner):
        raise CornersError(f"The corners must be plain numbers, not {list(points)!r}.")
    for number in range(4):
        (x0, y0), (x1, y1), (x2, y2) = (corners[(number + step) % 4] for step in range(3))
        if (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1) <= 0:
            raise CornersError(
                "The corners must go clockwise from the top left, round a shape without dents."
            )
    return corners[0], corners[1], corners[2], corners[3]


def homography(source: Corners, target: Corners) -> Matrix:
    """The 3 x 3 matrix that takes four points to four others (direct linear transformation)."""
    rows: list[list[float]] = []
    for (x, y), (u, v) in zip(source, target, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y])
    solved = np.linalg.solve(np.array(rows), np.array(target).ravel())
    return np.append(solved, 1.0).reshape(3, 3)


def carried(matrix: Matrix, points: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Points, shape (n, 2), taken through a homography."""
    whole = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    carried_points: npt.NDArray[np.float64] = whole[:, :2] / whole[:, 2:]
    return carried_points


def proportion(corners: Corners, middle: Point) -> float:
    """Width over length of the rectangle seen in these corners.

    Exact for a lens without distortion and a picture that was not cropped, whose `middle` is then
    where the camera pointed: the two vanishing points give the focal length, and that the length
    of both sides (Zhang and He, Whiteboard scanning and image enhancement, 2007, from memory).
    Where the perspective is too weak to tell, the mean of opposite sides is as good.
    """
    unit = homography(((0, 0), (1, 0), (1, 1), (0, 1)), corners)
    shift = np.array([[1, 0, -middle[0]], [0, 1, -middle[1]], [0, 0, 1]])
    first, second, _ = (shift @ unit).T
    plain = _by_sides(corners)
    if abs(first[2] * second[2]) < 1e-12:
        return plain
    focal_squared = -(first[0] * second[0] + first[1] * second[1]) / (first[2] * second[2])
    across, down = (
        sqrt((side[0] ** 2 + side[1] ** 2) + max(focal_squared, 0.0) * side[2] ** 2)
        for side in (first, second)
    )
    # A focal length out of all reason means that the corners hardly converge.
    reach = max(abs(value) for corner in corners for value in corner)
    if not 0.3 * reach < sqrt(max(focal_squared, 0.0)) < 20 * reach:
        return plain
    return across / down


def _by_sides(corners: Corners) -> float:
    def long(one: int, other: int) -> float:
        (x0, y0), (x1, y1) = corners[one], corners[other]
        return float(np.hypot(x1 - x0, y1 - y0))

    return (long(0, 1) + long(3, 2)) / (long(0, 3) + long(1, 2))
