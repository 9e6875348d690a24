"""What each role may do and see: volunteers take in and edit, historians accept and publish."""

from __future__ import annotations

import pytest
from clients import signed_in
from flask import Flask

from catalogue.collection import accounts, settings
from catalogue.collection.folder import Collection
from catalogue.collection.privacy import LEVELS
from catalogue.collection.records import Contact, Location, Party, Quilt
from catalogue.collection.store import add, load

ROLES = ("volunteer", "historian", "keeper")


@pytest.fixture
def donated(collection: Collection) -> Collection:
    """A quilt whose donor, value and place are on record, and the living donor."""
    donor = add(
        collection.database,
        Party(
            "Zebulon Price",
            living=True,
            biography="Livesquietly",
            contacts=(Contact("3 Quagmire Lane"),),
        ),
        "Tess",
    )
    add(
        collection.database,
        Quilt(
            "Stars",
            donor=donor.id,
            insurance_value="Value9000",
            locations=(Location("ShelfXYZ"),),
            restrictions="Keepflat",
        ),
        "Tess",
    )
    return collection


@pytest.mark.parametrize("role", ROLES)
def test_private_fields_are_for_historians_and_the_keeper(
    app: Flask, donated: Collection, role: str
) -> None:
    client = signed_in(app, role)
    pages = "".join(
        client.get(address).text
        for address in (
            *("/quilts/1", "/quilts/1/edit/arrival", "/quilts/1/edit/keeping", "/changes/quilt/1"),
            *("/people/1", "/people/1/edit", "/changes/person/1"),
        )
    )
    private = ("Value9000", "ShelfXYZ", "Quagmire Lane", "Livesquietly")
    assert [word for word in private if word in pages] == (
        [] if role == "volunteer" else [*private]
    )
    assert "Keepflat" in pages


def test_a_volunteer_writes_down_the_donor_and_cannot_read_it_afterwards(
    app: Flask, donated: Collection
) -> None:
    add(donated.database, Quilt("Bars"), "Tess")
    client = signed_in(app, "volunteer")
    client.post("/quilts/2/edit/arrival", data={"revision": "1", "donor": "Hester Quagg"})
    assert load(donated.database, Quilt, 2).donor == 2
    assert "Hester Quagg" not in client.get("/quilts/2").text
    assert "Hester Quagg" not in client.get("/quilts/2/edit/arrival").text


def test_what_a_form_withholds_cannot_be_sent(app: Flask, donated: Collection) -> None:
    client = signed_in(app, "volunteer")
    sent = {"revision": "1", "donor": "", "insurance_value": "1", "restrictions": "Changed"}
    client.post("/quilts/1/edit/arrival", data=sent)
    quilt = load(donated.database, Quilt, 1)
    assert (quilt.donor, quilt.insurance_value) == (1, "Value9000")
    assert quilt.restrictions == "Changed"


@pytest.mark.parametrize("role", ROLES)
def test_publishing_is_for_historians(app: Flask, donated: Collection, role: str) -> None:
    client = signed_in(app, role)
    sent = {"revision": "1", "title": "Stars", "status": "accepted", "published": "y"}
    client.post("/quilts/1/edit/identity", data=sent | {"object_type": "quilt"})
    quilt = load(donated.database, Quilt, 1)
    assert quilt.status == "accepted"
    assert quilt.published is (role != "volunteer")


@pytest.mark.parametrize(
    ("address", "least"),
    [
        ("/quilts/1/measurements/decision", "historian"),
        ("/quilts/1/phases/1/date", "historian"),
        ("/people/alike", "historian"),
        ("/people/parted", "historian"),
        ("/house", "keeper"),
        ("/how-dates-are-read", "keeper"),
        ("/accounts", "keeper"),
        ("/accounts/1", "keeper"),
        ("/accounts/1/link", "keeper"),
        ("/who-sees-what", "keeper"),
        ("/safekeeping/copies", "keeper"),
        ("/safekeeping/policy", "keeper"),
    ],
)
@pytest.mark.parametrize("role", ROLES)
def test_what_needs_a_role_is_refused_to_those_before_it(
    app: Flask, donated: Collection, address: str, least: str, role: str
) -> None:
    answer = signed_in(app, role).post(address)
    allowed = accounts.ROLES.index(role) >= accounts.ROLES.index(least)
    assert (answer.status_code == 403) is not allowed, answer.status_code


def test_the_keeper_moves_a_field_to_all_members_and_back(app: Flask, donated: Collection) -> None:
    keeper = signed_in(app, "keeper")
    volunteer = signed_in(app, "volunteer")
    page = keeper.get("/who-sees-what").text
    assert "locations" in page
    chosen = {f"{kind}.{name}": level for (kind, name), level in LEVELS.items()}
    keeper.post("/who-sees-what", data=chosen | {"Quilt.locations": "members"})
    assert "ShelfXYZ" in volunteer.get("/quilts/1").text
    keeper.post("/who-sees-what", data=chosen)
    assert "ShelfXYZ" not in volunteer.get("/quilts/1").text


def test_nothing_in_the_table_becomes_public(app: Flask, donated: Collection) -> None:
    keeper = signed_in(app, "keeper")
    keeper.post("/who-sees-what", data={"Quilt.locations": "public", "Quilt.title": "private"})
    assert settings.levels(donated.database) == LEVELS


def test_an_invitation_makes_an_account_and_shows_its_link_once(
    app: Flask, donated: Collection
) -> None:
    keeper = signed_in(app, "keeper")
    page = keeper.post("/accounts", data={"name": "Joan", "role": "historian"}).text
    assert "http://localhost/sign-in/" in page
    account = accounts.by_name(donated.database, "joan")
    assert account is not None
    assert (account.role, account.has_password) == ("historian", False)
    assert keeper.post("/accounts", data={"name": "JOAN", "role": "keeper"}).status_code == 422
    assert "/sign-in/" not in keeper.get("/accounts").text.split("</header>")[1].split("<footer")[0]


@pytest.mark.parametrize("address", ["/watch-book", "/accounts", "/who-sees-what", "/safekeeping"])
@pytest.mark.parametrize("role", ROLES)
def test_the_keepers_pages_are_the_keepers_alone(
    app: Flask, donated: Collection, address: str, role: str
) -> None:
    expected = 200 if role == "keeper" else 403
    assert signed_in(app, role).get(address).status_code == expected
