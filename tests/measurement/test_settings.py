"""Settings measure and count as the trade's own figures say."""

import csv
from math import sqrt
from pathlib import Path

import pytest

from catalogue.measurement.layouts import (
    CENTRE_ON_POINT,
    COLUMNS_ON_POINT,
    CORNERSTONE_CENTRED,
    DETAILS,
    FLAT_SIDE_UP,
    FRAMED_BLOCKS,
    OUTSIDE_STRIPS,
    POINTS_UP,
    Pieces,
)
from catalogue.measurement.pieces import count_pieces
from catalogue.measurement.readings import SETTINGS
from catalogue.measurement.settings import PLANS, Plan

WORKED = {
    row["id"]: row
    for row in csv.DictReader(
        (Path(__file__).parent.parent / "published" / "worked_examples.csv").open(encoding="utf-8")
    )
}


def plan(setting: str, sashing: str = "none", *details: str) -> Plan:
    """The one plan of that name."""
    (found,) = [
        p for p in PLANS if (p.setting, p.sashing, p.details) == (setting, sashing, details)
    ]
    return found


def size(plan: Plan, columns: int, rows: int, block: float, sash: float = 0.0) -> tuple[float, ...]:
    """Width and length of the blocks and sashing."""
    return (
        plan.width.blocks(columns) * block + plan.width.sashes(columns) * sash,
        plan.length.blocks(rows) * block + plan.length.sashes(rows) * sash,
    )


OWN_FRAMES = plan("straight", "framed", FRAMED_BLOCKS)
CENTRED = plan("on point", "between", CORNERSTONE_CENTRED)
ON_POINT_STRIPPY = plan("strippy", "framed", COLUMNS_ON_POINT, OUTSIDE_STRIPS)
POINTS = plan("hexagon", "none", POINTS_UP)
FLAT = plan("hexagon", "none", FLAT_SIDE_UP)


@pytest.mark.parametrize(
    ("made", "width", "length", "source"),
    [
        (size(plan("straight"), 8, 10, 6), 48, 60, "W009"),
        (size(plan("straight", "between"), 12, 14, 6, 1), 83, 97, "W018 less its binding"),
        (size(plan("straight", "framed"), 8, 10, 6, 2), 66, 82, "published: 66 x 82 in"),
        (size(plan("straight", "framed"), 3, 4, 2, 0.5), 8, 10.5, "W051 less its border"),
        (size(OWN_FRAMES, 3, 4, 10, 1), 36, 48, "computed: blocks of 12 in with their frames"),
        (size(plan("on point"), 9, 10, 6), 76.37, 84.85, "W006 less 1/2 in"),
        (size(plan("on point", "between"), 4, 4, 12, 2), 76.37, 76.37, "W069 less its binding"),
        (size(plan("on point", "framed"), 4, 5, 7, 2), 50.91, 63.64, "computed: pitch 9 x 1.41421"),
        (size(CENTRED, 4, 5, 4.364, 2), 36, 45, "published: 4 x 5 pitches of 9 in"),
        (size(ON_POINT_STRIPPY, 5, 10, 6, 5), 72.43, 84.85, "W088"),
        (size(plan("zigzag"), 7, 9, 6), 59.40, 76.37, "W087"),
        (size(plan("medallion", "none", CENTRE_ON_POINT), 1, 1, 16), 22.63, 22.63, "W035"),
        (size(POINTS, 40, 56, 2), 69.28, 84.5, "W089: side 1 in"),
        (size(FLAT, 56, 40, 2), 84.5, 69.28, "W089 turned on its side"),
    ],
)
def test_sizes_of_published_and_computed_settings(
    made: tuple[float, ...], width: float, length: float, source: str
) -> None:
    assert made == pytest.approx((width, length), abs=0.006), source


