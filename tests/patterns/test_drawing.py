"""Drawings of blocks: well-formed SVG with a name, a description and the colours asked for."""

import xml.etree.ElementTree as ElementTree

import pytest

from catalogue.patterns import CLOTH, Role, describe_draft, design, designs, draw_block, draw_design

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("each", designs(), ids=lambda each: each.slug)
def test_every_design_is_drawn_patch_by_patch_and_described(each):
    root = ElementTree.fromstring(draw_design(each))
    assert root.find(f"{SVG}title").text == each.name
    assert each.family in root.find(f"{SVG}desc").text
    assert len(root.findall(f".//{SVG}path")) == len(each.draft.patches)


def test_an_oblong_block_is_drawn_in_proportion():
    root = ElementTree.fromstring(draw_design(design("flying-geese")))
    assert root.get("viewBox") == "0 0 240 120"


def test_the_palette_colours_the_roles():
    palette = dict.fromkeys(Role, "#000000") | {Role.DARK: "#123456"}
    root = ElementTree.fromstring(draw_block(design("four-patch").draft, palette))
    assert sorted(path.get("fill") for path in root.iter(f"{SVG}path")) == [
        "#000000",
        "#000000",
        "#123456",
        "#123456",
    ]


def test_a_palette_without_a_needed_colour_is_an_error():
    with pytest.raises(KeyError):
        draw_block(design("ohio-star").draft, {Role.DARK: "#000"})


def test_what_is_written_by_people_is_escaped():
    drawn = draw_block(
        design("four-patch").draft, CLOTH, title='"Tom" & <Jerry>', description="<b>"
    )
    assert ElementTree.fromstring(drawn).find(f"{SVG}title").text == '"Tom" & <Jerry>'
    assert "<b>" not in drawn


def test_curves_are_drawn_as_curves():
    assert "C" in draw_block(design("orange-peel").draft)
    assert "C" not in draw_block(design("nine-patch").draft)


@pytest.mark.parametrize(
    ("slug", "says"),
    [
        ("nine-patch", "9 patches (4 background, 5 dark)."),
        ("moon-over-the-mountain", "1 patch (1 dark); 2 shapes laid on (1 light, 1 medium)."),
    ],
)
def test_a_drafting_is_described_in_words(slug, says):
    assert describe_draft(design(slug).draft) == says
