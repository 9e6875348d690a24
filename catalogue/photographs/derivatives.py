"""A photograph checked, and the smaller pictures made from it: bytes in, bytes out."""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

FORMATS = ("JPEG", "PNG", "TIFF", "WEBP")
LARGEST_FILE = 60 * 1024 * 1024  # bytes
MOST_PIXELS = 120_000_000
LONGEST_SIDE = 30_000
SHORTEST_SIDE = 32

# Longest side, in pixels, of each smaller picture: for the screen, for a page, for a list.
SIZES = {"large": 2000, "page": 800, "list": 240}

_SUFFIX = {"JPEG": "jpg", "PNG": "png", "TIFF": "tif", "WEBP": "webp"}
_QUALITY = {"WEBP": 80, "JPEG": 84}
# Orientations of the EXIF standard that lay the picture on its side.
_ON_ITS_SIDE = (5, 6, 7, 8)


class PhotographError(ValueError):
    """A file that cannot be kept as a photograph; the message is one sentence for the user."""


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
    with _opened(data) as image:
        width, height = image.size
        if image.getexif().get(0x0112) in _ON_ITS_SIDE:
            width, height = height, width
        format = str(image.format)
        if format == "JPEG":
            image.draft("RGB", (SIZES["large"], SIZES["large"]))
        image.load()
    return Examined(format, width, height)


def derive(data: bytes) -> tuple[Derivative, ...]:
    """Return every smaller picture, upright, in sRGB, without position or camera data.

    The largest is reduced from the original and each smaller one from the one before, which costs
    a fifth of reducing each from the original and shows no difference. Raises PhotographError.
    """
    with _opened(data) as image:
        largest = max(SIZES.values())
        if image.format == "JPEG":
            image.draft("RGB", (largest, largest))
        reduced = _in_srgb(_on_paper(image))
        derivatives: list[Derivative] = []
        orientation = image.getexif().get(0x0112, 1)
        for size, longest in SIZES.items():
            reduced.thumbnail((longest, longest), Image.Resampling.LANCZOS, reducing_gap=2.0)
            upright = _upright(reduced, orientation)
            derivatives.extend(_encoded(upright, size, format) for format in _QUALITY)
    return tuple(derivatives)


@contextmanager
def _opened(data: bytes) -> Iterator[Image.Image]:
    """Open image data with every limit in force, and turn each fault into one sentence."""
    if len(data) > LARGEST_FILE:
        raise PhotographError(
            f"The file is {len(data) // 2**20} MB: at most {LARGEST_FILE // 2**20} MB can be kept."
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data), formats=FORMATS) as image:
                _within_limits(image)
                yield image
    except PhotographError:
        raise
    except UnidentifiedImageError:
        raise PhotographError("The file is not a JPEG, PNG, TIFF or WebP picture.") from None
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotographError("The picture has too many pixels to be opened safely.") from None
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError) as error:
        raise PhotographError("The picture is damaged or cut short.") from error


def _within_limits(image: Image.Image) -> None:
    width, height = image.size
    if width * height > MOST_PIXELS or max(width, height) > LONGEST_SIDE:
        raise PhotographError(
            f"The picture is {width} x {height} pixels: at most {MOST_PIXELS // 10**6} million"
            f" pixels and {LONGEST_SIDE:,} on a side can be kept."
        )
    if min(width, height) < SHORTEST_SIDE:
        raise PhotographError(f"The picture is {width} x {height} pixels, too few to show a quilt.")


def _on_paper(image: Image.Image) -> Image.Image:
    """Return the picture without transparency, which is laid on white, and in 8 bits a channel."""
    if image.mode in ("I;16", "I;16B", "I", "F"):
        image = image.convert("F").point(lambda value: value / 257).convert("L")
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        layered = image.convert("RGBA")
        white = Image.new("RGBA", layered.size, "white")
        return Image.alpha_composite(white, layered).convert("RGB")
    return image


def _in_srgb(image: Image.Image) -> Image.Image:
    """Return the picture in sRGB, converted by its own colour profile where it carries one."""
    profile = image.info.get("icc_profile")
    if profile and image.mode in ("RGB", "CMYK", "L"):
        try:
            converted = ImageCms.profileToProfile(
                image,
                ImageCms.ImageCmsProfile(io.BytesIO(profile)),
                ImageCms.createProfile("sRGB"),
                outputMode="RGB",
            )
        except (ImageCms.PyCMSError, OSError):
            return image.convert("RGB")  # a damaged profile is no reason to lose the picture
        return converted if converted is not None else image.convert("RGB")
    return image.convert("RGB")


def _upright(image: Image.Image, orientation: int) -> Image.Image:
    """Return a copy turned as the camera's orientation asks."""
    copy = image.copy()
    copy.info.clear()  # comments and profiles would otherwise travel along
    if orientation == 1:
        return copy
    copy.getexif()[0x0112] = orientation
    turned = ImageOps.exif_transpose(copy)
    turned.info.clear()
    return turned


def _encoded(image: Image.Image, size: str, format: str) -> Derivative:
    buffer = io.BytesIO()
    if format == "JPEG":
        image.save(buffer, format, quality=_QUALITY[format], progressive=True, optimize=True)
    else:
        image.save(buffer, format, quality=_QUALITY[format], method=2)
    return Derivative(size, format, buffer.getvalue())
