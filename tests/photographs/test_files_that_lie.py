"""Files that are not what they say, or not what a camera makes: kept whole, or refused in words."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable

import numpy as np
import pytest
from PIL import Image, ImageCms

from catalogue.photographs import opening
from catalogue.photographs.derivatives import SIZES, PhotographError, derive, examine
from catalogue.photographs.upright import upright

RED, BLUE = (200, 30, 30), (30, 30, 200)


def saved(image: Image.Image, format: str, **options: object) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, format, **options)
    return buffer.getvalue()


def exchanged_profile() -> bytes:
    """An sRGB profile whose red and blue have changed places: their tags bear each other's name."""
    whole = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return whole.replace(b"rXYZ", b"#XYZ").replace(b"bXYZ", b"rXYZ").replace(b"#XYZ", b"bXYZ")


def halves(size: tuple[int, int] = (400, 300)) -> Image.Image:
    """Red on the left, blue on the right."""
    image = Image.new("RGB", size, RED)
    image.paste(BLUE, (size[0] // 2, 0, size[0], size[1]))
    return image


def noise(size: tuple[int, int] = (400, 300)) -> Image.Image:
    return Image.effect_noise(size, 90).convert("RGB")


def png_that_says(width: int, height: int) -> bytes:
    """A PNG whose head gives this size, and whose data holds a few bytes."""

    def chunk(name: bytes, body: bytes) -> bytes:
        check = zlib.crc32(name + body)
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", check)

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(bytes(50)))
        + chunk(b"IEND", b"")
    )


def largest(data: bytes) -> Image.Image:
    """The largest JPEG made of a file."""
    made = next(each for each in derive(data) if (each.size, each.format) == ("large", "JPEG"))
    return Image.open(io.BytesIO(made.data))


def colour(image: Image.Image, x: float, y: float) -> tuple[int, ...]:
    """The colour at a place given as shares of width and height, to the nearest 40."""
    pixel = image.convert("RGB").getpixel((int(image.width * x), int(image.height * y)))
    return tuple(round(value / 40) * 40 for value in pixel)


REFUSED = {
    "a PNG that says it is larger than its data": (
        lambda: png_that_says(4000, 3000),
        "damaged or cut short",
    ),
    "a bomb: more pixels than can be held": (lambda: png_that_says(60_000, 60_000), "too many"),
    "1 x 60,000 pixels": (lambda: saved(Image.new("L", (1, 60_000)), "PNG"), "1 x 60000"),
    "60,000 x 1 pixels": (lambda: saved(Image.new("L", (60_000, 1)), "PNG"), "60000 x 1"),
    "a JPEG cut short": (lambda: saved(noise(), "JPEG")[:9000], "damaged or cut short"),
    "a PNG cut short": (lambda: saved(noise(), "PNG")[:9000], "damaged or cut short"),
    "a WebP cut short": (lambda: saved(noise(), "WEBP")[:9000], "damaged or cut short"),
    "a TIFF cut short": (lambda: saved(noise(), "TIFF")[:9000], "damaged or cut short"),
    "a JPEG's first bytes alone": (lambda: b"\xff\xd8\xff\xe0", "not a JPEG"),
    "a GIF, which is not a photograph": (lambda: saved(halves(), "GIF"), "not a JPEG"),
    "a text": (lambda: b"Dear Hester, the quilt is done.", "not a JPEG"),
    "nothing": (lambda: b"", "not a JPEG"),
    "a page of PostScript": (lambda: b"%!PS-Adobe-3.0 EPSF-3.0\n", "not a JPEG"),
    "a file too large to keep": (lambda: bytes(opening.LARGEST_FILE + 1), "60 MB"),
}


@pytest.mark.parametrize(("make", "says"), REFUSED.values(), ids=REFUSED)
def test_it_is_refused_in_one_sentence(make: Callable[[], bytes], says: str) -> None:
    data = make()
    for work in (examine, derive):
        with pytest.raises(PhotographError, match=says) as refused:
            work(data)
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


def frames(format: str) -> bytes:
    others = [Image.new("RGB", (400, 300), "green")]
    return saved(halves(), format, save_all=True, append_images=others, duration=100)


def sixteen_bits() -> Image.Image:
    left_to_right = np.linspace(0, 65535, 400).astype(np.uint16)
    return Image.fromarray(np.tile(left_to_right, (300, 1)))


def see_through() -> Image.Image:
    image = halves().convert("RGBA")
    image.putalpha(Image.linear_gradient("L").resize(image.size))
    return image


def palette_with_a_hole() -> bytes:
    return saved(halves().quantize(4), "PNG", transparency=0)


