"""Cloth as square tiles that repeat, printed by the recipes in fabrics.toml."""

from __future__ import annotations

import tomllib
import zlib
from functools import cache
from math import pi
from pathlib import Path

import numpy as np
from PIL import Image

from sample_collection.studio.brush import TILE, Brush, rgb
from sample_collection.studio.prints import KINDS, Fabric

FINER = 3  # tiles are drawn that much larger and brought down, so that figures have soft edges


@cache
def fabrics() -> dict[str, Fabric]:
    """Every recipe by name."""
    text = (Path(__file__).parent / "fabrics.toml").read_text(encoding="utf-8")
    return {
        name: Fabric(name, **{**recipe, "figures": tuple(recipe.get("figures", ()))})
        for name, recipe in tomllib.loads(text).items()
    }


def tile(fabric: Fabric, ppi: float) -> np.ndarray:
    """The cloth as an array of RGB bytes, TILE inches square at `ppi` pixels to the inch."""
    side = round(TILE * ppi)
    canvas = Image.new("RGB", (side * FINER, side * FINER), rgb(fabric.ground))
    brush = Brush(canvas, ppi * FINER, np.random.default_rng(zlib.crc32(fabric.name.encode())))
    KINDS[fabric.kind](brush, fabric)
    cloth = np.asarray(canvas.resize((side, side), Image.Resampling.BOX), dtype=np.float32)
    return _woven(cloth, fabric, ppi, brush.random)


def _woven(
    cloth: np.ndarray, fabric: Fabric, ppi: float, random: np.random.Generator
) -> np.ndarray:
    """The cloth with uneven warp and weft, finer or coarser as the recipe says."""
    side = cloth.shape[0]
    warp = random.normal(0, 1, (1, side, 1)) + _threads(side, ppi)[None, :, None]
    weft = random.normal(0, 1, (side, 1, 1)) + _threads(side, ppi)[:, None, None]
    grain = random.normal(0, 1, (side, side, 1))
    blotch = _smooth_noise(random, side, max(2, round(TILE * 1.5)))[..., None]
    thread = 1.6 * warp + 1.6 * weft + 1.8 * grain + 1.4 * blotch
    return np.clip(cloth + thread * fabric.weave, 0, 255).astype(np.uint8)


def _threads(side: int, ppi: float) -> np.ndarray:
    """The thread count made visible close to: nothing below 70 pixels to the inch."""
    if ppi < 70:
        return np.zeros(side)
    return 2.2 * np.sin(np.arange(side) * 2 * pi * 44 / ppi)


def _smooth_noise(random: np.random.Generator, side: int, cells: int) -> np.ndarray:
    coarse = random.normal(0, 1, (cells, cells)).astype(np.float32)
    wrapped = np.pad(coarse, 2, mode="wrap")
    grown = Image.fromarray(wrapped).resize(
        (side * (cells + 4) // cells,) * 2, Image.Resampling.BICUBIC
    )
    edge = 2 * side // cells
    return np.asarray(grown)[edge : edge + side, edge : edge + side]
