"""Signing in: by password or by a link that works once; slowed down, ended, and never fixed."""

from __future__ import annotations

import re

import pytest
from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection import accounts
from catalogue.collection.attempts import keep_attempt
from catalogue.collection.folder import Collection
from catalogue.collection.passwords import set_password

PASSWORD = "seven geese over a barn"
OTHER = "a kettle full of thimbles"


def link(collection: Collection, purpose: accounts.Purpose = "sign in") -> str:
    keeper = accounts.add(collection.database, "Tess", "keeper")
    return f"/sign-in/{accounts.make_link_token(collection.database, keeper, purpose)}"


@pytest.fixture
def tess(collection: Collection) -> Collection:
    """A collection whose keeper has a password."""
    keeper = accounts.add(collection.database, "Tess", "keeper")
    set_password(collection.database, keeper, PASSWORD, "Tess")
    return collection


def signed_in(client: FlaskClient) -> bool:
    return ">Tess</a>, keeper" in client.get("/").text


def attempt(client: FlaskClient, password: str, name: str = "Tess", address: str = "127.0.0.1"):
    return client.post(
        "/sign-in",
        data={"name": name, "password": password},
        environ_base={"REMOTE_ADDR": address},
    )


# --- links -------------------------------------------------------------------------------------


def test_a_link_signs_in_once(app: Flask, collection: Collection) -> None:
    address = link(collection)
    first, second = app.test_client(), app.test_client()
    assert first.get(address).status_code == 302
    assert signed_in(first)
    answer = second.get(address)
    assert answer.status_code == 403
    assert "This link is used up" in answer.text
    assert not signed_in(second)


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


def test_an_invitation_leads_to_a_password_and_is_used_up_by_it(
    app: Flask, collection: Collection
) -> None:
    address = link(collection, "password")
    client = app.test_client()
    assert "Choose the password" in client.get(address).text
    assert not signed_in(client)
    answer = client.post(address, data={"password": PASSWORD, "again": OTHER})
    assert answer.status_code == 422
    client.post(address, data={"password": PASSWORD, "again": PASSWORD})
    assert signed_in(client)
    assert client.get(address).status_code == 403
    assert attempt(app.test_client(), PASSWORD).status_code == 302


def test_setting_a_password_ends_every_session_and_every_other_link(
    app: Flask, tess: Collection
) -> None:
    old, reset = app.test_client(), link(tess, "password")
    waiting = link(tess)
    attempt(old, PASSWORD)
    assert signed_in(old)
    app.test_client().post(reset, data={"password": OTHER, "again": OTHER})
    assert not signed_in(old)
    assert app.test_client().get(waiting).status_code == 403
    assert attempt(app.test_client(), PASSWORD).status_code == 403


# --- passwords ---------------------------------------------------------------------------------


def test_the_right_password_signs_in_and_a_wrong_one_does_not(app: Flask, tess: Collection) -> None:
    client = app.test_client()
    answer = attempt(client, "seven geese over a bard")
    assert answer.status_code == 403
    assert "Name and password do not go together." in answer.text
    assert attempt(client, PASSWORD, name="tess").status_code == 302
    assert signed_in(client)


def test_a_wrong_name_is_answered_as_a_wrong_password_is(app: Flask, tess: Collection) -> None:
    wrong_name = attempt(app.test_client(), PASSWORD, name="Nobody")
    wrong_word = attempt(app.test_client(), OTHER)
    assert wrong_name.status_code == wrong_word.status_code == 403
    token = re.compile(r'value="[^"]*"')
    assert token.sub("", wrong_name.text) == token.sub("", wrong_word.text)


def test_a_closed_account_does_not_sign_in_and_its_sessions_end(
    app: Flask, tess: Collection
) -> None:
    accounts.add(tess.database, "Ruth", "keeper")
    client = app.test_client()
    attempt(client, PASSWORD)
    account = accounts.by_name(tess.database, "Tess")
    assert account is not None
    accounts.close(tess.database, account, "Ruth")
    assert not signed_in(client)
    assert attempt(app.test_client(), PASSWORD).status_code == 403


# --- guessing ----------------------------------------------------------------------------------


def test_whoever_guesses_waits_longer_and_longer(app: Flask, tess: Collection) -> None:
    client = app.test_client()
    for _ in range(10):
        _failed(tess, "Tess")
    first = attempt(client, PASSWORD)
    assert first.status_code == 429
    assert "Too many attempts" in first.text
    for _ in range(3):
        _failed(tess, "Tess")
    later = attempt(client, PASSWORD)
    assert int(later.headers["Retry-After"]) > 3 * int(first.headers["Retry-After"])


