"""Related material is recorded, linked to what it belongs to, found, and shown where allowed."""

from __future__ import annotations

import io

import pytest
from flask.testing import FlaskClient
from PIL import Image

from catalogue.collection.folder import Collection
from catalogue.collection.records import Link, Party, Pattern, Quilt, RelatedItem
from catalogue.collection.store import add, load


@pytest.fixture
def shelf(collection: Collection) -> Collection:
    add(collection.database, Quilt("Stars", accession="1987.4.1", published=True), "Tess")
    add(collection.database, Quilt("Hidden one"), "Tess")
    add(collection.database, Pattern("Evening Star"), "Tess")
    add(collection.database, Party("Ada Winter"), "Tess")
    return collection


def letter(**more: str) -> dict[str, str]:
    return {
        "title": "Letter about the wedding",
        "kind": "letter",
        "date": "May 1931",
        "kept": "box ShelfXYZ",
        "published": "y",
        "links-0-what": "quilt",
        "links-0-name": "1987.4.1",
        "links-1-what": "pattern",
        "links-1-name": "evening star",
        **more,
    }


def test_material_is_linked_to_what_it_belongs_to(member: FlaskClient, shelf: Collection) -> None:
    assert member.post("/related/new", data=letter()).headers["Location"] == "/related/1"
    item = load(shelf.database, RelatedItem, 1)
    assert [(link.quilt, link.pattern) for link in item.links] == [(1, None), (None, 1)]
    for address in ("/quilts/1", "/patterns/1", "/related", "/search?q=wedding"):
        assert "Letter about the wedding" in member.get(address).text, address


def test_what_it_belongs_to_has_to_be_on_record(member: FlaskClient, shelf: Collection) -> None:
    answer = member.post("/related/new", data=letter(**{"links-0-name": "1999.9"}))
    assert answer.status_code == 422
    assert "No quilt of the name “1999.9” is on record." in answer.text


def test_links_are_shown_again_as_they_were_typed(member: FlaskClient, shelf: Collection) -> None:
    member.post("/related/new", data=letter())
    page = member.get("/related/1/edit").text
    assert 'value="1987.4.1 Stars"' in page
    sent = letter(**{"revision": "1", "links-0-id": "1", "links-0-name": "1987.4.1 Stars"})
    member.post("/related/1/edit", data=sent | {"links-1-id": "2"})
    assert load(shelf.database, RelatedItem, 1).revision == 1  # nothing differs


def test_visitors_see_neither_where_it_is_kept_nor_what_is_hidden(
    member: FlaskClient, visitor: FlaskClient, shelf: Collection
) -> None:
    hidden = RelatedItem("Private note", links=(Link(quilt=1),))
    shown = RelatedItem("Leaflet", kept="ShelfXYZ", published=True, links=(Link(quilt=2),))
    add(shelf.database, hidden, "Tess")
    add(shelf.database, shown, "Tess")
    assert visitor.get("/related/1").status_code == 404
    assert "Private note" not in visitor.get("/quilts/1").text
    page = visitor.get("/related/2").text
    assert "Leaflet" in page
    assert "ShelfXYZ" not in page
    assert "Hidden one" not in page


def test_pictures_of_it_are_kept_and_shown(member: FlaskClient, shelf: Collection) -> None:
    member.post("/related/new", data=letter())
    buffer = io.BytesIO()
    Image.new("RGB", (300, 200), "#aa3333").save(buffer, "PNG")
    buffer.seek(0)
    member.post("/related/1/photographs/add", data={"photographs": (buffer, "leaf.png")})
    assert member.get("/related/1/photographs/1/list.webp").status_code == 200
    assert "/related/1/photographs/1/page.webp" in member.get("/related/1").text
