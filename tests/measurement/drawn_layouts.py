"""Layouts of every plan at sizes that add up, for the tests of the drawings."""

from collections.abc import Iterator
from dataclasses import replace

from catalogue.measurement.drawing_fields import lay_out
from catalogue.measurement.layouts import (
    ALTERNATE_BLOCKS,
    Dimensions,
    Layout,
    Pieces,
    Sides,
    Size,
)
from catalogue.measurement.pieces import count_pieces
from catalogue.measurement.settings import PLANS, ROOT_3, Plan, Shape

NOTHING = Size(0, 0)


def even(width: float) -> Sides:
    """The same width on all four sides."""
    return Sides(width, width, width, width)


def plan_of(setting: str, sashing: str = "none", *details: str) -> Plan:
    """The plan of that name."""
    return next(
        plan
        for plan in PLANS
        if (plan.setting, plan.sashing, set(plan.details)) == (setting, sashing, set(details))
    )


def block_of(plan: Plan) -> Size:
    """A block of the plan's shape."""
    if plan.shape is Shape.HEXAGON:
        return Size(6, 3 * ROOT_3)
    if plan.shape is Shape.BAR:
        return Size(5, 46)
    return Size(9, 12) if plan.shape is Shape.RECTANGLE else Size(10, 10)


def layout_of(
    plan: Plan,
    columns: int,
    rows: int,
    *,
    cornerstones: bool = False,
    borders: tuple[Sides, ...] = (),
    binding: float = 0.0,
    raw_edge: float = 0.0,
    margin: Sides | None = None,
    difference: Size = NOTHING,
    alternate: bool = False,
) -> Layout:
    """A layout of the plan whose parts add up to its overall size."""
    pieces = count_pieces(plan, columns, rows, cornerstones)
    details = plan.details
    if alternate:
        whole = pieces.blocks
        pieced = columns * rows if plan.setting == "on point" else (whole + 1) // 2
        pieces = replace(pieces, blocks=pieced, alternate_blocks=whole - pieced)
        details = (ALTERNATE_BLOCKS, *details)
    sash = 2.0 if plan.sashed else 0.0
    sizes = Dimensions(
        NOTHING, block_of(plan), sash, cornerstones, borders, binding, margin, raw_edge
    )
    layout = Layout(
        plan.setting,
        plan.sashing,
        columns,
        rows,
        details,
        pieces,
        NOTHING,
        difference,
        0.9,
        None,
        "",
        sizes,
    )
    return _summed(layout)


def without_repeat() -> Layout:
    """A quilt of which no repeat is recorded."""
    layout = layout_of(plan_of("medallion"), 1, 1, borders=(even(3),), binding=0.5)
    sizes = replace(layout.dimensions, block=None)
    return replace(
        layout, setting="none", columns=None, rows=None, pieces=Pieces(0), dimensions=sizes
    )


def one_of_each() -> Iterator[Layout]:
    """Every plan with and without cornerstones, alternates, and a quilt without repeat."""
    for plan in PLANS:
        columns, rows = (1, 1) if plan.setting == "medallion" else (4, 5)
        rows = 1 if plan.setting == "bars" else rows
        margin = Sides(1, 1.5, 2, 2.5) if plan.floats else None
        for stones in (False, True) if plan.sashed else (False,):
            yield layout_of(
                plan, columns, rows, cornerstones=stones, margin=margin, borders=(even(4),)
            )
    yield layout_of(plan_of("straight"), 5, 7, alternate=True)
    yield layout_of(plan_of("on point"), 5, 7, alternate=True)
    yield without_repeat()


def _summed(layout: Layout) -> Layout:
    field, sizes = lay_out(layout), layout.dimensions
    around = 2 * (sizes.binding + sizes.raw_edge)
    overall = Size(
        field.width + around + sum(border.left + border.right for border in sizes.borders),
        field.length + around + sum(border.top + border.bottom for border in sizes.borders),
    )
    return replace(layout, predicted=overall, dimensions=replace(sizes, overall=overall))
