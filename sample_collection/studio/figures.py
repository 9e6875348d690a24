"""Quilted figures: feathers, wreaths, cables, cup flowers, the rose of a whole cloth."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import cos, hypot, pi, sin

import numpy as np

from sample_collection.studio.needle import Run, draw, slanted
from sample_collection.studio.raster import View
from sample_collection.studio.scene import Scene


def _feather(spine: Run, lobe: float, both: bool = True) -> Iterator[Run]:
    """A feather along its spine: teardrop lobes on each side."""
    yield spine
    walked = 0.0
    for (x0, y0), (x1, y1) in pairwise(spine):
        length = hypot(x1 - x0, y1 - y0)
        walked += length
        if length == 0 or walked < lobe * 0.85:
            continue
        walked = 0.0
        along = ((x1 - x0) / length, (y1 - y0) / length)
        for side in (-1, 1) if both else (1,):
            normal = (-along[1] * side, along[0] * side)
            yield [
                (
                    x0 + lobe * (u * along[0] + v * normal[0]),
                    y0 + lobe * (u * along[1] + v * normal[1]),
                )
                for u, v in LOBE
            ]


def _rounded(points: Run) -> Run:
    """The run with its corners cut twice, so that it bends instead of breaking."""
    for _ in range(2):
        cut = [points[0]]
        for (x0, y0), (x1, y1) in pairwise(points):
            cut.append((0.75 * x0 + 0.25 * x1, 0.75 * y0 + 0.25 * y1))
            cut.append((0.25 * x0 + 0.75 * x1, 0.25 * y0 + 0.75 * y1))
        points = [*cut, points[-1]]
    return points


LOBE = _rounded(
    [(0.0, 0.0), (0.05, 0.6), (0.3, 1.2), (0.85, 1.45), (1.2, 1.1), (1.0, 0.65), (0.75, 0.42)]
)


def _centres(scene: Scene, where: tuple[str, ...]) -> Iterator[tuple[float, float, float]]:
    for piece in scene.pieces:
        if piece.zone in where and not piece.laid:
            low, high = piece.outline.min(axis=0), piece.outline.max(axis=0)
            middle = (low + high) / 2
            yield float(middle[0]), float(middle[1]), float(min(high - low))


def _circle(x: float, y: float, radius: float, steps: int = 48) -> Run:
    return [(x + radius * cos(t), y + radius * sin(t)) for t in np.linspace(0, 2 * pi, steps)]


def wreath(
    scene: Scene, view: View, _: np.ndarray, every: float, where: tuple[str, ...]
) -> np.ndarray:
    def runs() -> Iterator[Run]:
        for x, y, size in _centres(scene, where):
            radius = size * 0.25 * every
            yield from _feather(_circle(x, y, radius, 25), size * 0.075)
            yield _circle(x, y, radius * 0.34, 24)

    return draw(view, runs())


def medallion(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    """Whole-cloth quilting: a rose in feather rings, corner fans, a waving feather, a fine grid."""
    r = min(scene.width, scene.length)
    figures = draw(view, _whole_cloth_figures(scene, r))
    grid = draw(view, (run for slope in (1, -1) for run in slanted(scene, every, slope)))
    return np.maximum(figures, grid * _open_ground(scene, view, r))


def _whole_cloth_figures(scene: Scene, r: float) -> Iterator[Run]:
    x, y = scene.width / 2, scene.length / 2
    for size, petals in ((0.062, 5), (0.11, 8), (0.17, 8)):
        yield [
            (x + r * size * _petal(petals, t) * cos(t), y + r * size * _petal(petals, t) * sin(t))
            for t in np.linspace(0, 2 * pi, 160)
        ]
    yield _circle(x, y, r * 0.024)
    for radius, lobe in ((0.24, 0.03), (0.345, 0.032)):
        yield from _feather(_circle(x, y, r * radius, 150), r * lobe)
    for inset in (0.045, 0.055):
        d = r * inset
        w, h = scene.width, scene.length
        yield [(d, d), (w - d, d), (w - d, h - d), (d, h - d), (d, d)]
    yield from _edge_feather(scene, r * 0.115, r * 0.026, 0.27 * scene.width)
    for cx, sx in ((0.0, 1), (scene.width, -1)):
        for cy, sy in ((0.0, 1), (scene.length, -1)):
            for k in range(7):
                reach = r * (0.07 + 0.026 * k)
                yield [
                    (cx + sx * (r * 0.055 + reach * cos(t)), cy + sy * (r * 0.055 + reach * sin(t)))
                    for t in np.linspace(0, pi / 2, 20)
                ]


def _petal(petals: int, t: float) -> float:
    return 0.72 + 0.28 * abs(cos(petals * t / 2)) ** 0.6


def _open_ground(scene: Scene, view: View, r: float) -> np.ndarray:
    """1 outside the feather rings and inside the feather border, clear of the corner fans."""
    rows, columns = view.shape
    x = view.left + np.arange(columns)[None, :] / view.ppi
    y = view.top + np.arange(rows)[:, None] / view.ppi
    away = np.hypot(x - scene.width / 2, y - scene.length / 2)
    from_side = np.minimum(np.minimum(x, scene.width - x), np.minimum(y, scene.length - y))
    from_corner = np.hypot(np.minimum(x, scene.width - x), np.minimum(y, scene.length - y))
    return ((away > r * 0.395) & (from_side > r * 0.18) & (from_corner > r * 0.33)).astype(
        np.float32
    )


def _edge_feather(scene: Scene, inset: float, lobe: float, clear: float) -> Iterator[Run]:
    """A feather that waves along all four sides, `clear` of the corners."""
    for along, across in ((scene.width, scene.length), (scene.length, scene.width)):
        steps = int(along / (lobe * 0.5))
        for at in (inset, across - inset):
            wave = [
                (t * along, at + lobe * 0.8 * sin(t * pi * round(along / 15)))
                for t in np.linspace(clear / along, 1 - clear / along, steps)
            ]
            yield from _feather([p if along == scene.width else (p[1], p[0]) for p in wave], lobe)


def cable(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    """A twisted cable along the outermost border, all round."""

    def runs() -> Iterator[Run]:
        for along, across in ((scene.width, scene.length), (scene.length, scene.width)):
            for at in (every, across - every):
                for phase in (0.0, pi):
                    for widen in (0.55, 0.4):
                        wave = [
                            (t, at + every * widen * sin(2 * pi * t / (every * 2.6) + phase))
                            for t in np.arange(0, along, every / 10)
                        ]
                        yield [p if along == scene.width else (p[1], p[0]) for p in wave]

    return draw(view, runs())


def border_feather(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    return draw(view, _edge_feather(scene, every, every * 0.3, 2.6 * every))


def cup_flower(
    scene: Scene, view: View, _: np.ndarray, every: float, where: tuple[str, ...]
) -> np.ndarray:
    """A flower of circles that meet, in every piece of a zone: drawn with a cup."""

    def runs() -> Iterator[Run]:
        for x, y, size in _centres(scene, where):
            radius = size * 0.24 * every
            yield _circle(x, y, radius)
            for k in range(6):
                cx, cy = x + radius * cos(k * pi / 3), y + radius * sin(k * pi / 3)
                yield [
                    (cx + radius * cos(k * pi / 3 + t), cy + radius * sin(k * pi / 3 + t))
                    for t in np.linspace(2 * pi / 3, 4 * pi / 3, 14)
                ]

    return draw(view, runs())
