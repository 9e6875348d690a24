"""The keeper sees the copies, makes one now, reads one again, and says how many are kept."""

from __future__ import annotations

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping.copies import copies_in
from catalogue.collection.store import add


def press(member: FlaskClient) -> str:
    answer = member.post("/safekeeping/copies", follow_redirects=True)
    assert answer.status_code == 200
    return answer.text


def test_the_button_makes_a_copy_and_the_page_shows_it(
    member: FlaskClient, collection: Collection
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    assert "There is no verified copy" in member.get("/safekeeping").text
    page = press(member)
    assert "Copy 1 was made and verified." in page
    assert "The newest verified copy is of" in page
    assert ": 1 quilt and 0 photographs." in page
    assert [copy.is_whole for copy in copies_in(collection.folder / "backups")] == [True]


def test_a_damaged_copy_is_found_when_it_is_read_again(
    member: FlaskClient, collection: Collection
) -> None:
    press(member)
    (copy,) = copies_in(collection.folder / "backups")
    assert (
        "every byte is as it was made"
        in member.post("/safekeeping/copies/1/verify", follow_redirects=True).text
    )
    (copy.folder / "data" / "catalogue.db").write_bytes(b"nothing")
    page = member.post("/safekeeping/copies/1/verify", follow_redirects=True).text
    assert "Copy 1 is damaged." in page
    assert "“data/catalogue.db” has been altered or damaged." in page
    assert "There is no verified copy" in page


def test_a_copy_that_is_not_there_cannot_be_read(member: FlaskClient) -> None:
    assert member.post("/safekeeping/copies/9/verify").status_code == 404


def test_how_many_are_kept_can_be_changed(member: FlaskClient, collection: Collection) -> None:
    figures = {"last": "2", "weeks": "0", "months": "0"}
    assert "saved" in member.post("/safekeeping/policy", data=figures, follow_redirects=True).text
    for _ in range(4):
        press(member)
    assert [copy.number for copy in copies_in(collection.folder / "backups")] == [4, 3]


def test_a_figure_that_cannot_be_is_told_and_what_was_typed_stays(member: FlaskClient) -> None:
    answer = member.post("/safekeeping/policy", data={"last": "all", "weeks": "4", "months": "1"})
    assert answer.status_code == 422
    assert "“all” is not a number of copies from 1 to 999." in answer.text
    assert 'value="all"' in answer.text


@pytest.mark.parametrize("role", ["volunteer", "historian"])
def test_others_than_the_keeper_have_no_business_here(
    app: Flask, collection: Collection, role: str
) -> None:
    client = signed_in(app, role, name="Ada")
    assert client.get("/safekeeping").status_code == 403
    for address in ("copies", "copies/1/verify", "policy"):
        assert client.post(f"/safekeeping/{address}").status_code == 403
    assert copies_in(collection.folder / "backups") == []


def test_what_goes_wrong_is_told_in_a_sentence(member: FlaskClient, collection: Collection) -> None:
    (collection.folder / "backups").rmdir()
    (collection.folder / "backups").write_text("in the way")
    assert "No copy was made" in press(member)
