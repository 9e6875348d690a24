"""Distances read from photographs: beside the tape, weighed by their own error."""

from __future__ import annotations

import pytest

from catalogue.measurement.estimates import Estimate, with_photographs
from catalogue.measurement.inference import infer
from catalogue.measurement.readings import ReadingError, read_readings

TAPE = {
    "overall": {"width": ["60"], "length": ["72"]},
    "sashing": None,
    "borders": [],
    "binding": None,
}


def quilt(**more: object) -> dict[str, object]:
    return {"id": "one", **TAPE, **more}


def seen(length: str, error: float) -> dict[str, object]:
    return {"width": [{"length": length, "error": error}]}


def test_a_distance_from_a_photograph_can_tell_the_layout_where_no_block_was_measured() -> None:
    best = infer(read_readings(quilt(block=seen("12", 0.25)))).layouts[0]
    assert (best.columns, best.rows) == (5, 6)


def test_an_exact_tape_outweighs_a_vague_photograph() -> None:
    block = {"width": ["12", "12", {"length": "10", "error": 2.0}]}
    best = infer(read_readings(quilt(block=block))).layouts[0]
    assert (best.columns, best.rows) == (5, 6)


def test_both_are_weighed_by_their_variance() -> None:
    readings = read_readings(quilt(block=seen("10", 1.645)))
    joint = with_photographs(Estimate(12.0, 1.0, 1), readings.block.width)
    assert joint is not None
    assert joint.mean == pytest.approx(11)
    assert joint.variance == pytest.approx(0.5)


def test_several_distances_on_photographs_are_no_surer_than_the_surest() -> None:
    block = {"width": [{"length": "12", "error": 1.0}] * 5}
    joint = with_photographs(None, read_readings(quilt(block=block)).block.width)
    assert joint is not None
    assert joint.variance == pytest.approx((1 / 1.645) ** 2)


@pytest.mark.parametrize("error", [0, -1, "a bit", None, True, 1e9])
def test_an_error_that_is_none_is_refused(error: object) -> None:
    with pytest.raises(ReadingError, match="error should be inches"):
        read_readings(quilt(block={"width": [{"length": "12", "error": error}]}))


def test_a_distance_without_a_length_is_refused() -> None:
    with pytest.raises(ReadingError, match=r"block\.width"):
        read_readings(quilt(block={"width": [{"error": 1.0}]}))
