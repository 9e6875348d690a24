"""Drawings are well-formed, true to scale, named for screen readers, and small."""

import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import fields, replace
from xml.etree import ElementTree

import pytest
from drawn_layouts import even, layout_of, one_of_each, plan_of, without_repeat
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.measurement.drawing import DrawingError, draw_layout, draw_ties
from catalogue.measurement.layouts import CORNERSTONE_CENTRED, Layout, Pieces, Sides, Size
from catalogue.measurement.settings import PLANS

EVERY_LAYOUT = list(one_of_each())
SVG = "{http://www.w3.org/2000/svg}"


def _name(layout: Layout) -> str:
    stones = "stones" if layout.dimensions.cornerstones else ""
    return " ".join((layout.setting, layout.sashing, *layout.details, stones)).strip()


def _parsed(markup: str) -> ElementTree.Element:
    return ElementTree.fromstring(markup)


def _texts(root: ElementTree.Element) -> list[str]:
    return [element.text or "" for element in root.iter(f"{SVG}text")]


def _shapes(element: ElementTree.Element, by_id: dict[str, ElementTree.Element]) -> int:
    """How many pieces an element draws, following references."""
    if element.tag == f"{SVG}use":
        return _shapes(by_id[element.attrib["href"].removeprefix("#")], by_id)
    if element.tag == f"{SVG}path":
        return 0 if element.get("class") == "drawing-motif" else 1
    return sum(_shapes(child, by_id) for child in element)


def _drawn(root: ElementTree.Element) -> Counter[str]:
    by_id = {e.attrib["id"]: e for e in root.iter() if "id" in e.attrib}
    counts: Counter[str] = Counter()
    for group in root.iter(f"{SVG}g"):
        kind = group.get("class", "").removeprefix("drawing-").replace("-", "_")
        counts[kind] += _shapes(group, by_id)
    return counts


@pytest.mark.parametrize("layout", EVERY_LAYOUT, ids=_name)
def test_the_markup_draws_every_piece_of_the_layout(layout: Layout) -> None:
    drawn = _drawn(_parsed(draw_layout(layout)))
    for field in fields(Pieces):
        assert drawn[field.name] == getattr(layout.pieces, field.name)


@pytest.mark.parametrize("layout", EVERY_LAYOUT, ids=_name)
def test_the_drawing_is_an_image_with_a_title_and_a_description(layout: Layout) -> None:
    root = _parsed(draw_layout(layout, prefix="quilt-7"))
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert description is not None
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"].split() == [title.get("id"), description.get("id")]
    assert title.text
    assert "width by length" in (description.text or "")


def test_ids_and_references_stay_within_their_prefix() -> None:
    for layout in EVERY_LAYOUT:
        markup = draw_layout(layout, prefix="left")
        ids = re.findall(r' id="([^"]+)"', markup)
        assert len(ids) == len(set(ids))
        assert all(name.startswith("left-") for name in ids)
        pointed_at = re.findall(r'href="#([^"]+)"|url\(#([^)]+)\)', markup)
        assert {a or b for a, b in pointed_at} <= set(ids)


@pytest.mark.parametrize("prefix", ["", "7", 'a"b', "a b", "é", "a" * 65, "<x>"])
def test_a_prefix_that_cannot_begin_an_id_is_refused(prefix: str) -> None:
    with pytest.raises(DrawingError, match="prefix"):
        draw_layout(EVERY_LAYOUT[0], prefix=prefix)


def test_a_title_given_is_escaped_and_cleared_of_what_xml_forbids() -> None:
    root = _parsed(draw_layout(EVERY_LAYOUT[0], title="<b>“Rose & Thorn”</b>\x00\ud800"))
    assert root.findtext(f"{SVG}title") == "<b>“Rose & Thorn”</b>"


