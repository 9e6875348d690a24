"""A pieced border fits its centre by whole units, or the coping strips are told."""

from math import nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.measurement.borders_fit import (
    EASE,
    NARROWEST,
    BorderFitError,
    fit_border,
)

DIAGONAL_12 = 12 * sqrt(2)


def test_whole_units_go_round() -> None:
    fit = fit_border(48, 60, 6)
    assert (fit.fits, fit.across.units, fit.down.units) == (True, 8, 10)
    assert fit.across.coping == fit.down.coping == 0
    assert fit.grounds == "8 units of 6 in across and 10 down go round the centre."


def test_twelve_inch_blocks_on_point_inside_six_inch_blocks_need_coping_strips() -> None:
    """3 x 4 blocks of 12 in on point, 50.91 x 67.88, inside a border of 6 in blocks: common
    practice; 9 x 6 = 54 and 12 x 6 = 72, so (54 - 50.91) / 2 and (72 - 67.88) / 2."""
    fit = fit_border(3 * DIAGONAL_12, 4 * DIAGONAL_12, 6)
    assert (fit.fits, fit.across.units, fit.down.units) == (False, 9, 12)
    assert fit.across.coping == pytest.approx((54 - 50.9117) / 2, abs=1e-3)
    assert fit.down.coping == pytest.approx((72 - 67.8823) / 2, abs=1e-3)
    assert not fit.even
    assert "1 9/16 in left and right, 2 1/16 in at top and bottom" in fit.grounds


def test_blocks_framed_with_inch_and_a_half_strips_alternating_on_point_with_plain_squares() -> (
    None
):
    """12 in blocks framed with 1 1/2 in strips are 15 in, as are the plain squares between; 3 x 3
    on point make 63.64, so eleven 6 in units a side leave (66 - 63.64) / 2 (common practice)."""
    across = 3 * (12 + 2 * 1.5) * sqrt(2)
    fit = fit_border(across, across, 6)
    assert fit.across == fit.down
    assert fit.across.units == 11
    assert fit.across.coping == pytest.approx((66 - 63.6396) / 2, abs=1e-3)
    assert fit.even
    assert "on every side" in fit.grounds


def test_a_little_is_eased_in_rather_than_coped() -> None:
    fit = fit_border(48.2, 59.9, 6)
    assert fit.fits
    assert fit.across.eased == pytest.approx(-0.2)
    assert "easing 3/16 in a side" in fit.grounds


def test_a_strip_too_narrow_to_sew_is_traded_for_one_more_unit() -> None:
    fit = fit_border(47.4, 60, 6)
    assert fit.across.units == 9
    assert fit.across.coping == pytest.approx((54 - 47.4) / 2)


def test_strips_alike_on_all_sides_where_whole_units_allow_it() -> None:
    """46.5 and 52.5 differ by one unit, 46 and 53 by no whole number of them."""
    assert fit_border(46.5, 52.5, 6, even=True).even
    assert not fit_border(46, 53, 6, even=True).even


def test_butted_borders_run_over_the_side_borders() -> None:
    assert fit_border(48, 60, 6, corners="butted").across.units == 10
    assert not fit_border(48, 60, 6, border=4, corners="butted").fits


def test_the_unit_that_would_fit_is_told() -> None:
    fit = fit_border(50, 60, 6)
    assert fit.unit_that_fits == pytest.approx((50 / 8, 6))


@given(
    st.floats(10, 120), st.floats(10, 120), st.sampled_from([1, 1.5, 2, 3, 4, 6, 8]), st.booleans()
)
def test_units_and_strips_add_up_to_the_centre(
    width: float, length: float, unit: float, even: bool
) -> None:
    fit = fit_border(width, length, unit, even=even)
    for side, inches in ((fit.across, width), (fit.down, length)):
        assert side.coping == 0 or side.coping >= NARROWEST - EASE
        slack = 2 * EASE if even and side.coping else 1e-9
        made = side.units * unit
        assert made - 2 * side.coping - side.eased == pytest.approx(inches, abs=slack)
        assert abs(side.eased) <= EASE * side.units
    assert fit.fits == (fit.across.coping == fit.down.coping == 0)


@pytest.mark.parametrize(
    ("width", "length", "unit", "border"),
    [(0, 60, 6, None), (48, -1, 6, None), (48, 60, 0, None), (48, 60, nan, None), (48, 60, 6, -1)],
)
def test_impossible_sizes_are_refused(
    width: float, length: float, unit: float, border: float | None
) -> None:
    with pytest.raises(BorderFitError, match="in is not the"):
        fit_border(width, length, unit, border=border, corners="butted")


def test_units_too_fine_to_piece_are_refused() -> None:
    with pytest.raises(BorderFitError, match="too fine"):
        fit_border(48, 60, 1e-6)
