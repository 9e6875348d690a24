"""What is private never leaves the members' pages, whatever address is asked for."""

from __future__ import annotations

import pytest
from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    ConditionReport,
    Contact,
    Location,
    OwnershipPeriod,
    Party,
    Phase,
    PhaseMaker,
    Quilt,
)
from catalogue.collection.store import add
from catalogue.values.dates import read_date

PLANTED = ("Zebulon", "Quagmire Lane", "Value9000", "ShelfXYZ", "Mothholes", "Keepsecret")


@pytest.fixture
def planted(collection: Collection) -> Collection:
    """A published quilt with a private word in every private field, and an unpublished one."""
    database = collection.database
    donor = add(
        database,
        Party("Zebulon Price", living=True, contacts=(Contact("3 Quagmire Lane"),)),
        "Tess",
    )
    maker = add(database, Party("Ada Winter", contacts=(Contact("4 Quagmire Lane"),)), "Tess")
    add(
        database,
        Quilt(
            "Stars",
            published=True,
            donor=donor.id,
            received=read_date("1987"),
            restrictions="Keepsecret",
            insurance_value="Value9000",
            phases=(Phase("pieced", read_date("1930"), makers=(PhaseMaker(maker.id),)),),
            ownership=(OwnershipPeriod("Zebulon Price", donor.id, place="3 Quagmire Lane"),),
            conditions=(ConditionReport("good", text="Mothholes"),),
            locations=(Location("ShelfXYZ"),),
        ),
        "Tess",
    )
    add(database, Quilt("Zebulon's quilt", history="Keepsecret"), "Tess")
    return collection


def addresses(app: Flask) -> list[str]:
    """Every address that can be read, filled in with the ids of the planted records."""
    found = []
    for rule in app.url_map.iter_rules():
        if "GET" in (rule.methods or ()) and rule.endpoint != "static":
            for id in (1, 2):
                values = {
                    **{"id": id, "number": 1, "photo": 1, "key": "arrival", "token": "x"},
                    **{"size": "6x4", "format": "png", "suffix": "jpg", "kind": "quilt"},
                    "facet": "maker",
                }
                with app.test_request_context():
                    found.append(app.url_map.bind("").build(rule.endpoint, values))
    searches = [f"/search?q={word}" for word in PLANTED] + ["/?as=table", "/search?maker=1"]
    return sorted({address.split("?id")[0] for address in found}) + searches


def test_no_page_shows_a_visitor_a_private_word(
    visitor: FlaskClient, app: Flask, planted: Collection
) -> None:
    for address in addresses(app):
        answer = visitor.get(address)
        assert answer.status_code in (200, 302, 403, 404), address
        shown = answer.get_data().replace(address.encode(), b"")
        if address.startswith("/search?q="):
            assert b"0 quilts found" in shown, address
            continue
        for word in PLANTED:
            assert word.encode() not in shown, f"{word} at {address}"


def test_members_do_see_them(member: FlaskClient, planted: Collection) -> None:
    page = member.get("/quilts/1").text
    for word in ("Zebulon", "Value9000", "ShelfXYZ", "Mothholes", "Keepsecret"):
        assert word in page


def test_an_unpublished_quilt_does_not_exist_for_visitors(
    visitor: FlaskClient, planted: Collection
) -> None:
    assert visitor.get("/quilts/2").status_code == 404
    assert "1 quilt," in visitor.get("/").text


def test_a_person_who_made_nothing_that_is_published_does_not_exist_for_visitors(
    visitor: FlaskClient, planted: Collection
) -> None:
    assert visitor.get("/people/1").status_code == 404
    assert visitor.get("/people/2").status_code == 200


def test_every_page_that_writes_sends_visitors_to_sign_in(app: Flask, planted: Collection) -> None:
    visitor = app.test_client()
    for rule in app.url_map.iter_rules():
        if "POST" not in (rule.methods or ()) or rule.endpoint.startswith("sign_in."):
            continue
        values = {"id": 1, "key": "identity", "number": 1, "photo": 1, "kind": "quilt"}
        address = app.url_map.bind("").build(
            rule.endpoint, {name: values[name] for name in rule.arguments}
        )
        answer = visitor.post(address)
        assert answer.status_code == 302, address
        assert answer.headers["Location"].startswith("/sign-in"), address
