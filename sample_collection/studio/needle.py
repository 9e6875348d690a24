"""Runs of quilting stitches drawn as a mask: dashes close to, a groove from afar."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

import numpy as np
from PIL import Image, ImageDraw

from sample_collection.studio.raster import View
from sample_collection.studio.scene import Scene

Run = list[tuple[float, float]]
STITCH = 0.11  # inches from stitch to stitch, about nine to the inch
NEAR = 60  # pixels to the inch from which single stitches can be seen


def draw(view: View, runs: Iterator[Run]) -> np.ndarray:
    """Runs of stitches: dashes where they are near enough to be seen, a groove otherwise."""
    rows, columns = view.shape
    canvas = Image.new("L", (columns, rows), 0)
    draw = ImageDraw.Draw(canvas)
    width = max(1, round(0.03 * view.ppi))
    near = view.ppi > NEAR
    for run in runs:
        points = view.pixels(np.array(run))
        if near:
            draw.line(points, fill=90, width=width)
            for dash in _dashes(points, STITCH * view.ppi):
                draw.line(dash, fill=255, width=width)
        else:
            draw.line(points, fill=255, width=width, joint="curve")
    return np.asarray(canvas, dtype=np.float32) / 255


def _dashes(points: Run, step: float) -> Iterator[Run]:
    gone = 0.0
    for (x0, y0), (x1, y1) in pairwise(points):
        length = hypot(x1 - x0, y1 - y0)
        at = -gone
        while at < length and length > 0:
            low, high = max(at, 0) / length, min(at + step * 0.55, length) / length
            if high > low:
                yield [
                    (x0 + (x1 - x0) * low, y0 + (y1 - y0) * low),
                    (x0 + (x1 - x0) * high, y0 + (y1 - y0) * high),
                ]
            at += step
        gone = (gone + length) % step


def slanted(scene: Scene, every: float, slope: int) -> Iterator[Run]:
    reach = scene.width + scene.length
    for k in range(int(reach * 1.5 / (every * 1.41421)) + 2):
        at = k * every * 1.41421
        if slope > 0:
            yield [(at, 0), (at - reach, reach)]
        else:
            yield [(at - reach, 0), (at, reach)]
