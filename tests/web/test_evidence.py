"""Clues are ticked on a phase, the date they allow is shown, and a person accepts it."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import Party, Phase, PhaseMaker, Quilt
from catalogue.collection.store import add, load
from catalogue.values.dates import read_date

PAGE = "/quilts/1/phases/1/evidence"


@pytest.fixture
def quilt(collection: Collection) -> Quilt:
    maker = add(collection.database, Party("Ada"), "Tess")
    phase = Phase("pieced", read_date("1880s"), makers=(PhaseMaker(maker.id),))
    return add(collection.database, Quilt("Stars", phases=(phase,)), "Tess")


def ticked(**more: str) -> dict[str, str]:
    return {
        "revision": "1",
        "clues-0-clue": "congo-red",
        "clues-0-present": "likely",
        "clues-1-clue": "inscription",
        "clues-1-first_year": "1891",
        **more,
    }


def test_clues_are_kept_on_their_phase_and_nothing_else_changes(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    assert member.post(PAGE, data=ticked()).status_code == 302
    saved = load(collection.database, Quilt, 1)
    red, label = saved.phases[0].clues
    assert (red.clue, red.present, label.first_year) == ("congo-red", "likely", 1891)
    assert saved.phases[0].makers == quilt.phases[0].makers


def test_saving_the_makers_leaves_the_clues_alone(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post(PAGE, data=ticked())
    member.post(
        "/quilts/1/edit/making",
        data={"revision": "2", "phases-0-id": "1", "phases-0-kind": "quilted"},
    )
    (phase,) = load(collection.database, Quilt, 1).phases
    assert phase.kind == "quilted"
    assert [clue.clue for clue in phase.clues] == ["congo-red", "inscription"]


def test_the_estimate_is_drawn_with_what_each_clue_does(member: FlaskClient, quilt: Quilt) -> None:
    member.post(PAGE, data=ticked())
    page = member.get(PAGE).text
    assert "Proposed:" in page
    assert "nine tenths in" in page
    assert 'class="estimate"' in page
    assert "What each clue does" in page


def test_a_person_accepts_the_date_that_the_clues_propose(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    member.post(PAGE, data=ticked())
    member.post("/quilts/1/phases/1/date", data={"revision": "2"})
    date = load(collection.database, Quilt, 1).phases[0].date
    assert date is not None
    assert date.earliest_year is not None
    assert date.earliest_year <= 1891 <= (date.latest_year or 0)
    assert date.written == date.says


def test_a_clue_that_brings_its_own_year_needs_one(member: FlaskClient, quilt: Quilt) -> None:
    answer = member.post(PAGE, data=ticked(**{"clues-1-first_year": ""}))
    assert answer.status_code == 422
    assert "Give the year that it names." in answer.text


def test_a_clue_nobody_knows_is_refused(member: FlaskClient, quilt: Quilt) -> None:
    answer = member.post(PAGE, data=ticked(**{"clues-0-clue": "moonlight"}))
    assert answer.status_code == 422


def test_contradicting_clues_are_said_in_words(member: FlaskClient, quilt: Quilt) -> None:
    sent = ticked(**{"clues-0-clue": "polyester-batting", "clues-0-present": "sure"})
    member.post(PAGE, data=sent)
    assert "polyester" in member.get(PAGE).text.split("What the clues allow")[1].split("<form")[0]


def test_without_clues_there_is_nothing_to_accept(member: FlaskClient, quilt: Quilt) -> None:
    assert member.post("/quilts/1/phases/1/date", data={"revision": "1"}).status_code == 400
    assert member.get("/quilts/1/phases/99/evidence").status_code == 404


def test_a_year_that_an_inscription_names_is_offered_as_evidence(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    sent = {"revision": "1", "inscriptions-0-text": "made by ADA\nin 1891"}
    member.post("/quilts/1/edit/inscriptions", data=sent)
    page = member.get("/quilts/1").text
    assert 'Names <a href="/people/1">Ada</a>' in page
    assert f'href="{PAGE}?inscription=1891"' in page
    offered = member.get(f"{PAGE}?inscription=1891").text
    row = offered.split('name="clues-0-clue"')[1]
    assert 'selected value="inscription"' in row.split("</select>")[0]
    assert 'value="1891"' in row
