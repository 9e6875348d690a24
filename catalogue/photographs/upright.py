"""A photograph as it is to be looked at: upright, in sRGB, on white paper, of a size asked for."""

from __future__ import annotations

import io
from concurrent.futures import ThreadPoolExecutor

from PIL import Image, ImageCms, ImageOps

from catalogue.photographs.opening import opened

# Orientations of the EXIF standard that lay the picture on its side.
_ON_ITS_SIDE = (5, 6, 7, 8)
_ORIENTATION = 0x0112
_PLAIN = ("RGB", "L", "CMYK")  # 8 bits a channel, and colour profiles are written for them
_TOLD_UPRIGHT = "HEIF"  # its reader has turned the picture already
_AVERAGED = 4  # times too large, from which pixels are averaged before the filter sees them
_ROUND_ABOUT = 4  # rows: more than the filter reaches


def upright(data: bytes, longest: int) -> Image.Image:
    """Return the picture as it is to be looked at, in sRGB, `longest` pixels at most on a side.

    Raises PhotographError.
    """
    with opened(data) as image:
        orientation = _orientation(image)
        drafted(image, longest)
        image.load()
        return _turned(_reduced(_on_paper(image), longest), orientation)


def _reduced(image: Image.Image, longest: int) -> Image.Image:
    """Return the picture in sRGB, its longer side no longer than `longest`.

    Upper and lower half are made at once: Pillow lets two threads have a processor each.
    """
    share = longest / max(image.size)
    if share >= 1:
        return _in_srgb(image)
    if share < 1 / _AVERAGED:
        image = image.reduce(int(1 / share / _AVERAGED * 2))
    width, height = (max(1, round(side * longest / max(image.size))) for side in image.size)
    middle = height // 2
    with ThreadPoolExecutor(2) as halves:
        upper = halves.submit(_rows, image, (width, height), 0, middle)
        lower = halves.submit(_rows, image, (width, height), middle, height)
    whole = Image.new("RGB", (width, height))
    whole.paste(upper.result(), (0, 0))
    whole.paste(lower.result(), (0, middle))
    return whole


def _rows(image: Image.Image, size: tuple[int, int], first: int, last: int) -> Image.Image:
    """Rows `first` to `last` of the picture reduced to this size, in sRGB.

    A few rows on either side are taken along, so that nothing shows where two parts meet.
    """
    width, height = size
    start, end = max(0, first - _ROUND_ABOUT), min(height, last + _ROUND_ABOUT)
    step = image.height / height
    box = (0, start * step, image.width, end * step)
    part = image.resize((width, end - start), Image.Resampling.HAMMING, box)
    return _in_srgb(part.crop((0, first - start, width, last - start)))


def lies_on_its_side(image: Image.Image) -> bool:
    """Whether width and height change places when the picture is put upright."""
    return _orientation(image) in _ON_ITS_SIDE


def _orientation(image: Image.Image) -> int:
    if image.format == _TOLD_UPRIGHT:
        return 1
    orientation = image.getexif().get(_ORIENTATION, 1)
    return orientation if orientation in range(1, 9) else 1


def drafted(image: Image.Image, longest: int) -> None:
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
    if image.mode not in _PLAIN:
        image = image.convert("RGB")
    if profile:
        image.info["icc_profile"] = profile
    return image


def _in_srgb(image: Image.Image) -> Image.Image:
    """Return the picture in sRGB, converted by its own colour profile where it carries one."""
    profile = image.info.get("icc_profile")
    if profile:
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
