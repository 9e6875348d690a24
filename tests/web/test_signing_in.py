"""A link signs in once; after that it is paper."""

from __future__ import annotations

from flask import Flask

from catalogue.collection import accounts
from catalogue.collection.folder import Collection


def link(collection: Collection) -> str:
    keeper = accounts.add(collection.database, "Tess", "keeper")
    return f"/sign-in/{accounts.make_link_token(collection.database, keeper)}"


def test_a_link_signs_in_once(app: Flask, collection: Collection) -> None:
    address = link(collection)
    first, second = app.test_client(), app.test_client()
    assert first.get(address).status_code == 302
    assert "Signed in as Tess" in first.get("/").text
    answer = second.get(address)
    assert answer.status_code == 403
    assert "This link is used up" in answer.text
    assert "Signed in" not in second.get("/").text


def test_looking_at_a_link_without_opening_it_does_not_use_it_up(
    app: Flask, collection: Collection
) -> None:
    address = link(collection)
    assert app.test_client().head(address).status_code == 200
    assert app.test_client().get(address).status_code == 302


def test_a_link_of_yesterday_is_used_up(app: Flask, collection: Collection) -> None:
    address = link(collection)
    collection.database.execute("UPDATE sign_in_link SET expires = '2020-01-01T00:00:00Z'")
    assert app.test_client().get(address).status_code == 403


def test_a_guessed_link_is_refused(app: Flask) -> None:
    assert app.test_client().get("/sign-in/guess").status_code == 403


def test_only_a_hash_of_the_link_is_kept(app: Flask, collection: Collection) -> None:
    address = link(collection)
    kept = collection.database.execute("SELECT token_sha256 FROM sign_in_link").fetchone()[0]
    assert kept not in address
    assert address.rsplit("/", 1)[1] not in kept


def test_signing_out_ends_the_session(app: Flask, collection: Collection) -> None:
    client = app.test_client()
    client.get(link(collection))
    client.post("/sign-out")
    assert client.get("/quilts/new").status_code == 302


def test_the_key_of_the_sessions_is_for_its_owner_alone(collection: Collection) -> None:
    key = collection.secret()
    assert len(key) == 32
    assert collection.secret() == key
    assert (collection.folder / "secret").stat().st_mode & 0o077 == 0
