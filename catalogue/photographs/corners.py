"""Where the four corners of a quilt may lie in a picture: proposed, for a person to move.

What lies along the edge of the picture is taken for the room. Every side is then the straight line
that leaves outside it as little as possible that is unlike the room, and keeps inside as little as
possible that is like it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageFilter

from catalogue.photographs.colour_space import Floats, distance, to_lab
from catalogue.photographs.homography import Corners, CornersError, Point, checked_corners

_LEAST_SIDE = 16  # pixels: what is narrower shows no quilt and its room
_LOOKED_AT = 320  # pixels on the longer side
_RIM = 0.03  # of the shorter side: what is surely room
_STEPS = 72  # places tried at either end of a side
_REACH = 0.45  # of the picture, how far in from its edge a side may lie
_SPREAD = 4.0  # of the median difference along the rim
_SHADOW = 14  # of CIELAB lightness
_LOUD = 8.0  # times as far as the room strays
_NEARBY = 0.02  # of the picture: how far a side is moved to where it is sharpest
_SURE = 0.55

Line = tuple[Point, Point]


@dataclass(frozen=True)
class ProposedCorners:
    """Corners in pixels, clockwise from the top left; how sure, 0 to 1; and one sentence why."""

    corners: Corners
    confidence: float
    grounds: str


def propose_corners(picture: Image.Image) -> ProposedCorners:
    """Return where the corners of the quilt may lie; where nothing is told apart, a frame."""
    small = picture.convert("RGB")
    small.thumbnail((_LOOKED_AT, _LOOKED_AT), Image.Resampling.BOX, reducing_gap=2.0)
    if min(small.size) < _LEAST_SIDE:
        return _framed(picture)
    scale = picture.width / small.width
    away = _away_from_room(small)
    unlike: Floats = np.clip(away - 1.5, -1, 1)
    found = _sharpened(away, _sides(unlike))
    corners = _met(found, scale)
    if corners is None:
        return _framed(picture)
    sharpness = _sharpness(unlike, corners, scale)
    if sharpness < 0.2:
        return _framed(picture)
    told = "clearly" if sharpness > _SURE else "faintly"
    return ProposedCorners(
        corners,
        round(sharpness, 2),
        f"What lies inside is told {told} apart from the edge of the picture.",
    )


def _away_from_room(small: Image.Image) -> Floats:
    """For each pixel how far its colour is from the room's, 1 being as far as the room strays."""
    lab = to_lab(np.asarray(small.filter(ImageFilter.GaussianBlur(1.0))))
    height, width = lab.shape[:2]
    rim = max(3, round(_RIM * min(height, width)))
    edge = np.ones((height, width), bool)
    edge[rim:-rim, rim:-rim] = False
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j].astype(np.float32)
    # Light falls off across a wall: the room is a plane of colour with a little curve in it.
    basis = np.stack([np.ones_like(x), x, y, x * x, y * y, x * y], axis=-1)
    room = basis @ _fitted(basis[edge], lab[edge])
    away = np.minimum(_unlike(lab, room), _unlike_row(lab, rim))
    usual = _SPREAD * float(np.median(away[edge])) + 1.0
    return away / usual


def _unlike_row(lab: Floats, rim: int) -> Floats:
    """How far each pixel is from what its row shows at both ends: a floor runs on behind a quilt.

    Rows whose ends do not show the same are left to the room.
    """
    left, right = np.median(lab[:, :rim], axis=1), np.median(lab[:, -rim:], axis=1)
    share = np.linspace(0, 1, lab.shape[1], dtype=np.float32)[None, :, None]
    row = left[:, None] * (1 - share) + right[:, None] * share
    apart = distance(left, right)[:, None]
    unlike: Floats = _unlike(lab, row) + np.where(apart > 12, 100, 0)
    return unlike


