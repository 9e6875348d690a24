"""The pieces in a drawing are as many as the contract counts, and tile the field they lie in."""

from collections.abc import Iterator, Sequence
from dataclasses import fields

import pytest
from drawn_layouts import layout_of, one_of_each, plan_of, without_repeat

from catalogue.measurement.drawing_fields import lay_out
from catalogue.measurement.drawing_pieces import Point
from catalogue.measurement.drawing_quilt import quilt_of
from catalogue.measurement.inference import infer
from catalogue.measurement.layouts import (
    CENTRE_ON_POINT,
    COLUMNS_ON_POINT,
    CORNERSTONE_CENTRED,
    FLAT_SIDE_UP,
    FRAMED_BLOCKS,
    OUTSIDE_STRIPS,
    POINTS_UP,
    Layout,
    Pieces,
)
from catalogue.measurement.readings import read_readings
from catalogue.measurement.settings import PLANS, Plan, Shape

EVERY_LAYOUT = list(one_of_each())


def _name(layout: Layout) -> str:
    stones = "stones" if layout.dimensions.cornerstones else ""
    return " ".join((layout.setting, layout.sashing, *layout.details, stones)).strip()


@pytest.mark.parametrize("layout", EVERY_LAYOUT, ids=_name)
def test_pieces_drawn_are_the_pieces_counted(layout: Layout) -> None:
    field = lay_out(layout)
    drawn = {f.name: field.count(f.name) for f in fields(Pieces)}  # type: ignore[arg-type]
    assert drawn == {f.name: getattr(layout.pieces, f.name) for f in fields(Pieces)}


@pytest.mark.parametrize(
    ("setting", "sashing", "details", "columns", "rows", "pieces", "source"),
    [
        (
            "straight",
            "framed",
            (),
            8,
            10,
            {"blocks": 80, "sash_strips": 178, "cornerstones": 99},
            "8 x 10 of 6 in blocks with 2 in sash, published pattern",
        ),
        (
            "on point",
            "none",
            (),
            9,
            10,
            {"blocks": 162, "side_triangles": 34, "corner_triangles": 4},
            "'Summer Salsa', allpeoplequilt.com",
        ),
        (
            "on point",
            "between",
            (CORNERSTONE_CENTRED,),
            4,
            5,
            {"blocks": 31, "half_blocks": 18, "cornerstones": 32},
            "4 x 5 pitches of 9 in, published pattern",
        ),
        (
            "hexagon",
            "none",
            (POINTS_UP,),
            14,
            19,
            {"blocks": 257},
            "10 rows of 14 and 9 of 13, dendaria.home.blog",
        ),
        (
            "straight",
            "between",
            (),
            5,
            6,
            {"blocks": 30, "sash_strips": 49, "cornerstones": 20},
            "computed: 4 x 6 + 5 x 5 strips, 4 x 5 cornerstones",
        ),
        ("zigzag", "none", (), 7, 9, {"blocks": 60, "half_blocks": 6}, "computed: 4 x 9 + 3 x 8"),
    ],
)
def test_published_counts_are_drawn(
    setting: str,
    sashing: str,
    details: tuple[str, ...],
    columns: int,
    rows: int,
    pieces: dict[str, int],
    source: str,
) -> None:
    plan = plan_of(setting, sashing, *details)
    field = lay_out(layout_of(plan, columns, rows, cornerstones=True))
    drawn = {kind: field.count(kind) for kind in pieces}  # type: ignore[arg-type]
    assert drawn == pieces, source


def _grown(plan: Plan) -> Iterator[tuple[int, int]]:
    if plan.setting == "medallion":
        yield 1, 1
    elif plan.setting == "bars":
        yield from ((3, 1), (9, 1))
    else:
        yield from ((2, 2), (3, 5), (6, 4))


@pytest.mark.parametrize("plan", PLANS, ids=lambda p: " ".join((p.setting, p.sashing, *p.details)))
def test_the_field_is_as_large_as_the_setting_measures(plan: Plan) -> None:
    for columns, rows in _grown(plan):
        layout = layout_of(plan, columns, rows)
        field, block = lay_out(layout), layout.dimensions.block
        assert block is not None
        sash = layout.dimensions.sashing
        side = block.width if plan.shape is Shape.HEXAGON else block.length
        width = plan.width.blocks(columns) * block.width + plan.width.sashes(columns) * sash
        length = plan.length.blocks(rows) * side + plan.length.sashes(rows) * sash
        assert (field.width, field.length) == pytest.approx((width, length))


@pytest.mark.parametrize("layout", EVERY_LAYOUT, ids=_name)
def test_pieces_lie_within_the_field(layout: Layout) -> None:
    field = lay_out(layout)
    running = not layout.dimensions.cornerstones and layout.setting == "on point"
    slack = layout.dimensions.sashing if running else 1e-9  # strips that run out are cut off
    for array in field.arrays:
        for x, y in _all_corners(array.shape, array.across, array.down, array.step):
            assert -slack <= x <= field.width + slack
            assert -slack <= y <= field.length + slack


