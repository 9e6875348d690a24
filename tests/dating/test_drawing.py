"""The drawing of an estimate: well formed, told in words, and coloured by the page."""

import re
from xml.etree import ElementTree

import pytest

from catalogue.dating.clues import Clue, ClueReading, clue_table, inscription
from catalogue.dating.drawing import describe_estimate, draw_estimate
from catalogue.dating.estimate import estimate

SVG = "{http://www.w3.org/2000/svg}"
TABLE = clue_table()

ESTIMATES = {
    "a plateau": estimate([ClueReading(TABLE["pastel-prints"])], known_by=2020),
    "one year": estimate([ClueReading(inscription(1876))], known_by=2020),
    "a contradiction": estimate(
        [ClueReading(TABLE["polyester-batting"]), ClueReading(inscription(1935, name="label"))],
        known_by=2020,
    ),
    "only a beginning": estimate([ClueReading(TABLE["chrome-yellow"])], known_by=2020),
    "no clue": estimate([], known_by=2020),
    "no year": estimate([ClueReading(TABLE["nylon"])], known_by=1900),
}


@pytest.mark.parametrize("found", ESTIMATES.values(), ids=ESTIMATES)
def test_the_drawing_is_well_formed_and_has_a_title_and_a_description(found):
    drawing = ElementTree.fromstring(draw_estimate(found, ident="phase-7"))
    assert drawing.get("role") == "img"
    assert drawing.get("aria-labelledby") == "phase-7-title phase-7-desc"
    assert drawing.find(f"{SVG}title").get("id") == "phase-7-title"
    assert drawing.find(f"{SVG}desc").text == describe_estimate(found)


@pytest.mark.parametrize("found", ESTIMATES.values(), ids=ESTIMATES)
def test_everything_lies_inside_the_drawing(found):
    drawing = ElementTree.fromstring(draw_estimate(found))
    width, height = (float(n) for n in drawing.get("viewBox").split()[2:])
    for bar in drawing.iter(f"{SVG}rect"):
        assert 0 <= float(bar.get("x")) < float(bar.get("x")) + float(bar.get("width")) <= width
        assert 0 <= float(bar.get("y")) < height
    for word in drawing.iter(f"{SVG}text"):
        assert 0 <= float(word.get("y")) <= height


def test_both_spans_and_every_clue_are_named_in_words():
    drawing = ElementTree.fromstring(draw_estimate(ESTIMATES["a contradiction"]))
    words = {text.text for text in drawing.iter(f"{SVG}text")}
    found = ESTIMATES["a contradiction"]
    assert words >= {
        f"half: {found.half}",
        f"nine tenths: {found.ninety}",
        "polyester batting",
        "label",
    }


def test_every_clue_that_counts_is_drawn_even_far_from_the_curve():
    drawing = ElementTree.fromstring(draw_estimate(ESTIMATES["a contradiction"]))
    clue_bars = [bar for bar in drawing.iter(f"{SVG}rect") if "clue" in bar.get("fill")]
    assert {float(bar.get("y")) // 22 for bar in clue_bars} == {11.0, 12.0}


def test_the_description_tells_the_likeliest_year_and_the_spans():
    assert describe_estimate(ESTIMATES["one year"]).startswith(
        "The likeliest year is 1876. Half of the probability lies in 1876, nine tenths in "
    )


def test_colours_are_the_pages_own_with_fixed_ones_behind_them():
    drawing = draw_estimate(ESTIMATES["a plateau"])
    painted = re.findall(r'(?:fill|stroke)="([^"]+)"', drawing)
    assert {each for each in painted if each != "none"}
    for each in painted:
        assert re.fullmatch(r"none|var\(--estimate-[a-z]+, #[0-9a-f]{6}\)", each), each
    assert "style=" not in drawing, "the pages allow no style that is written into them"


def test_names_given_by_people_cannot_break_the_drawing():
    clue = Clue("x", "<b>", 'a "label" & <more>', "inscription", "usual span", None, 1876, 1876)
    found = estimate([ClueReading(clue)], known_by=2020)
    ElementTree.fromstring(draw_estimate(found, ident='a"b', title="<when> & why"))