def test_lengths_stand_in_the_unit_of_the_record() -> None:
    layout = layout_of(plan_of("straight"), 3, 4, borders=(even(5),), difference=Size(0.5, 0))
    inches, metric = (
        _texts(_parsed(draw_layout(layout))),
        _texts(_parsed(draw_layout(layout, "cm"))),
    )
    assert "40½ in measured, 40 in predicted" in inches
    assert "50 in, as predicted" in inches
    assert "102.9 cm measured, 101.6 cm predicted" in metric
    assert "block 25.4 cm" in metric
    assert not [text for text in metric if text.endswith(" in")]


def test_without_dimensions_there_is_no_lettering() -> None:
    layout = EVERY_LAYOUT[0]
    assert _texts(_parsed(draw_layout(layout)))
    assert not _texts(_parsed(draw_layout(layout, dimensions=False)))


def test_the_measured_outline_shows_only_where_it_differs() -> None:
    layout = layout_of(plan_of("straight"), 3, 4)
    assert "drawing-measured" not in draw_layout(layout)
    differs = draw_layout(replace(layout, difference=Size(2, -1)))
    outline = next(e for e in _parsed(differs).iter() if e.get("class") == "drawing-measured")
    assert (outline.get("width"), outline.get("height")) == ("32", "39")
    assert (outline.get("x"), outline.get("y")) == ("-1", "0.5")


def test_borders_that_differ_by_side_or_are_missing_are_drawn_so() -> None:
    borders = (even(3), Sides(left=8, right=6, top=0, bottom=2))
    layout = layout_of(plan_of("straight"), 3, 4, borders=borders, binding=0.5)
    frames = [
        tuple(float(e.attrib[key]) for key in ("x", "y", "width", "height"))
        for e in _parsed(draw_layout(layout)).iter()
        if e.get("class") == "drawing-frame"
    ]
    assert frames == [
        (0, 0, 51, 49),  # the binding's outer edge
        (0.5, 0.5, 50, 48),
        (8.5, 0.5, 36, 46),
        (11.5, 3.5, 30, 40),
    ]
    assert "border 8 in left, 6 in right, 2 in bottom" in _texts(_parsed(draw_layout(layout)))


def test_a_raw_edge_is_marked() -> None:
    layout = layout_of(plan_of("straight"), 3, 4, raw_edge=0.25)
    assert "drawing-raw-edge" in draw_layout(layout)
    assert "drawing-raw-edge" not in draw_layout(layout_of(plan_of("straight"), 3, 4))


def test_a_quilt_without_repeat_says_so_and_is_still_drawn() -> None:
    root = _parsed(draw_layout(without_repeat()))
    assert root.findtext(f"{SVG}title") == "No repeat recorded"
    assert list(root.iter(f"{SVG}pattern"))


def test_the_description_tells_sizes_and_pieces() -> None:
    layout = layout_of(
        plan_of("on point", "between", CORNERSTONE_CENTRED),
        4,
        5,
        cornerstones=True,
        borders=(even(4),),
        binding=0.375,
    )
    description = _parsed(draw_layout(layout)).findtext(f"{SVG}desc") or ""
    for words in (
        "Set on point, 4 × 5, sashing between, cornerstone-centred.",
        "Block 10 in, 14⅛ in across its points.",
        "Sashing 2 in wide with cornerstones.",
        "Borders from the inside out: 4 in.",
        "Binding ⅜ in wide.",
        "31 blocks, 18 half-blocks, 80 sashing strips, 32 cornerstones.",
    ):
        assert words in description


def test_colours_are_custom_properties_with_fallbacks_or_plain() -> None:
    themed, plain = draw_layout(EVERY_LAYOUT[0]), draw_layout(EVERY_LAYOUT[0], plain_colours=True)
    colours = re.findall(r'(?:fill|stroke)="([^"]+)"', themed)
    assert all(re.fullmatch(r"none|var\(--drawing-[\w-]+,#[0-9a-f]{6}\)", c) for c in colours)
    assert "var(" not in plain
    assert "style" not in themed  # pages may forbid inline styles