def test_waiting_has_an_end(app: Flask, tess: Collection) -> None:
    client = app.test_client()
    for _ in range(12):
        _failed(tess, "Tess")
    assert attempt(client, PASSWORD).status_code == 429
    _an_hour_passes(tess)
    assert attempt(client, PASSWORD).status_code == 302


def test_one_address_that_tries_many_names_waits(app: Flask, tess: Collection) -> None:
    client = app.test_client()
    for number in range(24):
        _failed(tess, f"Somebody {number}")
    assert attempt(client, PASSWORD).status_code == 429
    assert attempt(client, PASSWORD, address="10.0.0.2").status_code == 302


def test_many_addresses_that_guess_at_one_account_slow_strangers_and_not_its_owner(
    app: Flask, tess: Collection
) -> None:
    owner = app.test_client()
    assert attempt(owner, PASSWORD).status_code == 302
    owner.post("/sign-out")
    for number in range(26):
        _failed(tess, "Tess", f"10.0.1.{number}")
    stranger = attempt(app.test_client(), PASSWORD, address="10.0.2.1")
    assert stranger.status_code == 429
    assert int(stranger.headers["Retry-After"]) <= 60
    assert attempt(owner, PASSWORD).status_code == 302


def test_a_clock_that_went_back_makes_nobody_wait_for_ever(app: Flask, tess: Collection) -> None:
    client = app.test_client()
    for _ in range(6):
        _failed(tess, "Tess")
    tess.database.execute("UPDATE sign_in_attempt SET at = '2099-01-01T00:00:00Z'")
    assert int(attempt(client, PASSWORD).headers["Retry-After"]) <= 900


def _failed(collection: Collection, name: str, address: str = "127.0.0.1") -> None:
    keep_attempt(collection.database, name, address, known=False, succeeded=False)


def _an_hour_passes(collection: Collection) -> None:
    collection.database.execute("UPDATE sign_in_attempt SET at = '2020-01-01T00:00:00Z'")


# --- sessions ----------------------------------------------------------------------------------


def test_signing_out_ends_the_session_for_a_kept_cookie_too(
    app: Flask, collection: Collection
) -> None:
    client = app.test_client()
    client.get(link(collection))
    kept = client.get_cookie("session")
    assert kept is not None
    client.post("/sign-out")
    assert client.get("/quilts/new").status_code == 302
    client.set_cookie("session", kept.value)
    assert not signed_in(client)


def test_signing_in_begins_a_session_of_its_own(app: Flask, tess: Collection) -> None:
    client = app.test_client()
    client.get("/sign-in")
    with client.session_transaction() as session:
        session["planted"] = "by somebody else"
    attempt(client, PASSWORD)
    with client.session_transaction() as session:
        assert "planted" not in session


def test_sessions_are_listed_and_ended(app: Flask, tess: Collection) -> None:
    here, there = app.test_client(), app.test_client()
    attempt(here, PASSWORD, address="10.0.0.1")
    attempt(there, PASSWORD, address="10.0.0.9")
    page = here.get("/my-account", environ_base={"REMOTE_ADDR": "10.0.0.1"})
    assert "10.0.0.9" in page.text
    here.post("/my-account/sessions", environ_base={"REMOTE_ADDR": "10.0.0.1"})
    there_now = there.get("/", environ_base={"REMOTE_ADDR": "10.0.0.9"}).text
    assert ">Tess</a>, keeper" not in there_now
    here_now = here.get("/", environ_base={"REMOTE_ADDR": "10.0.0.1"}).text
    assert ">Tess</a>, keeper" in here_now


@pytest.mark.parametrize("column", ["seen", "begun"])
def test_a_session_ends_by_age(app: Flask, tess: Collection, column: str) -> None:
    client = app.test_client()
    attempt(client, PASSWORD)
    assert signed_in(client)
    tess.database.execute(f"UPDATE visit SET {column} = '2020-01-01T00:00:00Z'")
    assert not signed_in(client)


def test_cookies_are_out_of_reach_of_scripts_and_of_other_sites(
    app: Flask, tess: Collection
) -> None:
    cookies = attempt(app.test_client(), PASSWORD).headers.getlist("Set-Cookie")
    assert len(cookies) == 2
    for cookie in cookies:
        assert "HttpOnly" in cookie
        assert "SameSite=Lax" in cookie


def test_the_key_of_the_sessions_is_for_its_owner_alone(collection: Collection) -> None:
    key = collection.secret()
    assert len(key) == 32
    assert collection.secret() == key
    assert (collection.folder / "secret").stat().st_mode & 0o077 == 0
