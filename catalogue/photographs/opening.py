"""A picture file opened with every limit in force, each fault told in one sentence."""

from __future__ import annotations

import importlib.util
import io
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache

from PIL import Image, UnidentifiedImageError

LARGEST_FILE = 60 * 1024 * 1024  # bytes
MOST_PIXELS = 89_000_000  # and the library itself warns from there on
LONGEST_SIDE = 30_000
SHORTEST_SIDE = 32

_FORMATS = ("JPEG", "PNG", "TIFF", "WEBP")
_HEIF = "HEIF"
# The brands of the ISO base media file format under which cameras keep still pictures in HEVC
# (ISO/IEC 23008-12, from memory).
_HEIC_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1")


class PhotographError(ValueError):
    """A file that cannot be kept as a photograph; the message is one sentence for the user."""


@cache
def formats() -> tuple[str, ...]:
    """The formats that can be opened; HEIF is among them where pi-heif is installed."""
    if importlib.util.find_spec("pi_heif") is None:
        return _FORMATS
    import pi_heif

    pi_heif.register_heif_opener()
    return (*_FORMATS, _HEIF)


@contextmanager
def opened(data: bytes) -> Iterator[Image.Image]:
    """Open image data without decoding it. Raises PhotographError, also for what is done inside."""
    if len(data) > LARGEST_FILE:
        raise PhotographError(
            f"The file is {len(data) // 2**20} MB: at most {LARGEST_FILE // 2**20} MB can be kept."
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data), formats=formats()) as image:
                _within_limits(image)
                yield image
    except PhotographError:
        raise
    except UnidentifiedImageError:
        raise PhotographError(_unknown(data)) from None
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotographError("The picture has too many pixels to be opened safely.") from None
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError) as error:
        raise PhotographError("The picture is damaged or cut short.") from error


def _unknown(data: bytes) -> str:
    if _is_heic(data) and _HEIF not in formats():
        return (
            "This is a HEIC picture, and the part that reads them (pi-heif) is not installed:"
            " install it, or save the picture as JPEG first."
        )
    return "The file is not a JPEG, PNG, TIFF, WebP or HEIC picture."


def _is_heic(data: bytes) -> bool:
    return data[4:8] == b"ftyp" and data[8:12] in _HEIC_BRANDS


def _within_limits(image: Image.Image) -> None:
    width, height = image.size
    if width * height > MOST_PIXELS or max(width, height) > LONGEST_SIDE:
        raise PhotographError(
            f"The picture is {width} x {height} pixels: at most {MOST_PIXELS // 10**6} million"
            f" pixels and {LONGEST_SIDE:,} on a side can be kept."
        )
    if min(width, height) < SHORTEST_SIDE:
        raise PhotographError(f"The picture is {width} x {height} pixels, too few to show a quilt.")