def test_thousands_of_patches_take_few_bytes() -> None:
    """A one-patch of 49 x 49 squares, as 'So Many Squares' (allpeoplequilt.com), has 2,401."""
    layout = layout_of(plan_of("one-patch"), 49, 49)
    markup = draw_layout(layout)
    assert _drawn(_parsed(markup))["blocks"] == 2401
    assert len(markup.encode()) < 12_000


def test_every_setting_stays_small() -> None:
    assert max(len(draw_layout(layout).encode()) for layout in EVERY_LAYOUT) < 16_000


def test_the_scale_holds_in_the_view() -> None:
    for layout in EVERY_LAYOUT:
        for dimensions in (True, False):
            root = _parsed(draw_layout(layout, dimensions=dimensions))
            x, y, width, height = map(float, root.attrib["viewBox"].split())
            overall = layout.dimensions.overall
            assert x < 0
            assert y < 0
            assert x + width > overall.width
            assert y + height > overall.length


def test_ties_stand_side_by_side_each_with_its_name() -> None:
    ties = [
        replace(layout_of(plan_of("straight"), 7, 7, alternate=True), probability=0.46, tie=1),
        replace(layout_of(plan_of("on point"), 5, 5), probability=0.41, tie=1),
    ]
    markup = draw_ties(ties)
    root, texts = _parsed(markup), _texts(_parsed(markup))
    assert "Straight set, 7 × 7, edge to edge, alternate blocks" in texts
    assert "Set on point, 5 × 5, edge to edge" in texts
    assert [text for text in texts if text.endswith("in 100")] == ["46 in 100", "41 in 100"]
    assert (root.findtext(f"{SVG}title") or "").startswith("2 layouts that fit alike")
    ids = re.findall(r' id="([^"]+)"', markup)
    assert len(ids) == len(set(ids))
    assert _drawn(root)["blocks"] == 25 + 41


def test_ties_need_at_least_one_layout_and_at_most_twelve() -> None:
    for many in (0, 13):
        with pytest.raises(DrawingError, match="From one to 12"):
            draw_ties(EVERY_LAYOUT[:1] * many)


@pytest.mark.parametrize(
    ("probability", "words"),
    [(1.0, "100 in 100"), (0.998, "more than 99 in 100"), (0.001, "less than 1 in 100")],
)
def test_certainty_is_never_rounded_up_to_certain(probability: float, words: str) -> None:
    tied = replace(EVERY_LAYOUT[0], probability=probability)
    assert words in _texts(_parsed(draw_ties([tied])))


lengths = st.floats(0, 60, allow_nan=False)
sides = st.builds(Sides, lengths, lengths, lengths, lengths)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(PLANS),
    st.integers(1, 30),
    st.integers(1, 30),
    st.booleans(),
    st.lists(sides, max_size=4),
    lengths,
    st.none() | sides,
    st.floats(-200, 200),
)
def test_any_layout_gives_well_formed_markup_of_finite_numbers(
    plan: object,
    columns: int,
    rows: int,
    cornerstones: bool,
    borders: list[Sides],
    binding: float,
    margin: Sides | None,
    off: float,
) -> None:
    layout = layout_of(
        plan,  # type: ignore[arg-type]
        columns,
        rows,
        cornerstones=cornerstones,
        borders=tuple(borders),
        binding=binding,
        margin=margin,
        difference=Size(off, -off),
    )
    markup = draw_layout(layout)
    assert all(math.isfinite(value) for value in _numbers(_parsed(markup)))
    assert "nan" not in markup
    assert "-0 " not in markup


def _numbers(root: ElementTree.Element) -> Iterator[float]:
    for element in root.iter():
        for name in ("x", "y", "width", "height", "cx", "cy", "r", "font-size", "stroke-width"):
            if name in element.attrib:
                yield float(element.attrib[name])
