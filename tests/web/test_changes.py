"""Every change is kept, shown field by field, and can be put back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    BlockKind,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Publication,
    Quilt,
    RelatedItem,
)
from catalogue.collection.store import add, load, save
from catalogue.values.dates import read_date


@pytest.fixture
def changed(collection: Collection) -> Collection:
    """A quilt whose phases were taken out and whose title was changed after it was begun."""
    database = collection.database
    ada = add(database, Party("Ada Winter"), "Tess")
    star = add(database, Pattern("Evening Star"), "Tess")
    phases = (Phase("pieced", read_date("c. 1935"), makers=(PhaseMaker(ada.id or 0),)),)
    quilt = Quilt("Stars", phases=phases, blocks=(BlockKind("star", star.id),))
    add(database, quilt, "Tess")
    save(database, Quilt, 1, {"phases": ()}, by="Joan", expecting=1)
    save(database, Quilt, 1, {"title": "Bars"}, by="Joan", expecting=2)
    return collection


def put_back(member: FlaskClient, revision: int, field: str, seen: int = 3) -> str:
    sent = {"revision": str(revision), "field": field, "seen": str(seen)}
    return member.post("/changes/quilt/1", data=sent, follow_redirects=True).text


def test_a_change_is_told_with_names_and_not_with_numbers(
    member: FlaskClient, changed: Collection
) -> None:
    page = member.get("/changes/quilt/1").text
    assert "party: Ada Winter" in page
    assert "Joan" in page


def test_a_field_is_put_back_with_all_that_hung_on_it(
    member: FlaskClient, changed: Collection
) -> None:
    assert "Put back, as it was before revision 2: phases." in put_back(member, 2, "phases")
    (phase,) = load(changed.database, Quilt, 1).phases
    assert phase.date is not None
    assert (phase.kind, phase.date.written) == ("pieced", "c. 1935")
    assert [maker.party for maker in phase.makers] == [1]
    assert load(changed.database, Quilt, 1).title == "Bars"  # the later change stays


def test_putting_back_is_a_change_that_can_be_put_back(
    member: FlaskClient, changed: Collection
) -> None:
    put_back(member, 3, "title")
    assert load(changed.database, Quilt, 1).title == "Stars"
    put_back(member, 4, "title", seen=4)
    assert load(changed.database, Quilt, 1).title == "Bars"
    assert load(changed.database, Quilt, 1).revision == 5


def test_a_field_that_somebody_changed_meanwhile_is_not_put_back_unseen(
    member: FlaskClient, changed: Collection
) -> None:
    save(changed.database, Quilt, 1, {"title": "Rails"}, by="Ruth", expecting=3)
    assert "Ruth changed this meanwhile" in put_back(member, 3, "title", seen=3)
    assert load(changed.database, Quilt, 1).title == "Rails"


def test_what_referred_to_something_gone_is_not_put_back(
    member: FlaskClient, changed: Collection
) -> None:
    blocks = load(changed.database, Quilt, 1).blocks
    other = (replace(blocks[0], pattern=None),)
    save(changed.database, Quilt, 1, {"blocks": other}, by="Joan", expecting=3)
    changed.database.execute("DELETE FROM pattern")
    assert "no longer on record" in put_back(member, 4, "blocks", seen=4)


@pytest.mark.parametrize(
    ("kind", "record"),
    [
        ("person", Party("Ada Winter")),
        ("pattern", Pattern("Evening Star")),
        ("publication", Publication("The Fireside Page")),
        ("related", RelatedItem("Letter")),
    ],
)
def test_every_kind_of_record_has_its_history(
    member: FlaskClient, collection: Collection, kind: str, record: object
) -> None:
    add(collection.database, record, "Joan")
    page = member.get(f"/changes/{kind}/1")
    assert page.status_code == 200
    assert "The record was begun." in page.text


def test_an_unknown_kind_revision_or_field_is_not_there(
    member: FlaskClient, changed: Collection
) -> None:
    assert member.get("/changes/carpet/1").status_code == 404
    assert member.get("/changes/quilt/9").status_code == 404
    for sent in ({"revision": "9", "field": "title"}, {"revision": "3", "field": "id"}):
        assert member.post("/changes/quilt/1", data=sent).status_code == 404