def _tiles(layout: Layout) -> bool:
    """Whether the pieces cover the field once: hexagons leave its edge open, a centre on point its
    corners, and sashing that ends between blocks on point lies over the tips of triangles."""
    if layout.setting in ("hexagon", "none") or CENTRE_ON_POINT in layout.details:
        return False
    over_tips = layout.setting == "on point" and layout.sashing == "between"
    return not over_tips or CORNERSTONE_CENTRED in layout.details


@pytest.mark.parametrize("layout", [one for one in EVERY_LAYOUT if _tiles(one)], ids=_name)
def test_pieces_tile_the_field(layout: Layout) -> None:
    """Strips that run through cover half of each joint they meet the edge at and reach as far
    beyond it, so that the sum holds for them too."""
    field = lay_out(layout)
    covered = sum(
        abs(_area(array.shape)) * array.count
        for array in field.arrays
        if array.kind != "cut_strips"
    )
    assert covered == pytest.approx(field.width * field.length)


RECORDS = [
    {"overall": {"width": ["92"], "length": ["90 1/2"]}, "block": {"width": ["12"]}},
    {
        "overall": {"width": ["66 1/4"], "length": ["82"]},
        "block": {"width": ["6"]},
        "sashing": {"width": ["2"], "cornerstones": True},
        "borders": [],
    },
    {
        "overall": {"width": ["62 1/2"], "length": ["79"]},
        "block": {"width": ["10"]},
        "setting": "on point",
        "borders": [{"width": ["6"]}, {"width": ["4"], "sides": ["top", "bottom"]}],
        "binding": {"width": ["3/8"]},
    },
    {
        "overall": {"width": ["72 1/2"], "length": ["85"]},
        "block": {"width": ["6"]},
        "setting": "strippy",
    },
    {"overall": {"width": ["74"], "length": ["87"]}, "block": {"width": ["6"], "length": ["5.2"]}},
]


@pytest.mark.parametrize("record", RECORDS, ids=lambda r: "x".join(r["overall"]["width"]))
def test_what_the_inference_proposes_fills_the_space_inside_its_borders(
    record: dict[str, object],
) -> None:
    proposed = infer(read_readings(record)).layouts
    assert proposed
    for layout in proposed:
        quilt, inside = quilt_of(layout), quilt_of(layout).frames[-1]
        assert (inside.width, inside.length) == pytest.approx(
            (quilt.field.width, quilt.field.length), abs=1e-6
        )
        drawn = {f.name: quilt.field.count(f.name) for f in fields(Pieces)}  # type: ignore[arg-type]
        assert drawn == {f.name: getattr(layout.pieces, f.name) for f in fields(Pieces)}


def test_a_strippy_with_outside_strips_begins_and_ends_with_one() -> None:
    for details in ((OUTSIDE_STRIPS,), (COLUMNS_ON_POINT, OUTSIDE_STRIPS)):
        field = lay_out(layout_of(plan_of("strippy", "framed", *details), 3, 4))
        (strips,) = (array for array in field.arrays if array.kind == "sash_strips")
        assert min(x for x, _ in strips.shape) == 0
        end = max(x for x, _ in strips.shape) + (strips.across - 1) * strips.step[0]
        assert end == pytest.approx(field.width)


def test_framed_blocks_meet_with_two_strips() -> None:
    field = lay_out(layout_of(plan_of("straight", "framed", FRAMED_BLOCKS), 2, 1))
    upright = [a for a in field.arrays if a.kind == "sash_strips" and _is_upright(a.shape)]
    left_edges = sorted(
        min(x for x, _ in a.shape) + n * a.step[0] for a in upright for n in range(a.across)
    )
    assert left_edges == pytest.approx([0, 12, 14, 26])


def test_flat_sided_hexagons_stand_in_upright_columns() -> None:
    field = lay_out(layout_of(plan_of("hexagon", "none", FLAT_SIDE_UP), 6, 5))
    whole, dropped = field.arrays
    assert (whole.across, whole.down, dropped.across, dropped.down) == (3, 5, 3, 4)


def test_a_quilt_without_repeat_has_no_pieces() -> None:
    field = lay_out(without_repeat())
    assert (field.width, field.length, field.arrays) == (0, 0, ())


def _all_corners(
    shape: Sequence[Point], across: int, down: int, step: Point
) -> Iterator[tuple[float, float]]:
    for x, y in shape:
        for column in (0, across - 1):
            for row in (0, down - 1):
                yield x + column * step[0], y + row * step[1]


def _area(shape: Sequence[Point]) -> float:
    following = (*shape[1:], shape[0])
    pairs = zip(shape, following, strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) / 2


def _is_upright(shape: Sequence[Point]) -> bool:
    xs, ys = [x for x, _ in shape], [y for _, y in shape]
    return max(ys) - min(ys) > max(xs) - min(xs)
