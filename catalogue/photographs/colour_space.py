"""sRGB pixels as CIELAB, in which equal distances look about equally large, and back."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.floating[Any]]
Bytes = npt.NDArray[np.uint8]

# Linear sRGB to CIE XYZ under D65, and the white of D65: IEC 61966-2-1:1999, from memory.
_TO_XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], np.float32
)
_WHITE = np.array([0.95047, 1.0, 1.08883], np.float32)

_ENCODED = np.arange(256, dtype=np.float32) / 255
_LINEAR = np.where(
    _ENCODED <= 0.04045, _ENCODED / 12.92, ((_ENCODED + 0.055) / 1.055) ** 2.4
).astype(np.float32)


def to_lab(pixels: Bytes) -> Floats:
    """CIELAB (D65; CIE 15:2004, from memory) of sRGB bytes, any shape ending in 3."""
    return lab_of_linear(_LINEAR[pixels])


def to_linear(pixels: Bytes) -> Floats:
    """Amounts of light, 0 to 1, of sRGB bytes."""
    return _LINEAR[pixels]


def lab_of_linear(light: Floats) -> Floats:
    """CIELAB of amounts of red, green and blue light, shape (..., 3)."""
    xyz = (light @ _TO_XYZ.T) / _WHITE
    root = np.where(xyz > 216 / 24389, np.cbrt(xyz), (24389 / 27 * xyz + 16) / 116)
    x, y, z = root[..., 0], root[..., 1], root[..., 2]
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1).astype(np.float32)


def to_srgb(lab: Floats) -> Bytes:
    """sRGB bytes of CIELAB, what lies outside sRGB clipped to it."""
    y = (lab[..., 0] + 16) / 116
    root = np.stack([y + lab[..., 1] / 500, y, y - lab[..., 2] / 200], axis=-1)
    cube = root**3
    xyz = np.where(cube > 216 / 24389, cube, (116 * root - 16) * 27 / 24389) * _WHITE
    light = np.clip(xyz @ np.linalg.inv(_TO_XYZ).T, 0, 1)
    encoded = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    rounded: Bytes = np.round(encoded * 255).astype(np.uint8)
    return rounded


def hex_code(lab: Floats) -> str:
    """One colour as #rrggbb."""
    red, green, blue = (int(value) for value in to_srgb(np.asarray(lab, np.float32)))
    return f"#{red:02x}{green:02x}{blue:02x}"


def distance(one: Floats, other: Floats) -> Floats:
    """Colour difference, CIELAB's of 1976: the straight line between two colours."""
    off = one - other
    apart: Floats = np.sqrt(np.einsum("...i,...i", off, off))  # three times as quick as a sum
    return apart
