"""Main colours: by share, named as in the trade, under light made neutral by something grey."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from catalogue.photographs import colours
from catalogue.photographs.colours import main_colours, read_colours

TABLE = Path(colours.__file__).parent / "colour_names.csv"
WHITE, INDIGO, TURKEY_RED = (248, 246, 241), (38, 54, 92), (165, 35, 43)


def striped(*parts: tuple[tuple[int, int, int], int]) -> Image.Image:
    """A quilt of upright stripes, each so many pixels wide."""
    image = Image.new("RGB", (sum(width for _, width in parts), 200))
    left = 0
    for shade, width in parts:
        image.paste(shade, (left, 0, left + width, 200))
        left += width
    return image


def tinted(image: Image.Image, gains: tuple[float, float, float]) -> Image.Image:
    """The same in a coloured light."""
    light = (np.asarray(image) / 255.0) ** 2.2 * gains
    return Image.fromarray((np.clip(light, 0, 1) ** (1 / 2.2) * 255).round().astype(np.uint8))


def on_a_wall(quilt: Image.Image, shade: tuple[int, int, int]) -> Image.Image:
    wall = Image.new("RGB", (quilt.width + 80, quilt.height + 80), shade)
    wall.paste(quilt, (40, 40))
    return wall


def corners_of(quilt: Image.Image) -> list[tuple[float, float]]:
    right, bottom = 40 + quilt.width, 40 + quilt.height
    return [(40, 40), (right, 40), (right, bottom), (40, bottom)]


QUILT = striped((WHITE, 100), (INDIGO, 100), (WHITE, 100), (TURKEY_RED, 100))


def test_colours_come_by_share_with_their_names() -> None:
    found = main_colours(QUILT)
    assert found[0].name == "white"
    assert {colour.name for colour in found} == {"white", "indigo", "turkey red"}
    assert found[0].share == pytest.approx(0.5, abs=0.03)
    assert sum(colour.share for colour in found) == pytest.approx(1, abs=0.03)


def test_what_hangs_behind_the_quilt_does_not_count() -> None:
    picture = on_a_wall(QUILT, (60, 140, 60))
    assert "green" in {colour.plain for colour in main_colours(picture)}
    assert "green" not in {colour.plain for colour in main_colours(picture, corners_of(QUILT))}


@pytest.mark.parametrize("light", [(1.0, 0.75, 0.5), (0.8, 0.95, 1.0), (0.7, 0.6, 0.55)])
def test_a_grey_card_takes_the_colour_out_of_the_light(light: tuple[float, float, float]) -> None:
    picture = on_a_wall(QUILT, (90, 110, 150))
    picture.paste((128, 128, 128), (2, 2, 36, 36))
    read = read_colours(tinted(picture, light), corners_of(QUILT), (18, 18))
    assert "grey card" in read.light
    assert {colour.plain for colour in read.colours} <= {"white", "blue", "red", "cream", "grey"}
    red, green, blue = bytes.fromhex(read.colours[0].hex[1:])
    assert max(red, green, blue) - min(red, green, blue) < 16


def test_a_wall_that_is_nearly_grey_stands_in_for_a_card() -> None:
    picture = tinted(on_a_wall(QUILT, (200, 200, 200)), (1.0, 0.93, 0.85))
    read = read_colours(picture, corners_of(QUILT))
    assert "wall" in read.light
    red, _, blue = bytes.fromhex(read.colours[0].hex[1:])
    assert abs(red - blue) < 12


@pytest.mark.parametrize(
    "wall", [(60, 140, 60), (190, 202, 188), (30, 30, 30)], ids=["green", "sage", "dark"]
)
def test_a_coloured_or_dark_wall_corrects_nothing(wall: tuple[int, int, int]) -> None:
    assert "nothing grey" in read_colours(on_a_wall(QUILT, wall), corners_of(QUILT)).light


def test_one_colour_is_one_colour() -> None:
    (only,) = main_colours(Image.new("RGB", (50, 50), INDIGO))
    assert (only.name, only.plain, only.hex, only.share) == ("indigo", "blue", "#26365c", 1.0)


def test_every_name_of_the_table_stands_once_with_its_source() -> None:
    rows = list(csv.DictReader(TABLE.open(encoding="utf-8")))
    assert len({row["name"] for row in rows}) == len(rows) >= 50
    for row in rows:
        assert row["source"], row
        assert len(bytes.fromhex(row["hex"].removeprefix("#"))) == 3
        assert row["plain"]


def test_every_colour_of_the_table_is_called_by_its_own_name() -> None:
    for row in csv.DictReader(TABLE.open(encoding="utf-8")):
        (found,) = main_colours(Image.new("RGB", (20, 20), row["hex"]))
        assert found.name == row["name"]
