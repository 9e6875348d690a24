"""A scalloped edge is measured to its outermost or innermost points, and they are kept apart."""

from math import inf, nan

import pytest

from catalogue.measurement.scallops import ScallopError, overall_from_scallops


def test_the_outermost_points_lie_on_the_line_of_the_straight_edge() -> None:
    found = overall_from_scallops(outermost=90)
    assert (found.overall, found.depth, found.at_least, found.certainty) == (90, None, False, 1)
    assert "90 in runs between the outermost points" in found.grounds


def test_both_readings_give_the_depth() -> None:
    found = overall_from_scallops(outermost=90, innermost=85)
    assert (found.overall, found.depth) == (90, 2.5)


def test_the_innermost_points_and_the_depth_give_the_overall_less_surely() -> None:
    found = overall_from_scallops(innermost=85, depth=2.5)
    assert (found.overall, found.at_least) == (90, False)
    assert found.certainty < overall_from_scallops(outermost=90).certainty


def test_the_innermost_points_alone_are_a_lower_bound() -> None:
    found = overall_from_scallops(innermost=85)
    assert (found.overall, found.at_least, found.certainty) == (85, True, 0)
    assert "not known" in found.grounds


@pytest.mark.parametrize(
    ("readings", "reason"),
    [
        ({}, "Neither"),
        ({"depth": 2.0}, "Neither"),
        ({"outermost": 85.0, "innermost": 90.0}, "swapped"),
        ({"outermost": 90.0, "innermost": 85.0, "depth": 4.0}, "2.5 in deep, not 4"),
        ({"outermost": -90.0}, "not a length"),
        ({"outermost": nan}, "not a length"),
        ({"innermost": inf}, "not a length"),
    ],
)
def test_readings_that_contradict_are_refused(readings: dict[str, float], reason: str) -> None:
    with pytest.raises(ScallopError, match=reason):
        overall_from_scallops(**readings)