def _unlike(lab: Floats, room: Floats) -> Floats:
    """Difference of colour, a darker one counted less: it may be the quilt's shadow on the room."""
    lighter = lab[..., 0] - room[..., 0]
    shaded = np.clip(-lighter, 0, _SHADOW)
    rest = np.abs(lighter) - 0.8 * shaded
    colour = ((lab[..., 1:] - room[..., 1:]) ** 2).sum(axis=-1)
    unlike: Floats = np.sqrt(rest**2 + colour)
    return unlike


def _fitted(basis: Floats, values: Floats) -> Floats:
    """Coefficients by least squares, what lies far off counted less (four rounds)."""
    weight = np.ones((len(values), 1), np.float32)
    fitted = np.zeros((basis.shape[1], values.shape[1]), np.float32)
    for _ in range(4):
        fitted = np.linalg.lstsq(basis * weight, values * weight, rcond=None)[0]
        off = np.linalg.norm(values - basis @ fitted, axis=1, keepdims=True)
        weight = (1 / np.sqrt(1 + (off / (2 * np.median(off) + 0.5)) ** 2)).astype(np.float32)
    return fitted


def _sides(unlike: Floats) -> list[Line]:
    """The four sides, from the top clockwise, in pixels; in rounds, since they bound each other.

    A side is looked for only between its neighbours, where the quilt is.
    """
    height, width = unlike.shape
    bounds = [(0.15 * height, 0.85 * height), (0.15 * width, 0.85 * width)]
    sides: list[Line] = []
    for _ in range(3):
        left, right = (_upright_side(unlike, bounds[0], mirrored) for mirrored in (False, True))
        top, bottom = (
            _transposed(_upright_side(unlike.T, bounds[1], mirrored)) for mirrored in (False, True)
        )
        sides = [top, right, bottom, left]
        bounds = [
            _within(_mean(top, 1), _mean(bottom, 1), height),
            _within(_mean(left, 0), _mean(right, 0), width),
        ]
    return sides


def _sharpened(away: Floats, sides: list[Line]) -> list[Line]:
    """The sides moved a little to where the colours change most: not to the edge of a shadow."""
    top, right, bottom, left = sides
    change = _rise(away)
    moved_left, moved_right = (_nearest_change(change, side) for side in (left, right))
    change = _rise(away.T)
    moved_top, moved_bottom = (
        _transposed(_nearest_change(change, _transposed(side))) for side in (top, bottom)
    )
    return [moved_top, moved_right, moved_bottom, moved_left]


def _rise(away: Floats) -> Floats:
    """How much the colours change across an upright side; loud cloths count no more than others."""
    held = np.minimum(away, _LOUD)
    change = np.zeros_like(held)
    change[:, 2:-2] = held[:, 4:] - held[:, :-4]
    return change


def _nearest_change(change: Floats, side: Line) -> Line:
    """An upright side moved within reach to where the change along it is greatest."""
    width = change.shape[1]
    (one, first), (other, last) = side
    signed = change if (one + other) / 2 < width / 2 else -change
    reach = np.linspace(-_NEARBY, _NEARBY, 41) * width
    ones, others = (np.clip(end + reach, 0, width - 1) for end in (one, other))
    left, right = _least(-signed[int(first) : int(last) + 1], ones, others)
    return (left, first), (right, last)


def _within(low: float, high: float, size: int) -> tuple[float, float]:
    margin = 0.04 * (high - low)
    return (low + margin, high - margin) if high - low > 0.2 * size else (0.2 * size, 0.8 * size)


def _mean(line: Line, axis: int) -> float:
    return (line[0][axis] + line[1][axis]) / 2


def _transposed(line: Line) -> Line:
    return (line[0][1], line[0][0]), (line[1][1], line[1][0])


