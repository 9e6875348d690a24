"""Photographs of the sample collection printed on a card, taken again and saved small: still read.

A card carries the picture of 800 pixels. It is laid on paper whose white is not white and whose
ink is not black, taken again at 1,200 pixels and saved at JPEG quality 60. What has to be read
stands in the records.
"""

from __future__ import annotations

import csv
import io
import tomllib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFilter

from catalogue.photographs.derivatives import derive
from catalogue.photographs.reading import PhotographReading, read_photograph

HERE = Path(__file__).parents[2] / "sample_collection"
LONGEST = 1200
PAPER, INK = 0.9, 0.07  # light that comes back from them; common practice, no source

READ_RIGHT = (
    "1979.4.2",
    "1983.5.1",
    "1983.5.2",
    "1987.3.1",
    "1999.3.1",
    "2001.7",
    "2006.4",
    "2011.6",
    "bow-tie-top",
    "sunbonnet-girls",
)


def record(quilt: str) -> dict:
    return tomllib.loads((HERE / "quilts" / f"{quilt}.toml").read_text("utf-8"))


def corners(quilt: str) -> list[tuple[float, float]]:
    with (HERE / "photographs" / "corners.csv").open(encoding="utf-8", newline="") as lines:
        places = {row[0]: row[1:] for row in csv.reader(lines)}[f"{quilt}-overall.jpg"]
    return [(float(x), float(y)) for x, y in (place.split(",") for place in places)]


def printed_and_taken_again(data: bytes) -> Image.Image:
    small = next(each for each in derive(data) if (each.size, each.format) == ("page", "JPEG"))
    picture = Image.open(io.BytesIO(small.data))
    share = LONGEST / max(picture.size)
    size = round(picture.width * share), round(picture.height * share)
    picture = picture.resize(size, Image.Resampling.BICUBIC).filter(ImageFilter.GaussianBlur(0.8))
    light = (np.asarray(picture, float) / 255) ** 2.2
    pixels = (INK + (PAPER - INK) * light) ** (1 / 2.2) * 255
    buffer = io.BytesIO()
    Image.fromarray(pixels.round().astype(np.uint8)).save(buffer, "JPEG", quality=60)
    return Image.open(buffer)


def read_in_print(quilt: str) -> PhotographReading:
    data = (HERE / "photographs" / f"{quilt}-overall.jpg").read_bytes()
    with Image.open(io.BytesIO(data)) as original:
        share = LONGEST / max(original.size)
    reduced = [(x * share, y * share) for x, y in corners(quilt)]
    return read_photograph(printed_and_taken_again(data), reduced)


@pytest.mark.parametrize("quilt", READ_RIGHT)
def test_the_layout_of_the_record_is_read_from_the_print(quilt):
    known, reading = record(quilt), read_in_print(quilt)
    assert (reading.setting, reading.columns, reading.rows) == (
        known["setting_seen"],
        known["counted_columns"],
        known["counted_rows"],
    )
    assert not reading.turned


def test_the_basket_that_was_set_in_upside_down_is_found_in_the_print():
    """1986.7 is on point among squares of its own ground, whose seams do not show: read straight.

    Rows and columns come out the same, and so does the basket.
    """
    (told,) = read_in_print("1986.7").turned
    known = record("1986.7")["drawing"]["turned_block"]
    assert (told.column, told.row, told.turn) == (known["column"], known["row"], str(known["turn"]))


@pytest.mark.parametrize("quilt", ["1995.2", "1997.5", "1992.4"])
def test_a_crazy_quilt_whole_cloth_and_a_medallion_have_no_layout_in_print(quilt):
    assert read_in_print(quilt).setting is None
