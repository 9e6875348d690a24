"""Light on cloth: the hills and valleys that seams, quilting, wear and hanging leave."""

from __future__ import annotations

from typing import Any

import numpy as np
from PIL import Image, ImageDraw

from sample_collection.studio.brush import rgb
from sample_collection.studio.cloth import fabrics
from sample_collection.studio.needle import NEAR
from sample_collection.studio.quilting import stitch_lines
from sample_collection.studio.raster import View, blur, noise, piece_numbers, seams, show_cloth
from sample_collection.studio.scene import Scene

THREAD = "#e2d6bc"
AGE = np.array([196.0, 172.0, 130.0])  # what old cotton goes towards: tea and tan


def lit_top(scene: Scene, view: View, drawing: dict[str, Any]) -> tuple[np.ndarray, np.ndarray]:
    """The top in soft light from the upper left: RGB numbers, and 1 where there is quilt."""
    numbers = piece_numbers(scene, view)
    colour = _aged(show_cloth(scene, view, numbers), scene, view, drawing)
    lines = stitch_lines(scene, view, numbers, drawing.get("quilting", []))
    sewn = seams(numbers)
    height = _height(scene, view, numbers, lines, sewn, drawing)
    light = _light(height, view.ppi) * _sheen(scene, numbers, height, view)
    dark = 1 - 0.17 * _groove(sewn, 0.028 * view.ppi) - 0.10 * _groove(lines, 0.05 * view.ppi)
    shown = colour * (light * dark)[..., None]
    if view.ppi > NEAR:
        shown = _with_stitches(shown, lines, drawing.get("thread", THREAD))
    if scene.threads:
        shown = _with_threads(shown, scene, view)
    return np.clip(shown, 0, 255), (numbers >= 0).astype(np.float32)


def _aged(colour: np.ndarray, scene: Scene, view: View, drawing: dict[str, Any]) -> np.ndarray:
    """Fading all over and in patches, and the stains of use."""
    random = np.random.default_rng(scene.seed + 5)
    fade = float(drawing.get("faded", 0.06))
    patchy = noise(random, view.shape, 14 * view.ppi)
    share = np.clip(fade + 0.35 * fade * patchy, 0, 0.6)[..., None].astype(np.float32)
    colour = colour * (1 - share) + AGE.astype(np.float32) * share
    colour = colour * (1 - _fold_lines(scene, view, drawing.get("folds", [0, 0])))[..., None]
    stains = np.clip(noise(random, view.shape, 4.5 * view.ppi) - 2.1, 0, 1) * drawing.get(
        "stained", 0.1
    )
    return colour * (1 - stains[..., None] * np.array([0.12, 0.22, 0.42], dtype=np.float32))


def _fold_lines(scene: Scene, view: View, folds: list[int]) -> np.ndarray:
    """The grime that gathers along old folds, so many across and down."""
    rows, columns = view.shape
    x = view.left + np.arange(columns) / view.ppi
    y = view.top + np.arange(rows) / view.ppi
    grime = np.zeros(view.shape, dtype=np.float32)
    for k in range(1, folds[0] + 1):
        grime += np.exp(-(((x - scene.width * k / (folds[0] + 1)) / 0.35) ** 2))[None, :]
    for k in range(1, folds[1] + 1):
        grime += np.exp(-(((y - scene.length * k / (folds[1] + 1)) / 0.35) ** 2))[:, None]
    random = np.random.default_rng(scene.seed + 6)
    patchy = np.clip(0.6 + 0.4 * noise(random, view.shape, 3 * view.ppi), 0, 1.2)
    return (0.22 * grime * patchy).astype(np.float32)


