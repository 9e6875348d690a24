"""The timeline of ownership: sure and possible years, visible gaps, and words beside them."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.provenance.reading import parse_provenance
from catalogue.provenance.stretches import Gap, Stretch, gaps, stretches
from catalogue.provenance.timeline import draw_timeline

SVG = "{http://www.w3.org/2000/svg}"


def periods(text):
    return parse_provenance(text).periods


def drawn(text, **facts):
    return ElementTree.fromstring(draw_timeline(periods(text), **facts))


def dashed(picture):
    """Return the dashed boxes of gaps, without the one of the legend."""
    boxes = [box for box in picture.iter(f"{SVG}rect") if "gap" in (box.get("stroke") or "")]
    return boxes[:-1]


STRETCHES = [  # text, until, stretch of the first period
    ("Ann, 1930 until 1940. Bea", None, Stretch(1930, 1930, 1940, 1940)),
    ("Ann, 1930; Bea, 1940", None, Stretch(1930, 1930, 1940, 1940)),
    ("Ann, c. 1935 until at least 1950. Bea", None, Stretch(1930, 1940, 1950, 1950, True)),
    ("Ann, by 1930 until sometime before 1940. Bea", None, Stretch(1930, 1930, 1940, 1940)),
    ("Ann, in 1930. Bea", None, Stretch(1930, 1930, 1930, 1930, True)),
    ("Ann. Bea", None, Stretch(None, None, None, None)),
    ("Ann, 1930", None, Stretch(1930, 1930, 1930, 1930, True)),
    ("Ann, 1930", 2020, Stretch(1930, 1930, 2020, 2020)),
    ("Ann, in 1930", 2020, Stretch(1930, 1930, 1930, 2020)),
    ("Ann, sometime between 1930 and 1935 until 1950.", None, Stretch(1930, 1935, 1950, 1950)),
]


@pytest.mark.parametrize(("text", "until", "expected"), STRETCHES)
def test_sure_years_lie_within_possible_years(text, until, expected):
    assert stretches(periods(text), until)[0] == expected


GAPS = [
    ("Ann, until 1940. Bea, 1995.", (Gap(0, 1940, 1995, True),)),
    ("Ann, until 1940; Bea, 1995.", (Gap(0, 1940, 1995, True),)),
    ("Ann, until 1940; Bea, 1940.", ()),
    ("Ann; Bea, 1940.", ()),
    ("Ann, until 1940. Bea; Cora, 1995.", (Gap(0, 1940, 1995, True),)),  # Bea's end is Cora's begin
    ("Ann, until 1940. Bea. Cora, 1995.", (Gap(0, 1940, 1995, False), Gap(1, 1940, 1995, False))),
    ("Ann. Bea.", (Gap(0, None, None, False),)),
]


@pytest.mark.parametrize(("text", "expected"), GAPS)
def test_gaps_are_where_a_passage_is_not_direct_or_dates_stand_apart(text, expected):
    chain = periods(text)
    assert gaps(chain, stretches(chain)) == expected


def test_a_gap_is_drawn_as_an_empty_dashed_box_between_its_years():
    (box,) = dashed(drawn("Ann, 1900 until 1940. Bea, 1995."))
    assert box.get("fill") == "none"
    ticks = {
        int(text.text): float(text.get("x"))
        for text in drawn("Ann, 1900 until 1940. Bea, 1995.").iter(f"{SVG}text")
        if text.text.isdigit() and text.get("text-anchor") == "middle"
    }
    assert float(box.get("x")) == pytest.approx(ticks[1940])
    assert float(box.get("width")) == pytest.approx((ticks[1980] - ticks[1960]) * 55 / 20, abs=0.3)


def test_a_direct_chain_has_no_dashed_box_and_a_line_for_each_passage():
    picture = drawn("Ann, 1900; Bea, 1940; Cora, 1995.", until=2020)
    assert dashed(picture) == []
    assert len(list(picture.iter(f"{SVG}path"))) == 2


def test_title_and_description_say_what_is_drawn():
    picture = drawn("Ann, until 1940. Possibly Bea, 1995.", made=("1880-01-01", "1889-12-31"))
    assert picture.get("role") == "img"
    title, described = picture.find(f"{SVG}title"), picture.find(f"{SVG}desc")
    assert picture.get("aria-labelledby").split() == [title.get("id"), described.get("id")]
    assert described.text == (
        "Made in 1880 to 1889. 1. Ann, until 1940. Then nothing is known from 1940 to 1995. "
        "2. possibly Bea, 1995."
    )


def test_every_colour_is_a_custom_property_with_a_fallback():
    svg = draw_timeline(periods("Ann, 1900. Possibly Bea, c. 1950."))
    paints = re.findall(r'(?:fill|stroke)="([^"]+)"', svg)
    assert all(re.fullmatch(r"none|var\(--drawing-[a-z-]+, #[0-9a-f]{6}\)", p) for p in paints)


def test_two_drawings_on_one_page_share_no_id():
    one, two = (draw_timeline(periods("Ann"), prefix=prefix) for prefix in ("a", "b"))
    assert not set(re.findall(r'id="([^"]+)"', one)) & set(re.findall(r'id="([^"]+)"', two))


def test_a_chain_without_any_date_is_drawn_as_names():
    words = [text.text for text in drawn("Ann <Lowe>. Bea").iter(f"{SVG}text")]
    assert "Ann <Lowe>" in words
    assert "gap of unknown length" in words


@settings(max_examples=100, deadline=None, derandomize=True)
@given(st.text(max_size=30), st.sampled_from(["", "1900", "by 1950", "0900", "in 1920 until 1900"]))
def test_any_chain_is_drawn_as_well_formed_svg(name, dates):
    chain = periods(f"Ann, 1930. {name}, {dates}; Bea, 1940. {name}")
    picture = ElementTree.fromstring(draw_timeline(chain, ("1900-01-01", None), 2020))
    for box in picture.iter(f"{SVG}rect"):
        assert float(box.get("width")) > 0
