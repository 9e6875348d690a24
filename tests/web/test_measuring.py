"""Readings are typed as people write them; what they mean is shown, and a person decides."""

from __future__ import annotations

from fractions import Fraction

import pytest
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.layouts import chosen
from catalogue.collection.records import Quilt
from catalogue.collection.store import add, load

SASHED = {
    "revision": "1",
    "overall-1-width-0": "92",
    "overall-1-width-1": "92 1/4",
    "overall-1-length-0": "7' 6 1/2\"",
    "block-1-width-0": "12",
    "block-1-length-0": "30.5 cm",
    "sashing-1-width-0": "2 1/2",
    "border-1-width-0": "3",
    "border-2-width-0": "8",
    "borders-0-note": "inner",
    "borders-1-sides": ["left", "right"],
}


@pytest.fixture
def quilt(collection: Collection) -> Quilt:
    return add(collection.database, Quilt("Stars", published=True), "Tess")


def test_readings_are_kept_as_written_and_as_exact_inches(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    answer = member.post("/quilts/1/measurements", data=SASHED)
    assert answer.status_code == 302
    readings = load(collection.database, Quilt, 1).readings
    kept = {(r.part, r.dimension, r.number, r.written): r.inches for r in readings}
    assert kept["overall", "width", 1, "92 1/4"] == Fraction(369, 4)
    assert kept["overall", "length", 1, "7' 6 1/2\""] == Fraction(181, 2)
    assert kept["block", "length", 1, "30.5 cm"] == Fraction(305, 10) / Fraction(254, 100)
    assert {(r.by, r.where) for r in readings if r.part == "overall"} == {
        ("Tess", "top edge"),
        ("Tess", "middle"),
        ("Tess", "left edge"),
    }


def test_measuring_a_part_says_that_it_is_there(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    saved = load(collection.database, Quilt, 1)
    assert (saved.sashing, saved.borders_seen, saved.binding) == ("present", "present", "unknown")
    assert [border.sides for border in saved.borders] == ["", "left, right"]


def test_the_inferred_layout_stands_beside_the_readings(member: FlaskClient, quilt: Quilt) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    page = member.get("/quilts/1/measurements").text
    assert "Straight set, 5 × 6, sashing between" in page
    assert "% probable" in page
    assert "<svg" in page


def test_working_it_out_saves_nothing(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    answer = member.post("/quilts/1/measurements", data=SASHED | {"only": "1"})
    assert "Straight set, 5 × 6, sashing between" in answer.text
    assert load(collection.database, Quilt, 1).readings == ()


def test_a_reading_that_cannot_be_read_is_marked_and_the_others_stay_typed(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    answer = member.post("/quilts/1/measurements", data=SASHED | {"overall-1-width-2": "85/0"})
    assert answer.status_code == 422
    assert 'id="overall-1-width-2-wrong"' in answer.text
    assert 'value="85/0"' in answer.text
    assert 'value="92 1/4"' in answer.text
    assert load(collection.database, Quilt, 1).revision == 1


def test_the_preview_answers_while_a_reading_is_half_typed(
    member: FlaskClient, quilt: Quilt
) -> None:
    answer = member.post(
        "/quilts/1/measurements/preview", data=SASHED | {"overall-1-width-2": "92 1/"}
    )
    assert answer.status_code == 200
    assert "Straight set, 5 × 6, sashing between" in answer.text


def test_a_person_accepts_a_layout_and_the_record_says_who(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    answer = member.post(
        "/quilts/1/measurements/decision",
        data={"layout": "0", "decision": "accepted", "revision": "2"},
    )
    assert answer.status_code == 302
    standing = chosen(load(collection.database, Quilt, 1))
    assert standing is not None
    assert standing.accepted
    assert (standing.layout.columns, standing.layout.rows) == (5, 6)
    assert "Accepted by Tess" in member.get("/quilts/1").text


def test_an_accepted_layout_says_when_the_readings_have_changed_since(
    member: FlaskClient, quilt: Quilt
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    decision = {"layout": "0", "decision": "accepted", "revision": "2"}
    member.post("/quilts/1/measurements/decision", data=decision)
    assert "readings have changed since" not in member.get("/quilts/1").text
    member.post(
        "/quilts/1/measurements", data=SASHED | {"revision": "3", "overall-1-width-2": "92"}
    )
    assert "readings have changed since" in member.get("/quilts/1").text


def test_a_layout_left_open_is_shown_as_none(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    member.post(
        "/quilts/1/measurements/decision",
        data={"layout": "0", "decision": "left open", "revision": "2"},
    )
    saved = load(collection.database, Quilt, 1)
    assert saved.decisions[0].decision == "left open"
    assert chosen(saved) is None


def test_a_decision_about_a_record_that_has_changed_is_asked_for_again(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    member.post(
        "/quilts/1/measurements/decision",
        data={"layout": "0", "decision": "accepted", "revision": "1"},
    )
    assert load(collection.database, Quilt, 1).decisions == ()


@pytest.mark.parametrize(
    "sent",
    [
        {"layout": "99", "decision": "accepted", "revision": "2"},
        {"layout": "0", "decision": "adored", "revision": "2"},
        {"layout": "x", "decision": "accepted", "revision": "2"},
        {},
    ],
)
def test_a_decision_that_means_nothing_is_refused(
    member: FlaskClient, quilt: Quilt, sent: dict[str, str]
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    assert member.post("/quilts/1/measurements/decision", data=sent).status_code == 400


def test_removing_a_border_takes_its_readings_along(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    inner, outer = load(collection.database, Quilt, 1).borders
    member.post(
        "/quilts/1/measurements",
        data=SASHED
        | {
            "revision": "2",
            "borders-0-id": inner.id,
            "borders-0-remove": "y",
            "borders-1-id": outer.id,
        },
    )
    saved = load(collection.database, Quilt, 1)
    assert saved.borders == (outer,)
    borders = [(r.number, r.written) for r in saved.readings if r.part == "border"]
    assert borders == [(1, "8")]


def test_a_sheet_to_print_numbers_the_places_to_measure(member: FlaskClient, quilt: Quilt) -> None:
    page = member.get("/quilts/1/measuring-sheet").text
    assert "Overall width near the top, edge to edge" in page
    assert "<svg" in page


def test_sizes_on_record_are_worked_out_at_once(member: FlaskClient, quilt: Quilt) -> None:
    sent = SASHED | {"patch-1-width-0": "3"}
    member.post("/quilts/1/measurements", data=sent)
    page = member.get("/quilts/1/working-out").text
    assert "Four-patch, 4 divisions to a side" in page
    assert "18 1/4" in page  # side triangles of a 12 in block, up to the next eighth


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("centre_width=51&centre_length=68&unit=6", "It needs coping strips."),
        ("centre_width=60&centre_length=72&unit=6", "It fits."),
        ("block=12&patches=13", "patch"),
        ("block=x", "x”"),
    ],
)
def test_other_sizes_are_worked_out_as_typed(
    member: FlaskClient, quilt: Quilt, query: str, sentence: str
) -> None:
    assert sentence in member.get(f"/quilts/1/working-out?{query}").text


def test_readings_stand_beside_their_adjusted_values(member: FlaskClient, quilt: Quilt) -> None:
    member.post("/quilts/1/measurements", data=SASHED)
    page = member.get("/quilts/1/measurements").text
    assert "overall, width, reading 2" in page
    assert "border 2, width, reading 1" in page


def test_layouts_that_cannot_be_told_apart_are_drawn_side_by_side(
    member: FlaskClient, quilt: Quilt
) -> None:
    sent = {"revision": "1", "overall-1-width-0": "50 7/8", "overall-1-length-0": "50 7/8"}
    block = {"block-1-width-0": "12", "block-1-length-0": "12"}
    tied = sent | block | {"sashing": "none", "borders_seen": "none", "binding": "none"}
    page = member.post("/quilts/1/measurements", data=tied | {"only": "1"}).text
    assert "The readings cannot tell these apart" in page
