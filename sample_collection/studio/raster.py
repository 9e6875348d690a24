"""From the pieces of a top to pixels: which piece is where, and the cloth it shows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from sample_collection.studio.brush import TILE
from sample_collection.studio.cloth import fabrics, tile
from sample_collection.studio.scene import Scene

ROWS_AT_A_TIME = 256


@dataclass(frozen=True)
class View:
    """The part of the quilt that is seen, in inches, and the pixels to the inch it is drawn at."""

    left: float
    top: float
    right: float
    bottom: float
    ppi: float

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns of pixels."""
        return (
            round((self.bottom - self.top) * self.ppi),
            round((self.right - self.left) * self.ppi),
        )

    def pixels(self, points: np.ndarray) -> list[tuple[float, float]]:
        """Points given in inches as pixels of the view."""
        placed = (np.asarray(points, dtype=float) - (self.left, self.top)) * self.ppi
        return [(float(x), float(y)) for x, y in placed]

    def sees(self, points: np.ndarray) -> bool:
        """Whether an outline may show in the view."""
        low, high = points.min(axis=0), points.max(axis=0)
        return bool(
            low[0] < self.right
            and high[0] > self.left
            and low[1] < self.bottom
            and high[1] > self.top
        )


def piece_numbers(scene: Scene, view: View) -> np.ndarray:
    """For every pixel the number of the piece that shows there, -1 beside the quilt."""
    rows, columns = view.shape
    canvas = Image.new("I", (columns, rows), -1)
    draw = ImageDraw.Draw(canvas)
    for number, piece in enumerate(scene.pieces):
        if view.sees(piece.outline):
            draw.polygon(view.pixels(piece.outline), fill=number)
    return np.asarray(canvas)


def show_cloth(scene: Scene, view: View, numbers: np.ndarray) -> np.ndarray:
    """The cloth of every pixel as RGB numbers from 0 to 255, before any light falls on it."""
    used = sorted({piece.fabric for piece in scene.pieces})
    cupboard = fabrics()
    fineness = min(150.0, max(34.0, view.ppi * 1.1))
    tiles = np.stack([tile(cupboard[name], fineness) for name in used])
    kind = np.array([used.index(piece.fabric) for piece in scene.pieces])
    turn = np.array([piece.turn for piece in scene.pieces], dtype=np.float32)
    shift = np.array([piece.shift for piece in scene.pieces], dtype=np.float32)
    random = np.random.default_rng(scene.seed + 3)
    fresh = random.normal(1.0, 0.018, len(scene.pieces)).astype(np.float32)
    shown = np.empty((*view.shape, 3), dtype=np.float32)
    for start in range(0, view.shape[0], ROWS_AT_A_TIME):
        part = np.maximum(numbers[start : start + ROWS_AT_A_TIME], 0)
        x, y = _inches(view, start, part.shape)
        c, s = np.cos(turn)[part], np.sin(turn)[part]
        u = _index(x * c + y * s + shift[part, 0], tiles.shape[1])
        v = _index(y * c - x * s + shift[part, 1], tiles.shape[1])
        shown[start : start + ROWS_AT_A_TIME] = tiles[kind[part], v, u] * fresh[part][..., None]
    return shown


def _inches(view: View, start: int, shape: tuple[int, int]) -> tuple[np.ndarray, np.ndarray]:
    x = view.left + (np.arange(shape[1], dtype=np.float32) + 0.5) / view.ppi
    y = view.top + (np.arange(start, start + shape[0], dtype=np.float32) + 0.5) / view.ppi
    return x[None, :], y[:, None]


def _index(inches: np.ndarray, side: int) -> np.ndarray:
    return np.floor(inches % TILE * (side / TILE)).astype(np.int32) % side


def seams(numbers: np.ndarray) -> np.ndarray:
    """1 where a pixel meets another piece to its right or below, else 0."""
    edge = np.zeros(numbers.shape, dtype=np.float32)
    edge[:, :-1] = numbers[:, :-1] != numbers[:, 1:]
    edge[:-1] = np.maximum(edge[:-1], numbers[:-1] != numbers[1:])
    return edge


def zone_mask(scene: Scene, numbers: np.ndarray, *zones: str) -> np.ndarray:
    """Where pieces of these zones show ("border" stands for every border)."""
    wanted = [
        any(piece.zone == zone or piece.zone.startswith(zone + " ") for zone in zones)
        for piece in scene.pieces
    ]
    return np.array([*wanted, False])[numbers]


def blur(field: np.ndarray, spread: float) -> np.ndarray:
    """The field smoothed by three running means whose joint spread is `spread` pixels."""
    radius = max(1, round(spread * 0.95))
    for _ in range(3):
        for axis in (0, 1):
            field = _running_mean(field, radius, axis)
    return field


def _running_mean(field: np.ndarray, radius: int, axis: int) -> np.ndarray:
    pad = [(0, 0), (0, 0)]
    pad[axis] = (radius + 1, radius)
    total = np.cumsum(np.pad(field, pad, mode="edge"), axis=axis, dtype=np.float64)
    width = 2 * radius + 1
    late = total[width:] if axis == 0 else total[:, width:]
    early = total[:-width] if axis == 0 else total[:, :-width]
    return ((late - early) / width).astype(np.float32)


def noise(random: np.random.Generator, shape: tuple[int, int], grain: float) -> np.ndarray:
    """Smooth unevenness with a standard deviation near 1 and hills about `grain` pixels wide."""
    rows, columns = max(3, round(shape[0] / grain) + 3), max(3, round(shape[1] / grain) + 3)
    coarse = random.normal(0, 1.3, (rows, columns)).astype(np.float32)
    grown = Image.fromarray(coarse).resize((shape[1], shape[0]), Image.Resampling.BICUBIC)
    return np.asarray(grown)
