"""Pictures of one block, and the draftings that fit it."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from catalogue.patterns import CLOTH, Role, design, designs, grid_of_roles
from catalogue.photographs.blocks import cut_block, median_block, rank_draftings

SIDE = 96
GRIDS = {each.slug: grid_of_roles(each.draft, 24) for each in designs() if each.draft.height == 1}


def drawn(slug: str) -> Image.Image:
    """A design in its cloth, as pixels."""
    grid = grid_of_roles(design(slug).draft, SIDE)
    shades = {role: bytes.fromhex(CLOTH[role].removeprefix("#")) for role in Role}
    return Image.fromarray(np.array([[list(shades[r]) for r in row] for row in grid], np.uint8))


def square(left: float, top: float, side: float = SIDE) -> tuple[tuple[float, float], ...]:
    return (left, top), (left + side, top), (left + side, top + side), (left, top + side)


def test_a_block_on_its_corner_is_cut_upright() -> None:
    picture = Image.new("RGB", (100, 100), "white")
    picture.paste("navy", (50, 0, 100, 100))
    upright = cut_block(picture, ((50, 0), (100, 50), (50, 100), (0, 50)), 60)
    assert upright.size == (60, 60)
    assert upright.getpixel((50, 10))[2] < 160  # its own top right lies at the picture's right
    assert upright.getpixel((10, 50)) == (255, 255, 255)


def test_the_median_of_blocks_passes_over_a_stain() -> None:
    block = drawn("ohio-star")
    quilt = Image.new("RGB", (3 * SIDE, 2 * SIDE))
    outlines = [square(x * SIDE, y * SIDE) for y in range(2) for x in range(3)]
    for x, y in ((0, 0), (1, 0), (2, 0), (0, 1), (1, 1), (2, 1)):
        quilt.paste(block, (x * SIDE, y * SIDE))
    quilt.paste("brown", (0, 0, SIDE, SIDE // 2))
    common = median_block(quilt, outlines, SIDE)
    off = np.abs(np.asarray(common, int) - np.asarray(block, int))
    assert np.median(off) < 3


def test_plain_blocks_between_do_not_wash_out_the_pattern() -> None:
    block = drawn("churn-dash")
    quilt = Image.new("RGB", (4 * SIDE, 4 * SIDE), "#f3ead7")
    outlines = [square(x * SIDE, y * SIDE) for y in range(4) for x in range(4)]
    for number in range(16):
        x, y = number % 4, number // 4
        if (x + y) % 2 == 0:
            quilt.paste(block, (x * SIDE, y * SIDE))
    off = np.abs(np.asarray(median_block(quilt, outlines, SIDE), int) - np.asarray(block, int))
    assert np.median(off) < 3


def test_a_whole_column_of_plain_blocks_in_two_does_not_either() -> None:
    block = drawn("churn-dash")
    quilt = Image.new("RGB", (8 * SIDE, 9 * SIDE), "#f3ead7")
    outlines = [square(x * SIDE, y * SIDE) for y in range(9) for x in range(8)]
    for x, y in ((x, y) for y in range(9) for x in range(1, 8, 2)):
        quilt.paste(block, (x * SIDE, y * SIDE))
    off = np.abs(np.asarray(median_block(quilt, outlines, SIDE), int) - np.asarray(block, int))
    assert np.median(off) < 3


def test_without_blocks_there_is_no_median() -> None:
    with pytest.raises(ValueError, match="no blocks"):
        median_block(Image.new("RGB", (9, 9)), [], 9)


@pytest.mark.parametrize("slug", ["churn-dash", "ohio-star", "bow-tie", "nine-patch", "shoo-fly"])
def test_a_design_fits_itself_best(slug: str) -> None:
    best = rank_draftings(drawn(slug), GRIDS)[0]
    assert best.key == slug
    assert best.score > 0.8


def test_a_design_is_found_turned_and_in_other_cloth() -> None:
    upside_down = drawn("maple-leaf").rotate(180)
    other_cloth = Image.fromarray(255 - np.asarray(upside_down))
    best = rank_draftings(other_cloth, GRIDS)[0]
    assert (best.key, best.position) in {("maple-leaf", "180"), ("maple-leaf", "mirrored, 90")}


def test_a_plain_cloth_fits_nothing() -> None:
    assert all(fit.score == 0 for fit in rank_draftings(Image.new("RGB", (90, 90), "tan"), GRIDS))


def test_no_more_are_named_than_asked_for_best_first() -> None:
    fits = rank_draftings(drawn("ohio-star"), GRIDS, most=3)
    assert len(fits) == 3
    assert [fit.score for fit in fits] == sorted((fit.score for fit in fits), reverse=True)
