"""What a reading looks at: the squared-up picture's colours under even light, and its seams."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageFilter

from catalogue.photographs.colour_space import Floats, to_lab

LONGEST = 480  # pixels: a block of an eight by eight quilt is then still 50 wide
SOFTENED = 1.2  # pixels, so that prints do not pass for patches

UPRIGHT, RISING, LEVEL, FALLING = range(4)  # the directions in which seams run


@dataclass(frozen=True)
class Surface:
    """Colours (height, width, 3), CIELAB less the median; seams (height, width, 4)."""

    colour: Floats
    seams: Floats

    @property
    def width(self) -> int:
        return int(self.colour.shape[1])

    @property
    def height(self) -> int:
        return int(self.colour.shape[0])

    def transposed(self) -> Surface:
        """The same with rows and columns exchanged, so that one axis is written for both."""
        turned = self.seams.transpose(1, 0, 2)[..., [LEVEL, RISING, UPRIGHT, FALLING]]
        return Surface(self.colour.transpose(1, 0, 2), turned)


def read_surface(squared: Image.Image) -> Surface:
    """The surface of a picture that shows the quilt edge to edge, reduced to LONGEST."""
    picture = squared.convert("RGB")
    picture.thumbnail((LONGEST, LONGEST), Image.Resampling.BOX, reducing_gap=2.0)
    softened = picture.filter(ImageFilter.GaussianBlur(SOFTENED))
    colour = evened(to_lab(np.asarray(softened)))
    return Surface(colour, _seams(colour))


def evened(lab: Floats) -> Floats:
    """The colours under even light, less their median.

    Only a slope across the whole quilt is taken out: a quilt is much the same on both sides of
    its middle, so a slope is light, while what rises or falls towards the middle is its design.
    CIELAB shrinks with the cube root of the light, all three axes alike once 16 is added to the
    lightness (CIE 15:2004, from memory).
    """
    height, width = lab.shape[:2]
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j].astype(np.float32)
    plane = np.stack([np.ones_like(x), x, y], axis=-1)
    slope = _robust_fit(plane[::4, ::4].reshape(-1, 3), lab[::4, ::4, 0].ravel() + 16)
    gain = np.clip((plane @ slope) / slope[0], 0.6, 1.6)[..., None].astype(np.float32)
    black = np.array([16, 0, 0], np.float32)
    even = (lab + black) / gain - black
    flat: Floats = even - np.median(even.reshape(-1, 3), axis=0)
    return flat


def _robust_fit(basis: Floats, values: Floats) -> Floats:
    """Coefficients by least squares, values far off counted less and less (three rounds)."""
    weight = np.ones_like(values)
    fitted = np.zeros(basis.shape[1], np.float32)
    for _ in range(3):
        fitted = np.linalg.lstsq(basis * weight[:, None], values * weight, rcond=None)[0]
        off = np.abs(values - basis @ fitted)
        weight = 1 / np.sqrt(1 + (off / (3 * np.median(off) + 1e-6)) ** 2)
    return fitted


def _seams(colour: Floats) -> Floats:
    """How strongly the colour changes across each of four directions, smoothed; 0 to 1."""
    across, down = np.zeros_like(colour), np.zeros_like(colour)
    across[:, 1:-1] = (colour[:, 2:] - colour[:, :-2]) / 2
    down[1:-1] = (colour[2:] - colour[:-2]) / 2
    # The structure tensor of a colour picture (Di Zenzo, 1986, from memory), read at four angles.
    plain = (across**2 - down**2).sum(-1)
    slant = 2 * (across * down).sum(-1)
    strength = np.stack([plain, slant, -plain, -slant], axis=-1)
    seams = smoothed(np.sqrt(np.maximum(strength, 0)), 1.5)
    # Held down, so that a seam between two loud cloths is not worth ten between quiet ones.
    return seams / (seams + np.median(seams) + 1e-6)


def smoothed(values: Floats, spread: float) -> Floats:
    """Values blurred along the first two axes by a Gaussian of this spread in pixels."""
    reach = int(3 * spread + 1)
    kernel = np.exp(-0.5 * (np.arange(-reach, reach + 1) / spread) ** 2)
    kernel = (kernel / kernel.sum()).astype(np.float32)
    for axis in (0, 1):
        pads = [(reach, reach) if number == axis else (0, 0) for number in range(values.ndim)]
        padded = np.pad(values, pads, mode="edge")
        length = values.shape[axis]
        parts = (
            weight * (padded[k : k + length] if axis == 0 else padded[:, k : k + length])
            for k, weight in enumerate(kernel)
        )
        values = sum(parts, np.zeros(values.shape, np.float32))
    return values
