"""Plane geometry of the settings: cutting to a box, random patches, hexagon flowers."""

from __future__ import annotations

from math import sqrt

import numpy as np

from sample_collection.studio.scene import Box


def clip(outline: np.ndarray, low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """The outline cut to an upright box (Sutherland and Hodgman's way, side by side)."""
    for axis in (0, 1):
        for limit, sign in ((low[axis], 1), (high[axis], -1)):
            outline = _cut(outline, axis, limit, sign)
    return outline


def _cut(outline: np.ndarray, axis: int, limit: float, sign: int) -> np.ndarray:
    kept = []
    for here, there in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        a, b = sign * (here[axis] - limit), sign * (there[axis] - limit)
        if a >= 0:
            kept.append(here)
        if (a > 0 > b) or (a < 0 < b):
            kept.append(here + (there - here) * a / (a - b))
    return np.array(kept)


def rosette(q: int, r: int) -> tuple[tuple[int, int], int]:
    """The flower a hexagon belongs to, and its ring in it; ring 3 is the path."""
    # Flowers sit at whole sums of (4, 2) and (-2, 6) in axial steps: 28 hexagons to a flower.
    best = ((0, 0), 3)
    i, j = round((6 * q + 2 * r) / 28), round((-2 * q + 4 * r) / 28)
    for di in (-1, 0, 1):
        for dj in (-1, 0, 1):
            a, b = i + di, j + dj
            dq, dr = q - (4 * a - 2 * b), r - (2 * a + 6 * b)
            distance = max(abs(dq), abs(dr), abs(dq + dr))
            if distance < best[1]:
                best = ((a, b), distance)
    return best


def hexagon(x: float, y: float, side: float) -> list[tuple[float, float]]:
    half = side * sqrt(3) / 2
    return [
        (x, y - side),
        (x + half, y - side / 2),
        (x + half, y + side / 2),
        (x, y + side),
        (x - half, y + side / 2),
        (x - half, y - side / 2),
    ]


def shards(random: np.random.Generator, box: Box) -> list[np.ndarray]:
    """Random straight-sided patches that fill a box: the places nearest to each of some points."""
    low, high = np.array(box[:2]), np.array(box[2:])
    points = low + (high - low) * random.uniform(0.04, 0.96, (int(random.integers(11, 16)), 2))
    found = []
    for here in points:
        outline = np.array([low, (high[0], low[1]), high, (low[0], high[1])], dtype=float)
        for other in points:
            if other is not here and len(outline):
                outline = _nearer(outline, here, other)
        if len(outline) >= 3:
            found.append(outline)
    return found


def _nearer(outline: np.ndarray, here: np.ndarray, other: np.ndarray) -> np.ndarray:
    away, middle = other - here, (here + other) / 2
    kept = []
    for a, b in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        da, db = float((a - middle) @ away), float((b - middle) @ away)
        if da <= 0:
            kept.append(a)
        if (da < 0 < db) or (da > 0 > db):
            kept.append(a + (b - a) * da / (da - db))
    return np.array(kept)
