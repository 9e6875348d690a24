"""The chart of light: bars to scale, the limit, and words for those who do not see it."""

from datetime import date
from xml.etree import ElementTree

import pytest

from catalogue.exhibits.dose_chart import draw_dose_chart
from catalogue.exhibits.light import Display, chosen_limit
from catalogue.exhibits.light_account import YearDose, year_doses
from catalogue.exhibits.svg import DrawingError

SVG = "{http://www.w3.org/2000/svg}"
YEARS = (
    YearDose(2024, received=6000),
    YearDose(2025, unrecorded=("Old show",)),
    YearDose(2026, received=4000, booked=8000, proposed=6000),
)


LIMIT = chosen_limit()


def drawn(years=YEARS, limit=LIMIT, **options):
    return ElementTree.fromstring(draw_dose_chart(years, limit, **options))


def bars(picture):
    """Height of every bar of the chart, legend and patterns left out."""
    found = [rect for rect in picture.iter(f"{SVG}rect") if rect.get("stroke-width") == "0.8"]
    return [float(rect.get("height")) for rect in found if float(rect.get("y")) < 270]


def texts(picture):
    return [text.text for text in picture.iter(f"{SVG}text")]


def test_bars_are_as_high_as_their_doses():
    six, four, eight, six_more = bars(drawn())
    assert six == pytest.approx(six_more, abs=0.02)
    assert eight / four == pytest.approx(2, abs=0.002)
    assert six / four == pytest.approx(1.5, abs=0.002)


def test_the_limit_stands_among_the_bars_and_is_named():
    picture = drawn()
    assert any("National Gallery, London" in text for text in texts(picture))
    dashed = [p for p in picture.iter(f"{SVG}path") if p.get("stroke-dasharray")]
    assert len(dashed) == 2  # the line and its place in the legend


def test_a_year_whose_light_was_not_recorded_carries_a_question_mark():
    assert "?" in texts(drawn())


def test_the_description_says_every_dose_and_what_is_over_the_limit():
    description = drawn().find(f"{SVG}desc").text
    assert "2024: 6,000 lux hours received." in description
    assert "2025: no light recorded. Part of its light was not recorded." in description
    assert (
        "2026: 4,000 lux hours received, 8,000 lux hours booked, 6,000 lux hours would be added,"
        " over the limit." in description
    )


def test_two_charts_can_stand_on_one_page():
    ids = [
        element.get("id")
        for prefix in ("a", "b")
        for element in drawn(prefix=prefix).iter()
        if element.get("id")
    ]
    assert len(ids) == len(set(ids)) == 8


def test_plain_colours_use_no_custom_properties():
    assert "var(" in draw_dose_chart(YEARS)
    assert "var(" not in draw_dose_chart(YEARS, plain_colours=True)


def test_text_in_a_title_is_no_markup():
    assert drawn(title="<script>&").find(f"{SVG}title").text == "<script>&"


def test_a_quilt_without_light_is_drawn_and_said():
    picture = drawn((), None)
    assert bars(picture) == []
    assert picture.find(f"{SVG}desc").text == "No light is recorded."


@pytest.mark.parametrize("count", [1, 12, 60, 120])
def test_every_text_lies_within_the_drawing(count):
    display = Display("show", date(2027 - count, 1, 1), date(2026, 12, 31), 50, 8)
    picture = drawn(year_doses([display], date(2026, 6, 1)))
    _, _, width, height = map(float, picture.get("viewBox").split())
    for text in picture.iter(f"{SVG}text"):
        size, x = float(text.get("font-size")), float(text.get("x"))
        wide = len(text.text) * size * 0.56
        left = {"start": x, "end": x - wide, "middle": x - wide / 2}[text.get("text-anchor")]
        assert left >= 0, text.text
        assert left + wide <= width, text.text
        assert 0 < float(text.get("y")) < height


def test_too_many_years_and_bad_prefixes_are_refused():
    with pytest.raises(DrawingError, match="120"):
        draw_dose_chart([YearDose(year) for year in range(1800, 1921)])
    with pytest.raises(DrawingError, match="prefix"):
        draw_dose_chart(YEARS, prefix="1 2")
