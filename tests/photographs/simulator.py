"""Photographs of quilts that were never sewn, with the truth about each.

Drawn from the trade's own geometry, sharing nothing with the reading it tests. A quilt top is drawn
flat (`simulated_quilts`), hung a little out of true, seen from one side, lit from another, blurred,
given the noise of a sensor and saved as JPEG. One seed makes the same photograph again.
"""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
import simulated_quilts as quilts
from PIL import Image, ImageFilter
from simulated_cloth import smooth_noise, srgb
from simulated_quilts import Plan

Corners = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Photograph:
    """The file, and what is true of it: `plan` is None where nothing repeats."""

    data: bytes
    corners: Corners
    width: float
    length: float
    plan: Plan | None
    homography: np.ndarray  # from inches on the quilt to pixels of the photograph


def photograph(
    seed: int,
    *,
    turned: bool | None = None,
    side: int = 1200,
    quality: int | None = None,
    **wanted: object,
) -> Photograph:
    """A photograph of a quilt with a repeat; `wanted` fixes fields of its plan."""
    random = np.random.default_rng(seed)
    plan = quilts.plan(random, **wanted)
    if turned is None:
        turned = bool(random.random() < 0.5)
    if turned:
        while len(plan.block.keeps) == 8:
            block = quilts.choose_block(random, plan.setting)
            plan = Plan(**{**vars(plan), "block": block})
        plan = quilts.turn_one(plan, random)
    inch = 1.15 * side * 0.8 / max(plan.overall)
    top = quilts.draw(plan, inch, random)
    return _taken(top, plan.overall, plan, side, quality, random)


def without_repeat(seed: int, kind: str, *, side: int = 1200) -> Photograph:
    """A photograph of a crazy quilt or of a pictorial one ("crazy", "landscape")."""
    random = np.random.default_rng(seed)
    size = tuple(map(float, random.uniform(45, 90, 2)))
    inch = 1.15 * side * 0.8 / max(size)
    top = {"crazy": quilts.crazy, "landscape": quilts.landscape}[kind](size, inch, random)
    return _taken(top, size, None, side, None, random)


def _taken(
    top: np.ndarray,
    size: tuple[float, float],
    plan: Plan | None,
    side: int,
    quality: int | None,
    random: np.random.Generator,
) -> Photograph:
    shown = (srgb(top) * 255).astype(np.uint8)
    corners = corners_seen(size, side, random)
    inches = ((0, 0), (size[0], 0), size, (0, size[1]))
    homography = through(inches, corners)
    picture = _hung(Image.fromarray(shown), size, homography, side, random)
    picture = _lit(picture, random)
    picture = picture.filter(ImageFilter.GaussianBlur(random.uniform(0, 0.0016) * side))
    pixels = np.asarray(picture, np.float32)
    pixels = pixels + random.normal(0, random.uniform(1, 7), pixels.shape).astype(np.float32)
    picture = Image.fromarray(np.clip(pixels, 0, 255).astype(np.uint8))
    buffer = io.BytesIO()
    picture.save(buffer, "JPEG", quality=quality or int(random.integers(60, 93)))
    return Photograph(buffer.getvalue(), corners, *size, plan, homography)


def through(source: Corners, target: Corners) -> np.ndarray:
    """The homography that takes four points to four others."""
    rows = []
    for (x, y), (u, v) in zip(source, target, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y])
    solved = np.linalg.solve(np.array(rows, float), np.array(target, float).ravel())
    return np.append(solved, 1).reshape(3, 3)


def carry(homography: np.ndarray, points: np.ndarray) -> np.ndarray:
    """Points (n, 2) taken through a homography."""
    whole = np.column_stack([points, np.ones(len(points))]) @ homography.T
    return whole[:, :2] / whole[:, 2:]


def corners_seen(size: tuple[float, float], side: int, random: np.random.Generator) -> Corners:
    """Where the corners lie in a frame `side` pixels on its longer side, seen through a real lens.

    A camera at 1.2 to 3 times the quilt's longer side, a little off the middle and turned a little.
    """
    width, length = size
    far = max(size) * random.uniform(1.2, 3)
    tilt = random.normal(0, 0.09, 3) * (1, 1, 0.25)
    cx, cy, cz = np.cos(tilt)
    sx, sy, sz = np.sin(tilt)
    turn = (
        np.array([[cz, -sz, 0], [sz, cz, 0], [0, 0, 1]])
        @ np.array([[1, 0, 0], [0, cx, -sx], [0, sx, cx]])
        @ np.array([[cy, 0, sy], [0, 1, 0], [-sy, 0, cy]])
    )
    flat = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * (width / 2, length / 2)
    seen = np.column_stack([flat, np.zeros(4)]) @ turn.T + (0, 0, far)
    points = seen[:, :2] / seen[:, 2:]
    low, high = points.min(0), points.max(0)
    whole = frame(size, side)
    scale = min((whole - 0.14 * side) / (high - low))
    middle = whole / 2 + random.normal(0, 0.01, 2) * side
    placed = (points - (low + high) / 2) * scale + middle
    return tuple((float(x), float(y)) for x, y in placed)


