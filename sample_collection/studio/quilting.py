"""Quilting lines: where the needle went through all three layers, drawn as a mask of stitches."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import cos, pi, sin
from typing import Any

import numpy as np

from sample_collection.studio.figures import border_feather, cable, cup_flower, medallion, wreath
from sample_collection.studio.needle import NEAR, STITCH, Run, draw, slanted
from sample_collection.studio.raster import View, seams, zone_mask
from sample_collection.studio.scene import Scene


def stitch_lines(
    scene: Scene, view: View, numbers: np.ndarray, wanted: list[dict[str, Any]]
) -> np.ndarray:
    """All the quilting that the record describes, 0 to 1 for each pixel."""
    lines = np.zeros(view.shape, dtype=np.float32)
    for each in wanted:
        where = tuple(each.get("where", "all").split(", "))
        drawn = KINDS[each["kind"]](scene, view, numbers, float(each.get("every", 1.0)), where)
        if where != ("all",):
            drawn = drawn * zone_mask(scene, numbers, *where)
        lines = np.maximum(lines, drawn)
    return lines * (numbers >= 0)


def _crosshatch(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    def runs() -> Iterator[Run]:
        yield from slanted(scene, every, 1)
        yield from slanted(scene, every, -1)

    return draw(view, runs())


def _diagonal(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    return draw(view, slanted(scene, every, 1))


def _square_grid(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    def runs() -> Iterator[Run]:
        for k in range(int(scene.width / every) + 1):
            yield [(k * every, 0), (k * every, scene.length)]
        for k in range(int(scene.length / every) + 1):
            yield [(0, k * every), (scene.width, k * every)]

    return draw(view, runs())


def _fans(scene: Scene, view: View, _: np.ndarray, every: float, __: object) -> np.ndarray:
    """Rows of fans as quilters reach them from the frame: arcs about a point, row over row."""
    radius = every * 6
    arcs = [every * k for k in range(1, 7)]

    def runs() -> Iterator[Run]:
        row = 0
        y = scene.length + radius
        while y > -radius:
            shift = radius if row % 2 else 0.0
            x = -radius + shift
            while x < scene.width + radius:
                for r in arcs:
                    yield [(x + r * cos(t), y - r * sin(t)) for t in np.linspace(0.0, pi / 2, 14)]
                x += radius
            y -= radius
            row += 1

    return draw(view, runs())


def _offset_rim(mask: np.ndarray, reach: int) -> np.ndarray:
    """The rim of everything within `reach` pixels of the mask."""
    grown = _grown(mask > 0.5, max(1, reach))
    return (_grown(grown, 1) & ~grown).astype(np.float32)


def _grown(mask: np.ndarray, reach: int) -> np.ndarray:
    """The mask and all that lies within `reach` pixels of it across and down."""
    for axis in (0, 1):
        for way in (1, -1):
            done = 0
            while done < reach:  # each step at most doubles what is covered
                step = min(done + 1, reach - done)
                mask = mask | _shifted(mask, way * step, axis)
                done += step
    return mask


def _shifted(mask: np.ndarray, by: int, axis: int) -> np.ndarray:
    moved = np.roll(mask, by, axis)
    gone: list[slice] = [slice(None), slice(None)]
    gone[axis] = slice(0, by) if by > 0 else slice(by, None)
    moved[tuple(gone)] = False
    return moved


def _outline(_: Scene, view: View, numbers: np.ndarray, every: float, __: object) -> np.ndarray:
    return _stitched(_offset_rim(seams(numbers), round(every * view.ppi)), view)


def _stitched(rim: np.ndarray, view: View) -> np.ndarray:
    """The rim broken into stitches where they are near enough to be seen."""
    if view.ppi <= NEAR:
        return rim
    rows, columns = rim.shape
    # A slope that is neither upright, level nor diagonal breaks lines of all these directions.
    across = (np.arange(columns)[None, :] * 0.7 + np.arange(rows)[:, None] * 1.15) / view.ppi
    return rim * np.where(across / STITCH % 1 < 0.55, 1.0, 0.3).astype(np.float32)


def _in_the_ditch(_: Scene, __: View, numbers: np.ndarray, ___: float, ____: object) -> np.ndarray:
    return seams(numbers) * 0.8


def _echo(scene: Scene, view: View, numbers: np.ndarray, every: float, _: object) -> np.ndarray:
    """Lines round the shapes laid on, each a little farther out."""
    laid = np.array([*(piece.laid for piece in scene.pieces), False])[numbers].astype(np.float32)
    lines = np.zeros(view.shape, dtype=np.float32)
    for step in range(1, 6):
        lines = np.maximum(lines, _offset_rim(laid, round(step * every * view.ppi)))
    return _stitched(lines, view) * (1 - laid)


KINDS: dict[str, Callable[..., np.ndarray]] = {
    "crosshatch": _crosshatch,
    "diagonal": _diagonal,
    "square grid": _square_grid,
    "fans": _fans,
    "outline": _outline,
    "in the ditch": _in_the_ditch,
    "echo": _echo,
    "wreath": wreath,
    "medallion": medallion,
    "cable": cable,
    "feather": border_feather,
    "cup flower": cup_flower,
}
