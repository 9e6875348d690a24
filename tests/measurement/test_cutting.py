"""Cut sizes agree with published charts, each under its own rounding, and undo exactly."""

import csv
from fractions import Fraction
from math import isclose, nan, sqrt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.measurement.cutting import (
    EXACT,
    ROUNDINGS,
    STAR_RATIO,
    TRADE_EIGHTH,
    UP_TO_EIGHTH,
    CuttingError,
    Piece,
    cut_size,
    eight_point_star,
    finished_size,
    geese_four_at_a_time,
    trimmed_pair,
)

PUBLISHED = Path(__file__).parent.parent / "published" / "setting_triangles.csv"
with PUBLISHED.open(encoding="utf-8", newline="") as lines:
    CHARTS = list(csv.DictReader(lines))


def _inches(written: str) -> float:
    return float(sum(Fraction(part) for part in written.split()))


@pytest.mark.parametrize("row", CHARTS, ids=lambda r: f"{r['finished_block_in']} {r['piece']}")
def test_published_setting_triangles_under_the_rounding_of_their_chart(
    row: dict[str, str],
) -> None:
    block, published = float(row["finished_block_in"]), _inches(row["published_cut_in"])
    cut = cut_size(row["piece"], block, rounding=ROUNDINGS[row["rounding"]])  # type: ignore[arg-type]
    disagreement = float(row["published_minus_rounded_in"] or 0)
    assert published - cut.size == pytest.approx(disagreement, abs=1e-9)
    assert published - cut.exact == pytest.approx(
        float(row["published_minus_exact_in"]), abs=0.0006
    )


def test_charts_that_round_honestly_stay_within_a_quarter_of_the_exact_size() -> None:
    honest = [row for row in CHARTS if not row["published_minus_rounded_in"]]
    over = [float(row["published_minus_exact_in"]) for row in honest]
    assert min(over) > -0.05
    assert max(over) < 0.27
    assert len(CHARTS) - len(honest) == 8  # one chart, whose misprints reach 10 in


@pytest.mark.parametrize(
    ("piece", "finished", "size", "makes", "source"),
    [
        ("square", 3, 3.5, 1, "common practice: 12 in block of sixteen patches"),
        ("square", 1.5, 2, 1, "common practice: 6 in block of sixteen patches"),
        ("square", 12, 12.5, 1, "common practice: raw block"),
        ("square", 6, 6.5, 1, "common practice: raw block"),
        ("half-square triangle", 3, 3.875, 2, "finished + 7/8, published charts"),
        ("quarter-square triangle", 4, 5.25, 4, "finished + 1 1/4, published charts"),
        ("side triangle", 6, 9.75, 4, "'Summer Salsa', allpeoplequilt.com"),
        ("corner triangle", 6, 5.125, 2, "'Summer Salsa', allpeoplequilt.com"),
    ],
)
def test_common_cut_sizes(
    piece: Piece, finished: float, size: float, makes: int, source: str
) -> None:
    cut = cut_size(piece, finished)
    assert (cut.size, cut.makes) == (size, makes), source


@pytest.mark.parametrize(
    ("width", "height", "large", "small"), [(4, 2, 5.25, 2.875), (6, 3, 7.25, 3.875)]
)
def test_four_geese_come_from_one_large_and_four_small_squares(
    width: float, height: float, large: float, small: float
) -> None:
    """Sizes as published in flying-geese charts."""
    goose, sky = geese_four_at_a_time(width, height)
    assert (goose.size, sky.size) == (large, small)


def test_four_inch_squares_sewn_in_pairs_trim_to_three_and_a_half() -> None:
    assert trimmed_pair(3) == (4, 3.5)


def test_a_star_block_is_its_diamond_side_times_3_41() -> None:
    star = eight_point_star(12)
    assert round(STAR_RATIO, 2) == 3.41
    assert pytest.approx(star.diamond_side * (2 + sqrt(2))) == 12
    assert star.diamonds.exact == pytest.approx(star.diamond_side / sqrt(2) + 0.5)
    assert star.corners.exact == pytest.approx(star.diamond_side + 0.5)
    # along one side of the block: corner square, long side of an edge triangle, corner square
    assert 2 * star.corners.finished + star.edges.finished == pytest.approx(12)


@pytest.mark.parametrize("block", [6, 9.5, 12])
@pytest.mark.parametrize("margin", [0, 0.5, 1, 2.25])
def test_floated_triangles_stand_the_margin_outside_the_points(block: float, margin: float) -> None:
    side = finished_size("quarter-square triangle", cut_size_exact("side triangle", block, margin))
    # a right-angled triangle stands half as high as its long side
    assert side / 2 - block * sqrt(2) / 2 == pytest.approx(margin)
    leg = finished_size("half-square triangle", cut_size_exact("corner triangle", block, margin))
    # the block's far side lies half its own length from the corner it would have without float
    height = leg / sqrt(2)
    assert (height - block / 2) / sqrt(2) == pytest.approx(margin)


def cut_size_exact(piece: Piece, finished: float, margin: float) -> float:
    """The cut size under no rounding."""
    return cut_size(piece, finished, margin=margin, rounding=EXACT).size


def test_taking_the_root_as_1_414_changes_one_chart_size_by_an_eighth() -> None:
    """16 in blocks: 23.874 rounds up to 23 7/8, the exact 23.877 to 24."""
    assert cut_size("side triangle", 16, rounding=TRADE_EIGHTH).size == 23.875
    assert cut_size("side triangle", 16, rounding=UP_TO_EIGHTH).size == 24


@given(
    st.sampled_from(list(Piece.__args__)),  # type: ignore[attr-defined]
    st.floats(0.25, 40),
    st.sampled_from([0.125, 0.25, 0.375, 0.5]),
    st.sampled_from([0, 0.5, 1.25]),
)
def test_finished_size_undoes_cut_size(
    piece: Piece, finished: float, seam: float, margin: float
) -> None:
    margin = margin if piece in ("side triangle", "corner triangle") else 0
    exact = cut_size(piece, finished, seam=seam, margin=margin, rounding=EXACT).size
    assert isclose(finished_size(piece, exact, seam=seam, margin=margin), finished)
    rounded = cut_size(piece, finished, seam=seam, margin=margin)
    assert rounded.size >= rounded.exact - 1e-9
    assert finished_size(piece, rounded.size, seam=seam, margin=margin) >= finished - 1e-9


@pytest.mark.parametrize(
    ("piece", "finished", "options", "reason"),
    [
        ("square", 0, {}, "cannot finish"),
        ("square", -1, {}, "cannot finish"),
        ("square", nan, {}, "cannot finish"),
        ("square", 3, {"seam": -0.25}, "seam"),
        ("side triangle", 6, {"margin": -1}, "float"),
        ("square", 3, {"margin": 1}, "does not float"),
    ],
)
def test_impossible_pieces_are_refused(
    piece: Piece, finished: float, options: dict[str, float], reason: str
) -> None:
    with pytest.raises(CuttingError, match=reason):
        cut_size(piece, finished, **options)  # type: ignore[arg-type]


def test_a_piece_smaller_than_its_seams_finishes_at_nothing() -> None:
    with pytest.raises(CuttingError, match="leaves nothing"):
        finished_size("half-square triangle", 0.75)
    with pytest.raises(CuttingError, match="2 to 1"):
        geese_four_at_a_time(4, 3)
    with pytest.raises(CuttingError, match="star"):
        eight_point_star(0)
