"""A brush that draws figures in inches on a square tile of cloth and goes round its edges."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, sin

import numpy as np
from PIL import Image, ImageDraw

TILE = 6.0  # inches to the side of a tile

Colour = tuple[int, int, int]
Spot = tuple[float, float]


def rgb(text: str) -> Colour:
    """Red, green and blue of a colour written as #rrggbb."""
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


class Brush:
    """Draws figures in inches on a tile, going round its edges so that it repeats."""

    def __init__(self, canvas: Image.Image, scale: float, random: np.random.Generator) -> None:
        self.canvas = canvas
        self.draw = ImageDraw.Draw(canvas)
        self.scale = scale
        self.random = random

    def _round_edges(self, x: float, y: float, reach: float) -> Iterator[Spot]:
        shifts = (-TILE, 0.0, TILE)
        for dx in shifts:
            for dy in shifts:
                if -reach <= x + dx <= TILE + reach and -reach <= y + dy <= TILE + reach:
                    yield (x + dx) * self.scale, (y + dy) * self.scale

    def dot(self, at: Spot, radius: float, colour: Colour) -> None:
        r = max(radius * self.scale, 0.6)
        for x, y in self._round_edges(*at, radius):
            self.draw.ellipse((x - r, y - r, x + r, y + r), fill=colour)

    def ring(self, at: Spot, radius: float, colour: Colour, width: float) -> None:
        r, w = radius * self.scale, max(1, round(width * self.scale))
        for x, y in self._round_edges(*at, radius):
            self.draw.ellipse((x - r, y - r, x + r, y + r), outline=colour, width=w)

    def shape(self, at: Spot, outline: list[Spot], colour: Colour, turn: float = 0.0) -> None:
        c, s = cos(turn), sin(turn)
        reach = max(abs(v) for point in outline for v in point) * 1.5
        for x, y in self._round_edges(*at, reach):
            points = [
                (x + (a * c - b * s) * self.scale, y + (a * s + b * c) * self.scale)
                for a, b in outline
            ]
            self.draw.polygon(points, fill=colour)

    def line(self, points: list[Spot], colour: Colour, width: float) -> None:
        w = max(1, round(width * self.scale))
        reach = 1.5
        x0, y0 = points[0]
        for x, y in self._round_edges(x0, y0, reach):
            run = [(x + (a - x0) * self.scale, y + (b - y0) * self.scale) for a, b in points]
            self.draw.line(run, fill=colour, width=w, joint="curve")

    def band(self, at: float, width: float, colour: Colour, upright: bool = True) -> None:
        low, high = at * self.scale, (at + width) * self.scale
        far = TILE * self.scale
        box = (low, 0, high, far) if upright else (0, low, far, high)
        self.draw.rectangle(box, fill=colour)
