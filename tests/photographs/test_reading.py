"""What one photograph tells: the layout, the turned block, and what it cannot tell."""

from __future__ import annotations

import io

import numpy as np
import pytest
import simulator
from measured import layout_of, read, rightly_told
from PIL import Image
from simulated_blocks import blocks

from catalogue.photographs.homography import CornersError
from catalogue.photographs.reading import PhotographReading, read_photograph

SMALL = 800  # pixels on the longer side of the simulated photograph


def block(name: str) -> object:
    return next(each for each in blocks() if each.name == name)


def taken(seed: int, **wanted: object) -> simulator.Photograph:
    plain = {"values": "clear", "setting": "straight", "turned": False, "side": SMALL}
    return simulator.photograph(seed, **{**plain, **wanted})


LAYOUTS = {
    "straight": {"setting": "straight", "columns": 4, "rows": 5, "block": block("churn-dash")},
    "sashed between": {"setting": "between", "columns": 3, "rows": 4},
    "sashed and framed": {"setting": "framed", "columns": 3, "rows": 4},
    "on point": {"setting": "on point", "columns": 3, "rows": 4},
    "every other block plain": {"columns": 5, "rows": 4, "alternate": "plain"},
}


@pytest.mark.parametrize("wanted", LAYOUTS.values(), ids=LAYOUTS)
def test_setting_sashing_columns_and_rows_are_read(wanted):
    photograph = taken(7, **wanted)
    reading = read(photograph)
    found = (reading.setting, reading.sashing, reading.columns, reading.rows)
    assert found == layout_of(photograph.plan)
    assert 0 < reading.confidence <= 1
    assert reading.grounds


@pytest.mark.parametrize("setting", ["straight", "framed", "on point"])
def test_the_block_that_was_turned_is_told_with_its_turn(setting):
    photograph = taken(3, setting=setting, block=block("cake-stand"), turned=True)
    reading = read(photograph)
    assert rightly_told(photograph.plan, reading)


def test_the_turned_block_is_outlined_where_it_lies_in_the_picture():
    photograph = taken(3, block=block("cake-stand"), turned=True, columns=4, rows=5)
    plan, (told,) = photograph.plan, read(photograph).turned
    edge = plan.binding + sum(plan.borders)
    middle = (np.array(plan.turned) + 0.5) * plan.size + edge
    expected = simulator.carry(photograph.homography, middle[None])[0]
    assert np.mean(told.quad, axis=0) == pytest.approx(expected, abs=0.15 * SMALL / 6)


@pytest.mark.parametrize("turns", ["chequered", "by column", "by row", "pinwheel"])
def test_turns_that_are_the_design_are_a_pattern_and_not_reported(turns):
    reading = read(taken(5, turns=turns, block=block("maple-leaf"), columns=6, rows=6))
    assert not reading.turned


@pytest.mark.parametrize(("columns", "rows"), [(3, 3), (3, 4), (4, 3), (4, 4)])
def test_a_pinwheel_setting_of_few_blocks_is_not_reported_either(columns, rows):
    wanted = {"turns": "pinwheel", "setting": "framed", "block": block("cake-stand")}
    assert not read(taken(5, columns=columns, rows=rows, **wanted)).turned


def test_the_turned_block_of_one_of_two_designs_that_take_turns_is_told():
    wanted = {"alternate": "pieced", "block": block("maple-leaf"), "second": block("churn-dash")}
    photograph = taken(6, turned=True, columns=6, rows=6, **wanted)
    assert rightly_told(photograph.plan, read(photograph))


def test_a_block_that_breaks_the_order_of_turns_is_still_told():
    wanted = {"turns": "by row", "block": block("maple-leaf"), "setting": "framed"}
    photograph = taken(5, turned=True, columns=4, rows=6, **wanted)
    reading = read(photograph)
    assert rightly_told(photograph.plan, reading)
    assert any("every other row" in caution for caution in reading.cautions)


def test_nothing_is_told_of_a_quilt_whose_blocks_all_lie_alike():
    assert not read(taken(11, block=block("cake-stand"))).turned


def test_a_symmetry_that_hides_a_turn_is_named():
    cautions = read(taken(4, block=block("ohio-star"), setting="framed")).cautions
    assert any("in every position" in caution for caution in cautions)


@pytest.mark.parametrize("kind", ["crazy", "landscape"])
def test_a_quilt_without_blocks_has_no_layout(kind):
    reading = read(simulator.without_repeat(1, kind, side=SMALL))
    assert (reading.setting, reading.sashing, reading.columns, reading.rows) == (None,) * 4
    assert not reading.turned


def test_the_layout_is_read_without_the_tape():
    photograph = taken(7, **LAYOUTS["sashed between"])
    picture = Image.open(io.BytesIO(photograph.data))
    reading = read_photograph(picture, photograph.corners)
    assert (reading.columns, reading.rows) == (3, 4)


def test_one_colour_all_over_has_no_layout():
    square = ((0, 0), (300, 0), (300, 300), (0, 300))
    reading: PhotographReading = read_photograph(Image.new("RGB", (300, 300), "tan"), square)
    assert reading.setting is None


@pytest.mark.parametrize(
    "corners",
    [
        pytest.param(((0, 0), (0, 99), (99, 99), (99, 0)), id="counter-clockwise"),
        pytest.param(((0, 0), (99, 0), (99, 99)), id="three"),
        pytest.param(((500, 500), (600, 500), (600, 600), (500, 600)), id="outside the picture"),
        pytest.param(((0, 0), (99, 0), (float("nan"), 99), (0, 99)), id="not a number"),
    ],
)
def test_corners_that_are_none_are_refused_in_a_sentence(corners):
    with pytest.raises(CornersError, match=r"^The corners|^A quilt has four corners"):
        read_photograph(Image.new("RGB", (100, 100)), corners)