KEPT = {
    "an animated WebP, its first frame": (lambda: frames("WEBP"), (200, 40, 40)),
    "an animated PNG, its first frame": (lambda: frames("PNG"), (200, 40, 40)),
    "a TIFF of several pages, its first": (lambda: frames("TIFF"), (200, 40, 40)),
    "a JPEG for the printer's four inks": (
        lambda: saved(halves().convert("CMYK"), "JPEG"),
        (200, 40, 40),
    ),
    "a TIFF for the printer's four inks": (
        lambda: saved(halves().convert("CMYK"), "TIFF"),
        (200, 40, 40),
    ),
    "a palette": (lambda: saved(halves().quantize(4), "PNG"), (200, 40, 40)),
    "16 bits of grey": (lambda: saved(sixteen_bits(), "PNG"), (40, 40, 40)),
    "16 bits of grey in a TIFF": (lambda: saved(sixteen_bits(), "TIFF"), (40, 40, 40)),
    "black and white, a bit a pixel": (
        lambda: saved(halves().convert("1", dither=Image.Dither.NONE), "PNG"),
        (0, 0, 0),
    ),
    "grey with what lies behind": (lambda: saved(see_through().convert("LA"), "PNG"), None),
    "what one sees through, on white": (lambda: saved(see_through(), "PNG"), None),
    "a palette with a colour left out": (palette_with_a_hole, None),
}


@pytest.mark.parametrize(("make", "left"), KEPT.values(), ids=KEPT)
def test_it_is_kept_and_shown_as_it_looks(
    make: Callable[[], bytes], left: tuple[int, ...] | None
) -> None:
    data = make()
    examined = examine(data)
    assert (examined.pixels_wide, examined.pixels_high) == (400, 300)
    shown = largest(data)
    assert (shown.mode, shown.size) == ("RGB", (400, 300))
    if left is not None:
        assert colour(shown, 0.1, 0.5) == left


def test_what_is_seen_through_lies_on_white() -> None:
    shown = largest(saved(see_through(), "PNG"))
    assert colour(shown, 0.25, 0.02) == (240, 240, 240)
    assert colour(shown, 0.25, 0.98) == (200, 40, 40)


def test_16_bits_keep_their_shades() -> None:
    row = np.asarray(largest(saved(sixteen_bits(), "PNG")).convert("L"))[150]
    assert abs(int(row[200]) - 128) < 6
    assert row[390] > 240


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_rotated_picture_stands_upright_and_says_so(orientation: int) -> None:
    """EXIF 2.3, table 6 (from memory): where row 0 and column 0 lie as one looks at it."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = saved(halves(), "JPEG", exif=exif, quality=95)
    upright = (300, 400) if orientation >= 5 else (400, 300)
    examined = examine(data)
    assert (examined.pixels_wide, examined.pixels_high) == upright
    shown = largest(data)
    assert shown.size == upright
    assert not shown.getexif()
    red = {1: (0.1, 0.5), 2: (0.9, 0.5), 3: (0.9, 0.5), 4: (0.1, 0.5)}
    red |= {5: (0.5, 0.1), 6: (0.5, 0.1), 7: (0.5, 0.9), 8: (0.5, 0.9)}
    assert colour(shown, *red[orientation]) == (200, 40, 40)


@pytest.mark.parametrize("orientation", [0, 9, 255])
def test_an_orientation_that_does_not_exist_is_passed_over(orientation: int) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    assert largest(saved(halves(), "JPEG", exif=exif)).size == (400, 300)


def test_neither_place_nor_camera_nor_remarks_travel_along() -> None:
    exif = Image.Exif()
    exif[0x010F] = "Maker of cameras"
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 0.0)})
    data = saved(noise(), "JPEG", exif=exif, comment=b"at Hester's, Mill Lane")
    for word in (b"Maker of cameras", b"Mill Lane"):
        assert word in data
        assert all(word not in made.data for made in derive(data))
    for made in derive(data):
        shown = Image.open(io.BytesIO(made.data))
        assert not shown.getexif()
        assert shown.info.keys().isdisjoint({"comment", "exif", "icc_profile", "xmp"})


def test_every_size_is_made_in_both_formats_and_nothing_is_enlarged() -> None:
    sizes = {
        (made.size, made.format): Image.open(io.BytesIO(made.data)).size
        for made in derive(saved(noise((1000, 500)), "JPEG"))
    }
    for format in ("WEBP", "JPEG"):
        assert sizes["large", format] == (1000, 500)
        assert sizes["page", format] == (800, 400)
        assert sizes["list", format] == (240, 120)
    assert len(sizes) == 2 * len(SIZES)


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "P"])
def test_a_colour_profile_counts_in_every_kind_of_picture(mode: str) -> None:
    """Of a profile with red and blue exchanged: what is written as blue is meant as red."""
    picture = Image.new("RGB", (64, 64), (30, 30, 200)).convert(mode)
    data = saved(picture, "PNG", icc_profile=exchanged_profile())
    shown = upright(data, SIZES["large"]).getpixel((32, 32))
    assert isinstance(shown, tuple)
    assert shown[0] > 150 > shown[2]


def test_a_damaged_colour_profile_does_not_lose_the_picture() -> None:
    assert colour(largest(saved(halves(), "JPEG", icc_profile=b"none")), 0.1, 0.5) == (200, 40, 40)
