"""A photograph checked, and the smaller pictures made from it: bytes in, bytes out."""

from __future__ import annotations

import io
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from PIL import Image, ImageCms, ImageOps

from catalogue.photographs.opening import PhotographError, opened

__all__ = [
    "SIZES",
    "Derivative",
    "Examined",
    "PhotographError",
    "Picture",
    "as_webp",
    "derive",
    "examine",
    "upright",
]

Picture = Image.Image  # for those who hand one on without looking into it

# Longest side, in pixels, of each smaller picture: for the screen, for a page, for a list.
SIZES = {"large": 2000, "page": 800, "list": 240}

_SUFFIX = {"JPEG": "jpg", "PNG": "png", "TIFF": "tif", "WEBP": "webp", "HEIF": "heic"}
# How each is saved: the quickest ways that lose nothing to the eye.
_SAVING = {
    "WEBP": {"quality": 80, "method": 0},
    "JPEG": {"quality": 84, "optimize": True},
}
# Orientations of the EXIF standard that lay the picture on its side.
_ON_ITS_SIDE = (5, 6, 7, 8)
_ORIENTATION = 0x0112
_TOLD_UPRIGHT = "HEIF"  # its reader has turned the picture already


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
        if _orientation(image) in _ON_ITS_SIDE:
            width, height = height, width
        format = str(image.format)
        _drafted(image)
        image.load()
    return Examined(format, width, height)


def derive(data: bytes) -> tuple[Derivative, ...]:
    """Return every smaller picture, upright, in sRGB, without position or camera data.

    The largest is reduced from the original and each smaller one from the one before, which costs
    a fifth of reducing each from the original and shows no difference. Raises PhotographError.
    """
    with ThreadPoolExecutor(2) as encoders:  # Pillow lets go of the interpreter while it encodes
        reduced, coming = upright(data), []
        for size, longest in SIZES.items():
            reduced = reduced.copy()
            reduced.thumbnail((longest, longest), Image.Resampling.LANCZOS)
            coming += [encoders.submit(_encoded, reduced, size, format) for format in _SAVING]
        return tuple(each.result() for each in coming)


def upright(data: bytes, longest: int = SIZES["large"]) -> Image.Image:
    """Return the picture as it is to be looked at, in sRGB, `longest` pixels at most on a side.

    Raises PhotographError.
    """
    with opened(data) as image:
        orientation = _orientation(image)
        _drafted(image, longest)
        reduced = _in_srgb(_on_paper(image))
        # Half a picture and less is left of what draft gives: a filter of three pixels is enough.
        reduced.thumbnail((longest, longest), Image.Resampling.HAMMING, reducing_gap=2.0)
        return _turned(reduced, orientation)


def as_webp(picture: Picture) -> bytes:
    """Return the picture as a WebP file without anything beside its pixels."""
    bare = picture.copy()
    bare.info.clear()
    return _encoded(bare, "", "WEBP").data


def _orientation(image: Image.Image) -> int:
    if image.format == _TOLD_UPRIGHT:
        return 1
    orientation = image.getexif().get(_ORIENTATION, 1)
    return orientation if orientation in range(1, 9) else 1


def _drafted(image: Image.Image, longest: int = SIZES["large"]) -> None:
    """Let a JPEG be decoded at half, a quarter or an eighth where that is large enough."""
    if image.format == "JPEG":
        image.draft("RGB", (longest, longest))


def _on_paper(image: Image.Image) -> Image.Image:
    """Return the picture without transparency, which is laid on white, and in 8 bits a channel."""
    profile = image.info.get("icc_profile")  # lost where layers are laid together
    if image.mode in ("I;16", "I;16B", "I", "F"):
        image = image.convert("F").point(lambda value: value / 257).convert("L")
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        layered = image.convert("RGBA")
        white = Image.new("RGBA", layered.size, "white")
        image = Image.alpha_composite(white, layered).convert("RGB")
    if image.mode == "P":
        image = image.convert("RGB")
    if profile:
        image.info["icc_profile"] = profile
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


def _turned(image: Image.Image, orientation: int) -> Image.Image:
    """Return a copy turned as the camera's orientation asks, with nothing of the camera on it."""
    copy = image.copy()
    copy.info.clear()  # comments and profiles would otherwise travel along
    if orientation == 1:
        return copy
    copy.getexif()[_ORIENTATION] = orientation
    turned = ImageOps.exif_transpose(copy)
    turned.info.clear()
    return turned


def _encoded(image: Image.Image, size: str, format: str) -> Derivative:
    buffer = io.BytesIO()
    image.save(buffer, format, **_SAVING[format])
    return Derivative(size, format, buffer.getvalue())
