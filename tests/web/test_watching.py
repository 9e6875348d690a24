"""The watch book tells the keeper who came, who was refused, and who changed what."""

from __future__ import annotations

from flask.testing import FlaskClient

from catalogue.collection import accounts
from catalogue.collection.attempts import keep_attempt
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.store import add, save


def test_the_keeper_reads_who_came_and_who_was_refused(
    member: FlaskClient, collection: Collection
) -> None:
    database = collection.database
    keep_attempt(database, "Mallory", "203.0.113.9", known=False, succeeded=False)
    accounts.add(database, "Joan", "volunteer", by="Tess")
    page = member.get("/watch-book").text
    refused = page[page.index("Refused at the door") : page.index("Signed in</h2>")]
    assert "Mallory" in refused
    assert "203.0.113.9" in refused
    assert "Tess" in page[page.index("Signed in</h2>") :]
    assert "account made" in page
    assert "Joan, volunteer" in page


def test_changes_are_counted_by_person_and_lead_to_the_record(
    member: FlaskClient, collection: Collection
) -> None:
    add(collection.database, Quilt("Stars"), "Ruth")
    save(collection.database, Quilt, 1, {"title": "Bars"}, by="Ruth", expecting=1)
    page = member.get("/watch-book").text
    person = page[page.index("Who changed records") :]
    assert '<th scope="row">Ruth</th><td class="figure">2</td>' in person
    assert 'href="/changes/quilt/1"' in person


def test_versions_room_and_copies_are_told(member: FlaskClient) -> None:
    page = member.get("/watch-book").text
    assert "with SQLite 3." in page
    assert "free on the disk; 0 copies" in page