def frame(size: tuple[float, float], side: int) -> np.ndarray:
    upright = size[1] > size[0]
    return np.array([side * 0.8, side] if upright else [side, side * 0.8])


def _hung(
    top: Image.Image,
    size: tuple[float, float],
    homography: np.ndarray,
    side: int,
    random: np.random.Generator,
) -> Image.Image:
    """The top in its frame, its cloth pulled out of true by up to a few tenths of an inch."""
    width, height = (int(v) for v in frame(size, side))
    inch = top.width / size[0]
    back = np.linalg.inv(homography)
    steps = 16
    xs, ys = np.linspace(0, width, steps + 1), np.linspace(0, height, steps + 1)
    grid = np.stack(np.meshgrid(xs, ys), -1)
    source = carry(back, grid.reshape(-1, 2)).reshape(grid.shape)
    slack = random.uniform(0, 0.25)
    for axis in (0, 1):
        source[..., axis] += (
            slack * smooth_noise(source.shape[:2], 6, random) * _inside(source, size)
        )
    source *= inch
    mesh = []
    for i in range(steps):
        for j in range(steps):
            box = (round(xs[j]), round(ys[i]), round(xs[j + 1]), round(ys[i + 1]))
            quad = [source[a, b] for a, b in ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))]
            mesh.append((box, [float(v) for point in quad for v in point]))
    shown = top.transform((width, height), Image.Transform.MESH, mesh, Image.Resampling.BILINEAR)
    mask = Image.new("L", top.size, 255).transform(
        (width, height), Image.Transform.MESH, mesh, Image.Resampling.BILINEAR
    )
    return Image.composite(shown, _room(width, height, random), mask)


def _inside(points: np.ndarray, size: tuple[float, float]) -> np.ndarray:
    """0 at the quilt's edges, which the corners tell, rising to 1 a tenth of its width inside."""
    x, y = points[..., 0], points[..., 1]
    depth = np.minimum.reduce([x, size[0] - x, y, size[1] - y]) / (0.1 * min(size))
    return np.clip(depth, 0, 1)


def _room(width: int, height: int, random: np.random.Generator) -> Image.Image:
    """What is behind the quilt: a wall, boards or grass."""
    shade = np.array([random.uniform(15, 95), *random.normal(0, 8, 2)])
    kind = random.choice(["wall", "boards", "grass"])
    lab = np.empty((height, width, 3), np.float32)
    lab[:] = shade
    if kind == "wall":
        lab[..., 0] += 2 * smooth_noise((height, width), width / 3, random)
    elif kind == "boards":
        tone = random.normal(0, 5, 40)
        lab[..., 0] += tone[(np.arange(width) * 14 // width) % 40][None, :]
        lab[..., 0] += 2 * smooth_noise((height, width), 4, random)
    else:
        lab[..., 0] += 9 * smooth_noise((height, width), 4, random)
    return Image.fromarray((srgb(lab) * 255).astype(np.uint8))


def _lit(picture: Image.Image, random: np.random.Generator) -> Image.Image:
    """Light from one side: the far side gets 45 to 100 % of it, a little warm or cold."""
    width, height = picture.size
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    angle = random.uniform(0, 2 * np.pi)
    run = (x / width - 0.5) * np.cos(angle) + (y / height - 0.5) * np.sin(angle)
    fall = random.uniform(0, 0.55)
    gain = 1 - fall * (run + 0.6) / 1.2
    gain *= 1 - random.uniform(0, 0.25) * ((x / width - 0.5) ** 2 + (y / height - 0.5) ** 2) * 2
    tint = 1 + random.normal(0, 0.035, 3)
    linear = (np.asarray(picture, np.float32) / 255) ** 2.2 * gain[..., None] * tint
    shown = np.clip(linear, 0, 1) ** (1 / 2.2) * 255
    return Image.fromarray(shown.astype(np.uint8))
