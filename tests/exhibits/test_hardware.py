"""Lengths to cut and heights to mark for installers."""

from fractions import Fraction

import pytest
from rooms import HALL, QUILTS

from catalogue.exhibits.hanging import plan_hanging
from catalogue.exhibits.hardware import hardware
from catalogue.exhibits.walls import QuiltToHang, Wall

LINES = hardware(plan_hanging(HALL, QUILTS))
CENTIMETRE = Fraction(50, 127)


def test_there_is_a_line_for_every_quilt_in_walking_order():
    assert [(line.number, line.title) for line in LINES] == [
        (1, "Ocean Waves"),
        (2, "Baskets"),
        (3, "Nine Patch"),
        (4, "Crib quilt"),
    ]


@pytest.mark.parametrize("line", LINES, ids=lambda line: line.title)
def test_a_hook_and_loop_strip_is_2_cm_shorter_and_its_sleeve_half_a_centimetre_wider_all_round(
    line,
):
    """Canadian Conservation Institute, CCI Notes 13/4."""
    width = line.right_edge - line.left_edge
    assert width - line.strip == 2 * CENTIMETRE
    assert line.strip_sleeve - line.strip == CENTIMETRE  # half at either end


@pytest.mark.parametrize("line", LINES, ids=lambda line: line.title)
def test_a_rod_stays_hidden_behind_its_quilt(line):
    width = line.right_edge - line.left_edge
    assert line.sleeve < line.rod < width


def test_only_very_wide_quilts_have_their_sleeve_in_two_parts():
    wide = QuiltToHang("w", "Log Cabin", 92, 90), QuiltToHang("n", "Stars", 90, 90)
    lines = hardware(plan_hanging((Wall("wall", 400, 120),), wide))
    assert [line.split_sleeve for line in lines] == [True, False]
    assert "in two parts with a support in the middle" in lines[0].says()[2]


def test_the_line_is_said_in_heights_and_distances_and_in_either_unit():
    assert LINES[0].says() == (
        "Upper edge 100 in above the floor, lower edge 16 in.",
        "From the left end of the wall 36 in to 114 in.",
        "With a rod: sleeve 76 in long and 4 in deep, rod 77 in.",
        "With hook and loop: strip 77¼ in long on a cotton sleeve of 77⅝ in.",
    )
    assert LINES[0].says("cm")[3] == (
        "With hook and loop: strip 196.1 cm long on a cotton sleeve of 197.1 cm."
    )
