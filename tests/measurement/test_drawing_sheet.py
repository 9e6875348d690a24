"""The measuring sheet numbers every place to hold the tape, and lays the tape true to scale."""

from math import hypot
from xml.etree import ElementTree

import pytest
from drawn_layouts import even, layout_of, one_of_each, plan_of

from catalogue.measurement.drawing_sheet import (
    EXAMPLE,
    Place,
    draw_measuring_sheet,
    measuring_places,
)
from catalogue.measurement.layouts import POINTS_UP, Layout, Sides

EVERY_LAYOUT = list(one_of_each())
SVG = "{http://www.w3.org/2000/svg}"


def _length(place: Place) -> float:
    return hypot(place.end[0] - place.start[0], place.end[1] - place.start[1])


def _by_path(layout: Layout) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {}
    for place in measuring_places(layout):
        found.setdefault(place.path, []).append(round(_length(place), 6))
    return found


def test_the_example_asks_for_every_reading_the_inference_takes() -> None:
    assert _by_path(EXAMPLE) == {
        "overall.width": [58, 58, 58],
        "overall.length": [74, 74, 74],
        "block.width": [12],
        "block.length": [12],
        "sashing.width": [2],
        "borders.0.width": [6.5],
        "binding.width": [0.5],
    }


@pytest.mark.parametrize("layout", EVERY_LAYOUT, ids=lambda x: f"{x.setting} {x.sashing}")
def test_the_tape_is_laid_along_what_it_measures(layout: Layout) -> None:
    sizes, found = layout.dimensions, _by_path(layout)
    assert found["overall.width"] == pytest.approx([sizes.overall.width] * 3)
    assert found["overall.length"] == pytest.approx([sizes.overall.length] * 3)
    if sizes.block:
        assert found["block.width"] == pytest.approx([sizes.block.width])
        assert found["block.length"] == pytest.approx([sizes.block.length])
    if sizes.sashing and sizes.cornerstones:
        assert found["sashing.width"] == pytest.approx([sizes.sashing])


@pytest.mark.parametrize("layout", EVERY_LAYOUT, ids=lambda x: f"{x.setting} {x.sashing}")
def test_numbers_on_the_sheet_are_those_of_the_places(layout: Layout) -> None:
    root = ElementTree.fromstring(draw_measuring_sheet(layout))
    places = measuring_places(layout)
    shown = [element.text for element in root.iter(f"{SVG}text")]
    assert shown == [str(number) for number in range(1, len(places) + 1)]
    described = root.findtext(f"{SVG}desc") or ""
    assert all(f"{place.number}: {place.says}." in described for place in places)


def test_no_two_numbers_lie_over_each_other() -> None:
    for layout in EVERY_LAYOUT:
        size = layout.dimensions.overall
        apart = max(size.width, size.length) * 0.024 * 2
        marks = [place.mark for place in measuring_places(layout)]
        for index, (x, y) in enumerate(marks):
            for other_x, other_y in marks[:index]:
                assert hypot(x - other_x, y - other_y) > apart * 0.85


def test_a_border_is_measured_on_a_side_that_has_it() -> None:
    borders = (Sides(0, 3, 0, 0), Sides(0, 0, 0, 4), Sides(0, 0, 5, 0))
    found = _by_path(layout_of(plan_of("straight"), 3, 4, borders=borders))
    assert [found[f"borders.{n}.width"] for n in range(3)] == [[3], [4], [5]]


def test_hexagons_are_measured_from_point_to_point_and_flat_to_flat() -> None:
    layout = layout_of(plan_of("hexagon", "none", POINTS_UP), 6, 5, borders=(even(4),))
    says = {place.path: place.says for place in measuring_places(layout)}
    assert says["block.width"] == "Hexagon, point to point"
    assert says["block.length"] == "Hexagon, flat side to flat side"


def test_the_sheet_is_drawn_in_lines_on_white() -> None:
    markup = draw_measuring_sheet(plain_colours=True)
    fills = {
        element.get("fill")
        for element in ElementTree.fromstring(markup).iter(f"{SVG}g")
        if (element.get("class") or "").startswith(("drawing-blocks", "drawing-sash"))
    }
    assert fills == {"#fffdf8"}
