"""Printed cloth for the simulator: square tiles that repeat, made from their mean colour."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

SIDE = 128  # pixels of a tile, whatever the scale

Array = np.ndarray


@dataclass(frozen=True)
class Shade:
    """A colour of CIELAB: lightness 0 to 100, and the two axes of colour."""

    lightness: float
    a: float
    b: float


def srgb(lab: Array) -> Array:
    """CIELAB (D65) as sRGB from 0 to 1 (CIE 15 and IEC 61966-2-1, from memory)."""
    fy = (lab[..., 0] + 16) / 116
    f = np.stack([fy + lab[..., 1] / 500, fy, fy - lab[..., 2] / 200], axis=-1)
    xyz = np.where(f > 6 / 29, f**3, 3 * (6 / 29) ** 2 * (f - 4 / 29))
    xyz = xyz * np.array([0.95047, 1.0, 1.08883])
    turn = np.array(
        [[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.2040, 1.0570]]
    )
    linear = np.clip(xyz @ turn.T, 0, 1)
    return np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)


def tile(shade: Shade, kind: str, inch: float, random: np.random.Generator) -> Array:
    """The cloth as CIELAB floats, SIDE pixels square at `inch` pixels to the inch."""
    figure = PRINTS[kind](inch, random)
    strength = random.uniform(7, 24) * (1 if random.random() < 0.5 else -1)
    tint = random.normal(0, 10, 2)
    lab = np.empty((SIDE, SIDE, 3), np.float32)
    centred = figure - figure.mean()
    lab[..., 0] = shade.lightness + strength * centred
    lab[..., 1] = shade.a + tint[0] * centred
    lab[..., 2] = shade.b + tint[1] * centred
    lab[..., 0] += random.normal(0, 1.2, (SIDE, SIDE))
    return lab


def kinds() -> tuple[str, ...]:
    """The prints that a tile can carry."""
    return tuple(PRINTS)


def smooth_noise(
    shape: tuple[int, int], length: float, random: np.random.Generator, ring: bool = False
) -> Array:
    """Noise of unit spread that varies over `length` pixels and closes round its edges."""
    fy = np.fft.fftfreq(shape[0])[:, None]
    fx = np.fft.rfftfreq(shape[1])[None, :]
    radius = np.hypot(fy, fx) * length
    gain = np.exp(-((radius - 1) ** 2) * 8) if ring else np.exp(-(radius**2) * 2)
    spectrum = np.fft.rfft2(random.normal(0, 1, shape)) * gain
    noise = np.fft.irfft2(spectrum, s=shape)
    return (noise - noise.mean()) / (noise.std() + 1e-9)


def _periods(inch: float, random: np.random.Generator, low: float, high: float) -> float:
    """A repeat between two lengths in inches that divides the tile, in pixels, at least 3."""
    wanted = max(3.0, random.uniform(low, high) * inch)
    return SIDE / max(1, round(SIDE / wanted))


def _plain(inch: float, random: np.random.Generator) -> Array:
    return np.zeros((SIDE, SIDE))


def _dots(inch: float, random: np.random.Generator) -> Array:
    period = _periods(inch, random, 0.3, 0.8)
    y, x = np.mgrid[0:SIDE, 0:SIDE] / period
    drop = 0.5 * (np.floor(x) % 2) * (random.random() < 0.5)
    reach = np.hypot(x % 1 - 0.5, (y + drop) % 1 - 0.5)
    return (reach < random.uniform(0.15, 0.3)).astype(float)


def _sprigs(inch: float, random: np.random.Generator) -> Array:
    field = smooth_noise((SIDE, SIDE), max(3.0, random.uniform(0.25, 0.6) * inch), random, True)
    return (field > random.uniform(0.7, 1.3)).astype(float)


def _ditsy(inch: float, random: np.random.Generator) -> Array:
    field = smooth_noise((SIDE, SIDE), max(3.0, random.uniform(0.2, 0.4) * inch), random, True)
    return (field > 0).astype(float)


def _flowers(inch: float, random: np.random.Generator) -> Array:
    """Large figures, up to a third of a block across: the prints that trouble a reading most."""
    field = smooth_noise((SIDE, SIDE), random.uniform(1.2, 3.0) * inch, random, True)
    fine = smooth_noise((SIDE, SIDE), max(3.0, 0.4 * inch), random, True)
    return 0.7 * (field > 0.6) + 0.3 * (fine > 0.5)


def _stripes(inch: float, random: np.random.Generator) -> Array:
    period = _periods(inch, random, 0.3, 1.2)
    x = np.arange(SIDE) / period % 1
    band = (x < random.uniform(0.3, 0.6)).astype(float) + 0.5 * ((x > 0.75) & (x < 0.85))
    return np.tile(band, (SIDE, 1))


def _check(inch: float, random: np.random.Generator) -> Array:
    band = _stripes(inch, random)
    return (band + band.T) / 2


PRINTS: dict[str, Callable[[float, np.random.Generator], Array]] = {
    "plain": _plain,
    "dots": _dots,
    "sprigs": _sprigs,
    "ditsy": _ditsy,
    "flowers": _flowers,
    "stripes": _stripes,
    "check": _check,
}