@pytest.mark.parametrize(
    ("counted", "pieces", "source"),
    [
        (
            count_pieces(plan("straight", "framed"), 8, 10, True),
            Pieces(80, sash_strips=178, cornerstones=99),
            "published: 178 sash pieces, 99 cornerstones",
        ),
        (
            count_pieces(plan("straight", "between"), 5, 6, True),
            Pieces(30, sash_strips=49, cornerstones=20),
            "the contract's own example",
        ),
        (
            count_pieces(plan("straight", "framed"), 3, 3, True),
            Pieces(9, sash_strips=24, cornerstones=16),
            "W001",
        ),
        (
            count_pieces(plan("straight", "framed"), 3, 4, True),
            Pieces(12, sash_strips=31, cornerstones=20),
            "W051",
        ),
        (
            count_pieces(plan("straight", "between"), 4, 4, False),
            Pieces(16, sash_strips=15),
            "computed: 12 short strips, 3 long ones",
        ),
        (
            count_pieces(plan("straight", "framed"), 2, 2, None),
            Pieces(4, sash_strips=7),
            "computed: 2 short strips, 3 long ones, 2 at the sides",
        ),
        (count_pieces(plan("on point"), 9, 10, None), Pieces(162, 0, 34, 4), "W006"),
        (count_pieces(plan("on point"), 4, 5, None), Pieces(32, 0, 14, 4), "W045"),
        (
            count_pieces(plan("on point", "between"), 2, 2, True),
            Pieces(5, 0, 4, 4, 0, 4, 4),
            "computed: one block inside, a strip to each of four",
        ),
        (
            count_pieces(plan("on point", "framed"), 2, 2, True),
            Pieces(5, 0, 4, 4, 0, 16, 4),
            "computed: five blocks of four sides, four of them shared",
        ),
        (
            count_pieces(CENTRED, 4, 5, True),
            Pieces(31, half_blocks=18, sash_strips=80, cornerstones=32),
            "published: 31 setting squares, 18 half-blocks, 32 cornerstones",
        ),
        (
            count_pieces(ON_POINT_STRIPPY, 5, 10, None),
            Pieces(50, 0, 90, 20, 0, 6),
            "W088: 50 blocks, 6 strips",
        ),
        (count_pieces(plan("bars"), 9, 1, None), Pieces(9), "W037"),
        (
            count_pieces(plan("zigzag"), 7, 9, None),
            Pieces(60, 0, 118, 16, 6),
            "W087: columns of 9, and of 8 with two half blocks",
        ),
        (count_pieces(POINTS, 14, 19, None), Pieces(257), "W085"),
        (count_pieces(POINTS, 40, 56, None), Pieces(2212), "W089"),
        (count_pieces(FLAT, 19, 14, None), Pieces(257), "W085 turned on its side"),
        (count_pieces(plan("one-patch"), 49, 49, None), Pieces(2401), "W005"),
    ],
)
def test_pieces_of_published_and_computed_settings(
    counted: Pieces, pieces: Pieces, source: str
) -> None:
    assert counted == pieces, source


def test_setting_triangles_and_blocks_on_point_cover_the_field() -> None:
    """Blocks, side triangles (half a block each) and corners (a quarter) fill c x r diagonals."""
    for columns, rows in ((2, 2), (3, 5), (9, 10)):
        pieces = count_pieces(plan("on point"), columns, rows, None)
        area = pieces.blocks + pieces.side_triangles / 2 + pieces.corner_triangles / 4
        assert area == pytest.approx(2 * columns * rows)


def test_zigzag_pieces_cover_the_field() -> None:
    for columns, rows in ((3, 4), (4, 7), (7, 9)):
        pieces = count_pieces(plan("zigzag"), columns, rows, None)
        area = pieces.blocks + pieces.half_blocks / 2
        area += pieces.side_triangles / 2 + pieces.corner_triangles / 4
        assert area == pytest.approx(2 * columns * rows)


def test_five_on_point_are_seven_straight_to_one_percent() -> None:
    turned, straight = size(plan("on point"), 5, 5, 10)[0], size(plan("straight"), 7, 7, 10)[0]
    assert turned / straight == pytest.approx(5 * sqrt(2) / 7)
    assert abs(turned / straight - 1) < 0.0102


def test_plans_cover_every_setting_that_repeats_and_use_known_details() -> None:
    assert {p.setting for p in PLANS} == set(SETTINGS) - {"none"}
    assert {detail for p in PLANS for detail in p.details} <= set(DETAILS)
