"""The accepted layout adjusts all readings together, by least squares, and they then add up."""

from random import Random
from typing import Any

import numpy as np
import pytest
from simulate import FAMILIES, draw, read

from catalogue.measurement.inference import infer
from catalogue.measurement.layouts import Dimensions
from catalogue.measurement.readings import read_readings
from catalogue.measurement.reconciliation import reconcile

RECORD: dict[str, Any] = {
    "overall": {"width": ["92 1/2", "92"], "length": ["77 1/2"]},
    "block": {"width": ["12", "12 1/4"], "length": ["12"]},
    "sashing": {"width": ["2 1/2"]},
    "borders": [{"width": ["11"]}],
    "binding": None,
    "setting": "straight",
}


def test_every_reading_stands_beside_its_adjusted_value_and_residual() -> None:
    readings = read_readings(RECORD)
    rows = reconcile(readings, infer(readings).layouts[0])
    assert [row.path for row in rows] == [
        "overall.width.0",
        "overall.width.1",
        "overall.length.0",
        "block.width.0",
        "block.width.1",
        "block.length.0",
        "sashing.width.0",
        "borders.0.width.0",
    ]
    for row in rows:
        assert row.residual == pytest.approx(row.reading - row.adjusted)
    adjusted = {row.path.rpartition(".")[0]: row.adjusted for row in rows}
    block, sash, border = (
        adjusted[path] for path in ("block.width", "sashing.width", "borders.0.width")
    )
    assert adjusted["block.length"] == pytest.approx(block)
    assert adjusted["overall.width"] == pytest.approx(5 * block + 4 * sash + 2 * border)
    assert adjusted["overall.length"] == pytest.approx(4 * block + 3 * sash + 2 * border)


def test_the_adjustment_is_the_least_squares_solution() -> None:
    """Against a general solver over the stacked, weighted equations of the same record."""
    readings = read_readings(RECORD)
    sizes = infer(readings).layouts[0].dimensions
    assert sizes.block is not None
    tape = 0.25**2 / 12
    deviations = {"overall": 0.3, "block": 0.1, "sash": 0.1, "border": 0.1}
    several = {
        "overall.width": ([92.5, 92.0], "overall"),
        "overall.length": ([77.5], "overall"),
        "block.width": ([12.0, 12.25], "block"),
        "block.length": ([12.0], "block"),
        "sash": ([2.5], "sash"),
        "border": ([11.0], "border"),
    }
    columns = {
        "overall.width": (5, 4, 2),
        "overall.length": (4, 3, 2),
        "block.width": (1, 0, 0),
        "block.length": (1, 0, 0),
        "sash": (0, 1, 0),
        "border": (0, 0, 1),
    }
    left, right = [], []
    for name, (values, kind) in several.items():
        mean = sum(values) / len(values)
        spread = sum((value - mean) ** 2 for value in values)
        one = (10 * (deviations[kind] ** 2 + tape) + spread) / (10 + len(values) - 1)
        weight = (len(values) / one) ** 0.5
        left.append([weight * times for times in columns[name]])
        right.append(weight * mean)
    solved = np.linalg.lstsq(np.array(left), np.array(right), rcond=None)[0]
    found = (sizes.block.width, sizes.sashing, sizes.borders[0].left)
    assert found == pytest.approx(tuple(solved), abs=1e-6)


def _sum_of_parts(sizes: Dimensions, inner: tuple[float, float]) -> tuple[float, float]:
    width, length = inner
    for sides in (*sizes.borders, *([sizes.float_margin] if sizes.float_margin else [])):
        width += sides.left + sides.right
        length += sides.top + sides.bottom
    edge = 2 * (sizes.binding + sizes.raw_edge)
    return width + edge, length + edge


@pytest.mark.parametrize("family", sorted(set(FAMILIES) - {"hexagon", "medallion"}))
def test_adjusted_sizes_add_up_to_the_adjusted_overall_size(family: str) -> None:
    rng = Random(5)
    for _ in range(4):
        quilt = draw(rng, family)
        readings = read_readings({**read(quilt, rng), "setting": quilt.setting})
        layout = infer(readings).layouts[0]
        if (layout.setting, layout.sashing, layout.columns, layout.rows) != quilt.identity:
            continue
        sizes = layout.dimensions
        assert sizes.block is not None
        inner = quilt.field(sizes.block.width, sizes.block.length, sizes.sashing)
        made = _sum_of_parts(sizes, inner)
        assert made == pytest.approx((sizes.overall.width, sizes.overall.length), abs=1e-6)


def test_a_part_that_the_layout_does_not_have_is_left_out() -> None:
    readings = read_readings({"overall": {"width": [70], "length": [80]}, "setting": "none"})
    rows = reconcile(readings, infer(readings).layouts[0])
    assert [row.path for row in rows] == ["overall.width.0", "overall.length.0"]


def test_a_binding_quoted_within_the_border_is_added_back_to_it() -> None:
    record = {
        "overall": {"width": [60], "length": [72]},
        "block": {"width": [12], "length": [12]},
        "sashing": None,
        "borders": [{"width": [6]}],
        "binding": {"width": ["1/2"], "within_border": True},
    }
    readings = read_readings(record)
    layout = infer(readings).layouts[0]
    assert layout.dimensions.borders[0].left == pytest.approx(5.5, abs=0.05)
    assert layout.dimensions.binding == pytest.approx(0.5)
    adjusted = {row.path: row.adjusted for row in reconcile(readings, layout)}
    assert adjusted["borders.0.width.0"] == pytest.approx(6, abs=0.05)
