"""HEIC pictures: read where pi-heif is installed, refused with the way out where it is not."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from catalogue.photographs import opening
from catalogue.photographs.derivatives import PhotographError, derive, examine

# A drawing of our own, its left half red, written by libheif's x265 encoder. Orientation 6 lays its
# 320 x 240 pixels on their side, and it tells of a camera and of a place.
ON_ITS_SIDE = Path(__file__).parent / "files" / "on-its-side.heic"
RED, GROUND = (200, 40, 40), (230, 224, 205)
NAMED_ONLY = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(200)


@pytest.fixture(autouse=True)
def formats_asked_anew() -> Iterator[None]:
    opening.formats.cache_clear()
    yield
    opening.formats.cache_clear()


def test_it_is_read_upright_and_without_place_or_camera() -> None:
    data = ON_ITS_SIDE.read_bytes()
    examined = examine(data)
    assert (examined.format, examined.suffix) == ("HEIF", "heic")
    assert (examined.pixels_wide, examined.pixels_high) == (240, 320)
    assert b"Maker of cameras" in data
    for made in derive(data):
        shown = Image.open(io.BytesIO(made.data))
        assert shown.width / shown.height == 0.75
        assert not shown.getexif()
        assert b"Maker of cameras" not in made.data
        for share, meant in ((0.1, RED), (0.9, GROUND)):
            seen = shown.convert("RGB").getpixel((shown.width // 2, int(shown.height * share)))
            assert np.abs(np.subtract(seen, meant)).max() < 12


@pytest.mark.parametrize(
    "data", [NAMED_ONLY, ON_ITS_SIDE.read_bytes()[:-200]], ids=["only its name", "no end"]
)
def test_it_is_refused_where_it_is_cut_short(data: bytes) -> None:
    with pytest.raises(PhotographError, match=r"damaged or cut short|not a JPEG"):
        derive(data)


def test_without_its_reader_it_is_refused_with_the_way_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(PhotographError, match="pi-heif"):
        examine(ON_ITS_SIDE.read_bytes())
