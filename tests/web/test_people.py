"""People have families, and two records of one person become one and can be parted."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import FamilyTie, Party, Phase, PhaseMaker, Quilt
from catalogue.collection.store import add, load


@pytest.fixture
def eliza(collection: Collection) -> Collection:
    add(collection.database, Party("Eliza Thornbury"), "Tess")
    add(collection.database, Party("Eliza Thornberry"), "Tess")
    phase = Phase("pieced", makers=(PhaseMaker(2),))
    add(collection.database, Quilt("Stars", published=True, phases=(phase,)), "Tess")
    return collection


def test_family_ties_are_kept_and_shown(member: FlaskClient, eliza: Collection) -> None:
    member.post(
        "/people/1/edit",
        data={
            "revision": "1",
            "name": "Eliza Thornbury",
            "ties-0-relative": "Ruth Marsh",
            "ties-0-relation": "daughter",
        },
    )
    assert load(eliza.database, Party, 1).ties == (FamilyTie(3, "daughter", id=1),)
    page = member.get("/people/1").text
    assert "daughter" in page
    assert "Ruth Marsh" in page


def test_alike_names_are_proposed_made_one_and_parted(
    member: FlaskClient, eliza: Collection
) -> None:
    assert "Keep “Eliza Thornbury”" in member.get("/people/alike").text
    answer = member.post("/people/alike", data={"kept": "1", "other": "2"})
    assert answer.headers["Location"] == "/people/1"
    assert member.get("/people/2").headers["Location"] == "/people/1"
    assert "Stars" in member.get("/people/1").text
    assert "Thornberry" not in member.get("/people").text
    member.post("/people/parted", data={"merge": "1"})
    assert "Stars" in member.get("/people/2").text
    assert "Thornberry" in member.get("/people").text


def test_people_told_apart_are_not_proposed_again(member: FlaskClient, eliza: Collection) -> None:
    member.post("/people/alike", data={"kept": "1", "other": "2", "apart": "1"})
    assert "Nobody seems to be on record twice" in member.get("/people/alike").text


@pytest.mark.parametrize(
    ("address", "sent", "status"),
    [
        ("/people/alike", {"kept": "1"}, 400),
        ("/people/alike", {"kept": "1", "other": "99"}, 404),
        ("/people/parted", {"merge": "9"}, 404),
        ("/people/parted", {}, 400),
    ],
)
def test_merging_what_is_not_there_is_refused(
    member: FlaskClient, eliza: Collection, address: str, sent: dict[str, str], status: int
) -> None:
    assert member.post(address, data=sent).status_code == status
