"""Elevations: to scale, with heights, gaps and labels, and in words."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from rooms import HALL, QUILTS, rooms

from catalogue.exhibits.elevation import draw_elevation
from catalogue.exhibits.hanging import plan_hanging
from catalogue.exhibits.svg import DrawingError, wrapped
from catalogue.exhibits.walls import PlanError, QuiltToHang, Wall

SVG = "{http://www.w3.org/2000/svg}"
PLAN = plan_hanging(HALL, QUILTS)


def drawn(wall="North wall", plan=PLAN, unit="in", **options):
    return ElementTree.fromstring(draw_elevation(wall, plan, unit, **options))


def texts(picture):
    return [text.text for text in picture.iter(f"{SVG}text")]


def quilts(picture):
    """Left, top, width and length of every quilt, as drawn."""
    found = []
    for group in picture.iter(f"{SVG}g"):
        if group.get("class") == "drawing-quilt":
            x, y = map(float, re.findall(r"[-0-9.]+", group.get("transform")))
            cloth = group.findall(f"{SVG}rect")[1]
            found.append((x, y, float(cloth.get("width")), float(cloth.get("height"))))
    return found


def test_quilts_are_drawn_in_inches_where_they_hang():
    assert quilts(drawn()) == [(36, 20, 78, 84), (243, 26, 60, 72)]


def test_heights_gaps_and_the_centre_line_are_written():
    shown = texts(drawn())
    for words in ("100 in", "16 in", "36", "129", "58 in", "centre line", "120 in high"):
        assert words in shown
    assert "North wall: 360 in long" in shown


def test_obstacles_labels_and_a_person_are_drawn():
    classes = [group.get("class") for group in drawn().iter(f"{SVG}g")]
    for name in ("drawing-door", "drawing-outlet", "drawing-sign", "drawing-person"):
        assert name in classes


def test_the_description_tells_everything_in_words():
    description = drawn().find(f"{SVG}desc").text
    assert "The wall is 360 in long and 120 in high, drawn to scale." in description
    assert "Door, 36 in wide and 82 in high, 150 in from the left end" in description
    assert (
        "“Ocean Waves”, 78 in wide and 84 in long, 36 in from the left end, upper edge 100 in and"
        " lower edge 16 in above the floor." in description
    )


def test_a_bare_wall_is_drawn_and_said_to_be_bare():
    plan = plan_hanging((Wall("Back", 200, 110),), ())
    assert drawn("Back", plan).find(f"{SVG}desc").text.endswith("No quilt hangs on it.")


def test_centimetres_are_written_throughout():
    shown = texts(drawn(unit="cm"))
    assert "254 cm" in shown
    assert "North wall: 914.4 cm long" in shown
    assert not any(text.endswith(" in") for text in shown)


def test_two_walls_can_stand_on_one_page():
    ids = [
        element.get("id")
        for wall, prefix in (("North wall", "a"), ("East wall", "b"))
        for element in drawn(wall, prefix=prefix).iter()
        if element.get("id")
    ]
    assert len(ids) == len(set(ids)) == 6


def test_plain_colours_use_no_custom_properties():
    assert "var(" in draw_elevation("North wall", PLAN)
    assert "var(" not in draw_elevation("North wall", PLAN, plain_colours=True)


def test_quilts_of_which_something_is_found_have_a_dashed_line_round_them():
    def marked(**options):
        return [
            r for r in drawn(**options).iter(f"{SVG}rect") if r.get("class") == "drawing-marked"
        ]

    assert marked() == []
    (line,) = marked(marked={"1995.2", "not on this wall"})
    assert line.get("stroke-dasharray")


def test_titles_are_text_and_no_markup():
    quilt = QuiltToHang("a", "<script> & “Stars”", 80, 80)
    picture = drawn("w", plan_hanging((Wall("w", 200, 120),), (quilt,)))
    assert "<script> & “Stars”" in texts(picture)


@given(rooms())
@settings(max_examples=40, deadline=None)
def test_every_text_lies_within_the_drawing(room):
    walls, quilts = room
    plan = plan_hanging(walls, quilts)
    for wall in walls:
        picture = drawn(wall.name, plan)
        left, top, width, height = map(float, picture.get("viewBox").split())
        for text in picture.iter(f"{SVG}text"):
            if text.get("transform"):
                continue  # upright
            size, x = float(text.get("font-size")), float(text.get("x"))
            wide = len(text.text) * size * 0.5
            begin = x if text.get("text-anchor") == "start" else x - wide / 2
            if text.get("text-anchor") == "start" or float(text.get("y")) > float(wall.height):
                assert begin >= left
                assert begin + wide <= left + width, text.text
                assert top <= float(text.get("y")) <= top + height


def test_walls_and_prefixes_that_cannot_be_are_refused():
    with pytest.raises(PlanError, match="no wall"):
        draw_elevation("Attic", PLAN)
    with pytest.raises(DrawingError, match="prefix"):
        draw_elevation("North wall", PLAN, prefix='"')


@pytest.mark.parametrize(
    ("words", "letters", "lines", "expected"),
    [
        ("Ocean Waves", 20, 2, ["Ocean Waves"]),
        ("Ocean Waves", 6, 2, ["Ocean", "Waves"]),
        ("Baskets of the Sewing Circle", 8, 2, ["Baskets", "of the…"]),
        ("Sternenbanner", 8, 2, ["Sternen…"]),
        ("", 8, 2, [""]),
    ],
)
def test_titles_are_wrapped_and_what_is_left_out_is_shown(words, letters, lines, expected):
    assert wrapped(words, letters, lines) == expected