def _height(
    scene: Scene,
    view: View,
    numbers: np.ndarray,
    lines: np.ndarray,
    sewn: np.ndarray,
    drawing: dict[str, Any],
) -> np.ndarray:
    """Height above the backing in inches, as far as light shows it."""
    random = np.random.default_rng(scene.seed + 9)
    ppi, loft = view.ppi, float(drawing.get("loft", 1.0))
    height = np.zeros(view.shape, dtype=np.float32)
    for spread, depth in ((0.05, 0.012), (0.16, 0.026), (0.4, 0.03)):
        if lines.any():
            height -= loft * depth * _groove(lines, spread * ppi)
    height -= 0.011 * _groove(sewn, 0.05 * ppi)
    height += 0.006 * blur(_pressed_side(numbers), 0.05 * ppi)
    laid = np.array([*(piece.laid for piece in scene.pieces), False])[numbers].astype(np.float32)
    if laid.any():
        height += 0.014 * blur(laid, 0.035 * ppi)
    near = np.clip(blur(np.maximum(lines, 0.5 * sewn), 0.35 * ppi) * 9, 0.12, 1)
    crinkle = float(drawing.get("crinkled", 1.0))
    height += crinkle * 0.0065 * near * noise(random, view.shape, 0.42 * ppi)
    height += crinkle * 0.003 * near * noise(random, view.shape, 0.2 * ppi)
    calm = 0.55 if ppi > NEAR else 1.0  # close views are taken on a table
    uneven = calm * float(drawing.get("uneven", 1.0))
    height += 0.014 * uneven * noise(random, view.shape, 1.8 * ppi)
    height += 0.05 * uneven * noise(random, view.shape, 6 * ppi)
    return height + 0.16 * calm * noise(random, view.shape, 17 * ppi)


def _groove(lines: np.ndarray, spread: float) -> np.ndarray:
    """Nearness to a line as wide as `spread` pixels: near 1 on it, smoothly less away from it."""
    return 1 - np.exp(-2.0 * max(spread, 0.8) * blur(lines, spread))


def _with_stitches(shown: np.ndarray, lines: np.ndarray, thread: str) -> np.ndarray:
    """The thread itself, seen close to: stitches, each in the dimple it pulls."""
    stitch = np.clip(lines - 0.5, 0, 0.5)[..., None] * 2
    hole = np.clip(np.roll(lines, (2, 2), axis=(0, 1)) - 0.5, 0, 0.5)[..., None] * 2
    return shown * (1 - 0.3 * hole) * (1 - 0.8 * stitch) + 0.8 * stitch * np.array(rgb(thread))


def _pressed_side(numbers: np.ndarray) -> np.ndarray:
    """1 along the side of each seam that its allowance is pressed to."""
    side = np.zeros(numbers.shape, dtype=np.float32)
    side[:, 1:] = numbers[:, 1:] > numbers[:, :-1]
    side[1:] = np.maximum(side[1:], numbers[1:] > numbers[:-1])
    return side


def _light(height: np.ndarray, ppi: float) -> np.ndarray:
    down, across = np.gradient(height * ppi)
    slope = across * 0.62 + down * 0.78
    return np.clip(1 + 0.62 * slope, 0.62, 1.3).astype(np.float32)


def _sheen(scene: Scene, numbers: np.ndarray, height: np.ndarray, view: View) -> np.ndarray:
    """Silk, velvet and sateen answer the light more strongly than cotton does."""
    gloss = np.array([*(fabrics()[piece.fabric].sheen for piece in scene.pieces), 0.0])[numbers]
    if not gloss.any():
        return np.ones(view.shape, dtype=np.float32)
    down, across = np.gradient(blur(height, 0.12 * view.ppi) * view.ppi)
    shine = np.clip(1 + gloss * (across * 1.6 + down * 1.9), 0.75, 1.5)
    return shine.astype(np.float32)


def _with_threads(shown: np.ndarray, scene: Scene, view: View) -> np.ndarray:
    """Embroidery, ink and ties drawn on the cloth, with the shadow they cast."""
    picture = Image.fromarray(np.clip(shown, 0, 255).astype(np.uint8))
    shade = Image.new("L", picture.size, 0)
    draw, under = ImageDraw.Draw(picture), ImageDraw.Draw(shade)
    drop = max(1, round(0.015 * view.ppi))
    visible = [thread for thread in scene.threads if view.sees(np.array(thread.points))]
    for thread in visible:
        points = [(x + drop, y + drop) for x, y in view.pixels(np.array(thread.points))]
        under.line(points, fill=150, width=max(1, round(thread.width * view.ppi)))
    for thread in visible:
        points = view.pixels(np.array(thread.points))
        draw.line(points, fill=thread.colour, width=max(1, round(thread.width * view.ppi)))
    dim = 1 - np.asarray(shade, dtype=np.float32)[..., None] / 255 * 0.35
    drawn = np.asarray(picture, dtype=np.float32)
    touched = np.any(drawn != np.clip(shown, 0, 255).astype(np.uint8), axis=2)[..., None]
    return np.where(touched, drawn, shown * dim)