def _upright_side(unlike: Floats, rows: tuple[float, float], mirrored: bool) -> Line:
    """The left side, or the right one where mirrored, as its points at the first and last row."""
    width = unlike.shape[1]
    values = unlike[:, ::-1] if mirrored else unlike
    first, last = int(rows[0]), max(int(rows[0]) + 2, int(rows[1]))
    outside = np.concatenate(
        [np.zeros((last - first, 1), np.float32), np.cumsum(values[first:last], axis=1)], axis=1
    )
    coarse = np.linspace(0, _REACH * width, _STEPS)
    one, other = _least(outside, coarse, coarse)
    step = float(coarse[1])
    one, other = _least(
        outside,
        np.clip(np.linspace(one - step, one + step, 33), 0, width - 1),
        np.clip(np.linspace(other - step, other + step, 33), 0, width - 1),
    )
    ends = [width - end if mirrored else end for end in (one, other)]
    return (ends[0], float(first)), (ends[1], float(last - 1))


def _least(
    outside: Floats, ones: npt.NDArray[np.float64], others: npt.NDArray[np.float64]
) -> tuple[float, float]:
    """Where the line begins and ends that has least of the quilt, and most room, outside it."""
    count = outside.shape[0]
    rows = np.unique(np.linspace(0, count - 1, min(count, 60)).astype(int))
    along = rows / max(1, count - 1)
    total = np.zeros((len(ones), len(others)), np.float32)
    for row, share in zip(rows, along, strict=True):
        at = ones[:, None] * (1 - share) + others[None, :] * share
        left = at.astype(int)
        part = at - left
        line = outside[row]
        total += line[left] * (1 - part) + line[np.minimum(left + 1, len(line) - 1)] * part
    best = int(total.argmin())
    return float(ones[best // len(others)]), float(others[best % len(others)])


def _met(sides: list[Line], scale: float) -> Corners | None:
    """The corners where neighbouring sides meet, in pixels of the whole picture."""
    top, right, bottom, left = sides
    points = [_meeting(*pair) for pair in ((left, top), (top, right), (right, bottom))]
    points.append(_meeting(bottom, left))
    if any(point is None for point in points):
        return None
    try:
        return checked_corners(
            [(round(p[0] * scale, 1), round(p[1] * scale, 1)) for p in points if p is not None]
        )
    except CornersError:
        return None


def _meeting(one: Line, other: Line) -> Point | None:
    crossed = [np.cross((*a, 1.0), (*b, 1.0)) for a, b in (one, other)]
    x, y, w = np.cross(crossed[0], crossed[1])
    return (float(x / w), float(y / w)) if abs(w) > 1e-9 else None


def _sharpness(unlike: Floats, corners: Corners, scale: float) -> float:
    """How far inside and outside of the sides differ, close by: 0 not at all, 1 wholly."""
    points = np.array(corners) / scale
    middle = points.mean(axis=0)
    shares = []
    for number in range(4):
        one, other = points[number], points[(number + 1) % 4]
        along = one + np.linspace(0.05, 0.95, 60)[:, None] * (other - one)
        inward = (middle - along) / np.linalg.norm(middle - along, axis=1, keepdims=True)
        near = [_at(unlike, along + reach * inward) for reach in (4.0, -4.0)]
        shares.append(float(np.mean(near[0] - near[1])) / 2)
    return float(np.clip(min(shares) * 0.5 + np.mean(shares) * 0.5, 0, 1))


def _at(values: Floats, points: npt.NDArray[np.float64]) -> Floats:
    height, width = values.shape
    x = np.clip(points[:, 0].astype(int), 0, width - 1)
    y = np.clip(points[:, 1].astype(int), 0, height - 1)
    there: Floats = values[y, x]
    return there


def _framed(picture: Image.Image) -> ProposedCorners:
    """A frame a little inside the picture, for a person to move."""
    left, top = 0.08 * picture.width, 0.08 * picture.height
    right, bottom = picture.width - left, picture.height - top
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return ProposedCorners(
        corners, 0.0, "The quilt is not told apart from what is round it: move the corners to it."
    )
