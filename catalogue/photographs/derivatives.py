"""A photograph checked, and the smaller pictures made from it: bytes in, bytes out."""

from __future__ import annotations

import io
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from PIL import Image

from catalogue.photographs.opening import PhotographError, opened
from catalogue.photographs.upright import drafted, lies_on_its_side, upright

__all__ = [
    "SIZES",
    "Derivative",
    "Examined",
    "PhotographError",
    "Picture",
    "as_webp",
    "derive",
    "examine",
]

Picture = Image.Image  # for those who hand one on without looking into it

# Longest side, in pixels, of each smaller picture: for the screen, for a page, for a list.
SIZES = {"large": 2000, "page": 800, "list": 240}

_SUFFIX = {"JPEG": "jpg", "PNG": "png", "TIFF": "tif", "WEBP": "webp", "HEIF": "heic"}
# How each is saved: WebP the quickest way, at the quality that its library takes unless told.
_SAVING = {
    "WEBP": {"quality": 75, "method": 0},
    "JPEG": {"quality": 84, "optimize": True},
}


@dataclass(frozen=True)
class Examined:
    """What a file turned out to be: its format, and its pixels as they are to be looked at."""

    format: str
    pixels_wide: int
    pixels_high: int

    @property
    def suffix(self) -> str:
        """The ending of the original's file name."""
        return _SUFFIX[self.format]


@dataclass(frozen=True)
class Derivative:
    """One smaller picture: the name of its size, its format and its bytes."""

    size: str
    format: str
    data: bytes


def examine(data: bytes) -> Examined:
    """Return what the file is, judged by its contents and decoded to its last pixel.

    Raises PhotographError where it is too large, of another kind, damaged or cut short.
    """
    with opened(data) as image:
        width, height = image.size
        if lies_on_its_side(image):
            width, height = height, width
        format = str(image.format)
        drafted(image, SIZES["large"])
        image.load()
    return Examined(format, width, height)


def derive(data: bytes) -> tuple[Derivative, ...]:
    """Return every smaller picture, upright, in sRGB, without position or camera data.

    The largest is reduced from the original and each smaller one from the one before. Raises
    PhotographError.
    """
    large, *smaller = SIZES
    with ThreadPoolExecutor(1) as encoder:  # Pillow lets go of the interpreter while it encodes
        reduced = upright(data, SIZES[large])
        # This one takes as long as all the others together: it has a processor to itself.
        longest = encoder.submit(_encoded, reduced, large, "WEBP")
        made = [_encoded(reduced, large, "JPEG")]
        for size in smaller:
            reduced = reduced.copy()
            reduced.thumbnail((SIZES[size], SIZES[size]), Image.Resampling.HAMMING)
            made += [_encoded(reduced, size, format) for format in _SAVING]
        return longest.result(), *made


def as_webp(picture: Picture) -> bytes:
    """Return the picture as a WebP file without anything beside its pixels."""
    bare = picture.copy()
    bare.info.clear()
    return _encoded(bare, "", "WEBP").data


def _encoded(image: Image.Image, size: str, format: str) -> Derivative:
    buffer = io.BytesIO()
    image.save(buffer, format, **_SAVING[format])
    return Derivative(size, format, buffer.getvalue())
