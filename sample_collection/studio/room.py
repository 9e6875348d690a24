"""The room: a wall, a floor, a pole or a sheet, a camera held nearly straight."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import Image

from sample_collection.studio.raster import blur, noise

BEST_QUALITY = 83
MOST_BYTES = 430_000

Corners = np.ndarray  # four points, clockwise from the top left


@dataclass(frozen=True)
class Photograph:
    """A finished picture, and where the corners of a whole quilt came to lie in it (pixels)."""

    pixels: np.ndarray
    corners: Corners | None


WALLS = {
    "plaster": (214, 208, 196),
    "grey": (176, 177, 178),
    "sage": (188, 193, 178),
    "linen": (222, 214, 198),
    "blue grey": (168, 177, 186),
}


def hang(
    top: np.ndarray,
    mask: np.ndarray,
    inches: tuple[float, float],
    seed: int,
    room: str,
    long_side: int,
) -> Photograph:
    """The quilt on its wall (or spread on a sheet), photographed by hand in soft daylight."""
    random = np.random.default_rng(seed + 11)
    width, length = inches
    spread = room.startswith("sheet")
    margins = (0.05, 0.05, 0.05) if spread else (0.085, 0.075, 0.15)
    scale = long_side / max(width * (1 + 2 * margins[0]), length * (1 + margins[1] + margins[2]))
    shape = (
        round(length * (1 + margins[1] + margins[2]) * scale),
        round(width * (1 + 2 * margins[0]) * scale),
    )
    corners = _corners(random, width, length, margins, scale)
    x, y = _quilt_place(corners, shape, width, length, random)
    background = _sheet(random, shape) if spread else _wall(random, shape, scale, corners, room)
    alpha = _sampled(mask[..., None], x, y, inches)[..., 0]
    shadow = _shadow(alpha, scale, spread)
    picture = background * (1 - shadow[..., None])
    cloth = _sampled(top, x, y, inches)
    rounded = blur(alpha, 0.18 * scale)
    cloth = cloth * (0.86 + 0.14 * np.clip((rounded - 0.5) * 4, 0, 1))[..., None]
    picture = picture * (1 - alpha[..., None]) + cloth * alpha[..., None]
    return Photograph(_developed(picture, random), corners)


def close_up(top: np.ndarray, seed: int) -> Photograph:
    """A part of the quilt filling the picture."""
    return Photograph(_developed(top, np.random.default_rng(seed + 13)), None)


def _corners(
    random: np.random.Generator,
    width: float,
    length: float,
    margins: tuple[float, float, float],
    scale: float,
) -> Corners:
    left, top = width * margins[0] * scale, length * margins[1] * scale
    right, bottom = left + width * scale, top + length * scale
    square = np.array([(left, top), (right, top), (right, bottom), (left, bottom)])
    lean = random.normal(0, 0.0035, (4, 2)) * (right - left)
    narrower = random.uniform(0.004, 0.016) * (right - left)
    pull = np.array([(-1, 0), (1, 0), (-1, 0), (1, 0)]) * narrower * random.choice([-1, 1])
    return square + np.clip(lean, -14, 14) + pull


def _quilt_place(
    corners: Corners,
    shape: tuple[int, int],
    width: float,
    length: float,
    random: np.random.Generator,
) -> tuple[np.ndarray, np.ndarray]:
    """For every pixel of the picture the place on the quilt, in inches, edges gently waved."""
    target = np.array([(0, 0), (width, 0), (width, length), (0, length)], dtype=float)
    m = _homography(corners, target)
    rows, columns = np.mgrid[0 : shape[0], 0 : shape[1]].astype(np.float32) + 0.5
    w = m[2, 0] * columns + m[2, 1] * rows + m[2, 2]
    x = (m[0, 0] * columns + m[0, 1] * rows + m[0, 2]) / w
    y = (m[1, 0] * columns + m[1, 1] * rows + m[1, 2]) / w
    grain = max(shape) / 5
    x = x + 0.1 * noise(random, shape, grain) + 0.035 * noise(random, shape, grain / 4)
    y = y + 0.1 * noise(random, shape, grain) + 0.035 * noise(random, shape, grain / 4)
    return x.astype(np.float32), y.astype(np.float32)


def _homography(source: np.ndarray, target: np.ndarray) -> np.ndarray:
    rows = []
    for (a, b), (u, v) in zip(source, target, strict=True):
        rows.append([a, b, 1, 0, 0, 0, -u * a, -u * b, -u])
        rows.append([0, 0, 0, a, b, 1, -v * a, -v * b, -v])
    return np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)


def _sampled(
    source: np.ndarray, x: np.ndarray, y: np.ndarray, inches: tuple[float, float]
) -> np.ndarray:
    """The source (whole quilt) at places in inches, between pixels; 0 beside the quilt."""
    rows, columns = source.shape[:2]
    px, py = x * (columns / inches[0]) - 0.5, y * (rows / inches[1]) - 0.5
    inside = (px > -1) & (px < columns) & (py > -1) & (py < rows)
    px, py = np.clip(px, 0, columns - 1.001), np.clip(py, 0, rows - 1.001)
    i, j = np.floor(py).astype(np.int32), np.floor(px).astype(np.int32)
    fy, fx = (py - i)[..., None], (px - j)[..., None]
    upper = source[i, j] * (1 - fx) + source[i, j + 1] * fx
    lower = source[i + 1, j] * (1 - fx) + source[i + 1, j + 1] * fx
    return (upper * (1 - fy) + lower * fy) * inside[..., None]


def _shadow(alpha: np.ndarray, scale: float, spread: bool) -> np.ndarray:
    reach = 0.35 if spread else 0.9
    away = max(1, round(reach * scale))
    cast = np.roll(alpha, (away, away // 2), axis=(0, 1))
    wide = blur(cast, 1.3 * reach * scale)
    close = blur(np.roll(alpha, (away // 3, away // 6), axis=(0, 1)), 0.25 * reach * scale)
    return np.clip(0.34 * wide + 0.24 * close, 0, 0.6)


def _wall(
    random: np.random.Generator, shape: tuple[int, int], scale: float, corners: Corners, room: str
) -> np.ndarray:
    """Painted plaster, a skirting board, a wooden floor, and the pole the quilt hangs from."""
    rows, columns = shape
    paint = np.array(WALLS[room], dtype=np.float32)
    rough = 1.1 * noise(random, shape, 2.2) + 1.5 * noise(random, shape, 60)
    wall = paint + rough[..., None]
    bottom = float(corners[2:, 1].max())
    skirting = min(round(bottom + 5.2 * scale), rows - 1)
    floor = min(round(bottom + 8.4 * scale), rows - 1)
    wall[skirting:floor] = (
        np.array([229, 225, 215], dtype=np.float32) + rough[skirting:floor, :, None] * 0.5
    )
    for at, dark in ((skirting, 0.80), (skirting + 2, 1.05), (floor - 2, 0.62)):
        wall[at : at + 2] *= dark
    wall[floor:] = _boards(random, (rows - floor, columns))
    _pole(wall, corners, scale)
    return wall


def _boards(random: np.random.Generator, shape: tuple[int, int]) -> np.ndarray:
    """Floorboards running away from the camera."""
    rows, columns = shape
    if rows < 2:
        return np.zeros((rows, columns, 3), dtype=np.float32)
    depth = np.linspace(0.72, 1.0, rows)[:, None]
    across = (np.arange(columns)[None, :] - columns / 2) / depth
    board = np.floor(across / (columns / 11)).astype(int) + 20
    tone = random.normal(0, 1, 60)[board]
    grain = noise(random, (rows, max(4, columns)), 3) * 0.6 + noise(random, shape, 40)
    wood = np.array([142, 103, 66], dtype=np.float32) + (tone * 7 + grain * 4)[..., None]
    gap = np.abs(across / (columns / 11) % 1 - 0.5) > 0.488
    return np.where(gap[..., None], wood * 0.55, wood)


def _pole(wall: np.ndarray, corners: Corners, scale: float) -> None:
    """The ends of a wooden pole that stand out on both sides, just under the top edge."""
    thick = max(4, round(0.62 * scale))
    for (x, y), sign in ((corners[0], -1), (corners[1], 1)):
        low = round(y + 0.9 * scale)
        start, stop = sorted((round(x), round(x + sign * 2.6 * scale)))
        span = wall[low : low + thick, max(start, 0) : stop]
        shade = np.sin(np.linspace(0.5, 2.9, span.shape[0]))[:, None, None]
        span[:] = np.array([156, 118, 78]) * (0.55 + 0.5 * shade)
        below = wall[low + thick : low + 2 * thick, max(start, 0) : stop]
        below *= np.linspace(0.72, 0.97, below.shape[0])[:, None, None]


def _sheet(random: np.random.Generator, shape: tuple[int, int]) -> np.ndarray:
    """A pale sheet on the floor, with its own soft folds."""
    folds = noise(random, shape, 240) * 1.2 + noise(random, shape, 90) * 0.5
    down, across = np.gradient(blur(folds, 6))
    light = 1 + 2.0 * (down + across)
    ground = np.array([222, 219, 212], dtype=np.float32)
    return ground * light[..., None] + (noise(random, shape, 2) * 1.2)[..., None]


def _developed(picture: np.ndarray, random: np.random.Generator) -> np.ndarray:
    """Daylight from one side, the lens's darker corners, a touch of colour cast, grain."""
    rows, columns = picture.shape[:2]
    y, x = np.linspace(-1, 1, rows)[:, None], np.linspace(-1, 1, columns)[None, :]
    side = random.choice([-1, 1])
    light = 1.02 + 0.055 * side * x - 0.04 * y - 0.075 * (x**2 + y**2) / 2
    cast = np.array([1.0, 0.995, 0.975]) * random.uniform(0.985, 1.015, 3)
    exposed = picture * light[..., None] * cast
    exposed = 255 * (np.clip(exposed, 0, 262) / 255) ** 0.97
    soft = noise(random, (rows, columns), 2.4) * 0.8 + random.normal(0, 0.45, (rows, columns))
    return np.clip(exposed + soft[..., None], 0, 255).astype(np.uint8)


def save(pixels: np.ndarray, path: Path) -> None:
    """A JPEG without any hidden data, at the best quality that stays below MOST_BYTES."""
    picture = Image.fromarray(pixels)
    for quality in range(BEST_QUALITY, 50, -3):
        file = BytesIO()
        picture.save(
            file, "JPEG", quality=quality, optimize=True, progressive=True, subsampling="4:2:0"
        )
        if file.tell() <= MOST_BYTES:
            break
    path.write_bytes(file.getvalue())
