"""Photographs of the sample collection printed on a card, taken again and saved small: still read.

A card carries the picture of 800 pixels. It is laid on paper whose white is not white and whose
ink is not black, taken again in uneven light at 1,200 pixels, and saved at JPEG quality 60. What
has to be read stands in the records, and no width or length is told.
"""

from __future__ import annotations

import csv
import io
import tomllib
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFilter

from catalogue.patterns import designs, grid_of_roles
from catalogue.photographs.blocks import DraftingFit, median_block, rank_draftings
from catalogue.photographs.derivatives import derive
from catalogue.photographs.reading import PhotographReading, read_photograph

pytestmark = pytest.mark.long

HERE = Path(__file__).parents[2] / "sample_collection"
LONGEST = 1200
SQUARE = [design for design in designs() if design.draft.height == 1]
PAPER, INK = 0.9, 0.07  # light that comes back from them; common practice, no source

FALLING_OFF = 0.3  # of the light, from one side of the print to the other
NOISE = 3.0  # levels of 255, the sensor's

# Settings that are no grid of blocks: nothing is to be read from them.
NO_GRID = {"strippy", "bars", "zigzag", "medallion", "hexagon", "one-patch", "none"}
# Sashing of the blocks' own ground cannot be told from wider blocks; the dark cornerstones of
# 1981.2 would tell it to an eye, and are not looked for yet.
SASHED_IN_THEIR_GROUND = {"1981.2", "bears-paw"}
# What anybody would see who was not told how it was sewn: four blocks, each with a strip from
# corner to corner, make one square on its corner.
SEEN_OTHERWISE = {"2016.5": ("on point", 4, 5)}


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
    lit = (INK + (PAPER - INK) * light) * (1 - FALLING_OFF * np.linspace(0, 1, size[0]))[:, None]
    noise = np.random.default_rng(picture.width).normal(0, NOISE, lit.shape)
    pixels = np.clip(lit ** (1 / 2.2) * 255 + noise, 0, 255)
    buffer = io.BytesIO()
    Image.fromarray(pixels.round().astype(np.uint8)).save(buffer, "JPEG", quality=60)
    return Image.open(buffer)


@cache
def read_in_print(quilt: str) -> PhotographReading:
    data = (HERE / "photographs" / f"{quilt}-overall.jpg").read_bytes()
    with Image.open(io.BytesIO(data)) as original:
        share = LONGEST / max(original.size)
    reduced = [(x * share, y * share) for x, y in corners(quilt)]
    return read_photograph(printed_and_taken_again(data), reduced)


def drafting_fits(quilt: str) -> tuple[DraftingFit, ...]:
    data = (HERE / "photographs" / f"{quilt}-overall.jpg").read_bytes()
    block = median_block(printed_and_taken_again(data), read_in_print(quilt).blocks, 360)
    return rank_draftings(block, {each.slug: grid_of_roles(each.draft, 24) for each in SQUARE})


def quilts(grid: bool) -> list[str]:
    """The quilts photographed as a whole, with a grid of blocks or without."""
    names = [file.stem.removesuffix("-overall") for file in HERE.glob("photographs/*-overall.jpg")]
    return sorted(name for name in names if (record(name)["setting_seen"] in NO_GRID) != grid)


@pytest.mark.parametrize("quilt", quilts(grid=True))
def test_setting_and_counts_of_the_record_are_read_from_the_print(quilt):
    known, reading = record(quilt), read_in_print(quilt)
    told = known["setting_seen"], known["counted_columns"], known["counted_rows"]
    assert (reading.setting, reading.columns, reading.rows) == SEEN_OTHERWISE.get(quilt, told)


@pytest.mark.parametrize(
    "quilt", sorted(set(quilts(grid=True)) - SASHED_IN_THEIR_GROUND - {*SEEN_OTHERWISE})
)
def test_sashing_of_the_record_is_read_from_the_print(quilt):
    assert (read_in_print(quilt).sashing != "none") == (record(quilt)["sashing"] == "present")


# By the blocks of the print squared up, their median against every square design. Blocks that are
# cut with sashing of their own ground fit none, and those of 2016.5 are cut as they are seen.
DRAFTED = {
    "1979.1": "log-cabin",
    "1979.4.2": "churn-dash",
    "1986.7": "cake-stand",
    "1987.3.1": "friendship-star",
    "1999.3.1": "ohio-star",
    "2003.1.1": "lemoyne-star",
    "2006.4": "rose-of-sharon",
    "2011.6": "jacobs-ladder",
    "bow-tie-top": "bow-tie",
}


@pytest.mark.parametrize("quilt", DRAFTED)
def test_the_drafting_of_the_pattern_fits_the_blocks_of_the_print_best(quilt):
    assert drafting_fits(quilt)[0].key == DRAFTED[quilt]


@pytest.mark.parametrize("quilt", ["1981.2", "2016.5"])
def test_no_drafting_is_offered_where_none_fits(quilt):
    assert drafting_fits(quilt) == ()


@pytest.mark.parametrize("quilt", quilts(grid=False))
def test_nothing_is_read_from_the_print_of_a_quilt_without_a_grid_of_blocks(quilt):
    assert read_in_print(quilt).setting is None


@pytest.mark.parametrize("quilt", quilts(grid=True))
def test_only_the_basket_that_was_set_in_upside_down_is_told_as_turned(quilt):
    known = record(quilt)["drawing"].get("turned_block")
    told = [(each.column, each.row, each.turn) for each in read_in_print(quilt).turned]
    assert told == ([(known["column"], known["row"], str(known["turn"]))] if known else [])
