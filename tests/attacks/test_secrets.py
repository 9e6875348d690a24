"""What must not leave the house: the key that signs sessions, passwords, tokens of links."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from itsdangerous import URLSafeTimedSerializer
from walking import FIRST, is_paper, readable, token_in

from catalogue.collection import accounts
from catalogue.collection.attempts import attempts, keep_attempt
from catalogue.collection.folder import Collection
from catalogue.collection.passwords import set_password
from catalogue.collection.safekeeping.archiving import archive
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.web import create_app

Maker = Callable[[str], FlaskClient]
WORDS = "seven geese over a barn"


def untold(done: int, total: int) -> None:
    """Progress that nobody looks at."""


def octets_below(folder: Path) -> bytes:
    """Return all that lies below a folder."""
    return b"\n".join(path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file())


def test_the_key_is_made_at_the_first_run_for_its_owner_alone(tmp_path: Path) -> None:
    made, other = (Collection.create(tmp_path / name) for name in ("one", "other"))
    assert not (made.folder / "secret").exists()
    create_app(made)
    assert (made.folder / "secret").stat().st_mode & 0o777 == 0o600
    assert len(made.secret()) == 32
    assert made.secret() != other.secret()


@pytest.mark.parametrize("kind", ["copy", "archive copy"])
def test_no_copy_holds_the_key(hostile: Collection, tmp_path: Path, kind: str) -> None:
    key = hostile.secret()
    if kind == "copy":
        make_copy(hostile.folder, tmp_path / "out", untold)
    else:
        archive(hostile.folder, tmp_path / "out", untold)
    held = octets_below(tmp_path / "out")
    assert b"SQLite format 3" in held
    assert key not in held
    assert key.hex().encode() not in held
    assert not list((tmp_path / "out").rglob("secret*"))


def test_an_archive_copy_holds_no_account_no_password_and_no_link(
    hostile: Collection, tmp_path: Path
) -> None:
    ruth = accounts.add(hostile.database, "Ruth Quagmire", "keeper")
    set_password(hostile.database, ruth, WORDS, "Tess")
    accounts.make_link_token(hostile.database, ruth)
    archive(hostile.folder, tmp_path / "out", untold)
    held = octets_below(tmp_path / "out")
    assert b"$argon2" not in held
    assert b"Ruth Quagmire" not in held
    copied = sqlite3.connect(tmp_path / "out" / "data" / "catalogue.db")
    assert copied.execute("SELECT count(*) FROM sign_in_link").fetchone() == (0,)


def test_the_database_holds_no_password_no_link_and_no_session_as_it_is_used(
    hostile: Collection, client_of: Maker
) -> None:
    ruth = accounts.add(hostile.database, "Ruth", "keeper")
    set_password(hostile.database, ruth, WORDS, "Tess")
    link = accounts.make_link_token(hostile.database, ruth)
    keeper = client_of("keeper")
    with keeper.session_transaction() as session:
        visit = session["_user_id"]
    told = "\n".join(hostile.database.conn.iterdump())
    assert "$argon2id$" in told
    for secret in (WORDS, link, visit):
        assert secret not in told


def test_no_page_shows_a_key_a_hash_or_a_path_of_this_computer(
    attacked: Flask, hostile: Collection, client_of: Maker
) -> None:
    ruth = accounts.add(hostile.database, "Ruth", "keeper")
    set_password(hostile.database, ruth, WORDS, "Tess")
    key, keeper, historian = hostile.secret(), client_of("keeper"), client_of("historian")
    for address in readable(attacked, FIRST):
        if not is_paper(address):
            data = keeper.get(address).get_data()
            assert key not in data, address
            assert b"$argon2" not in data, address
            others = historian.get(address).get_data()  # the keeper is told where the copies lie
            assert str(hostile.folder.parent).encode() not in others, address


# --- sessions ----------------------------------------------------------------------------------


def test_a_session_signed_with_another_key_is_nobodys(attacked: Flask, client_of: Maker) -> None:
    keeper, stranger = client_of("keeper"), attacked.test_client()
    with keeper.session_transaction() as session:
        content = dict(session)
    interface = attacked.session_interface
    own = interface.get_signing_serializer(attacked)  # type: ignore[attr-defined]
    forged = URLSafeTimedSerializer(
        b"guessed" * 4, own.salt, signer=own.signer, signer_kwargs=own.signer_kwargs
    )
    stranger.set_cookie("session", str(forged.dumps(content)))
    assert stranger.get("/quilts/new").status_code == 302
    stranger.set_cookie("session", str(own.dumps({"_user_id": "1", "_fresh": True})))
    assert stranger.get("/quilts/new").status_code == 302, "the account's number opens nothing"


def test_a_session_that_somebody_gave_away_is_not_the_one_that_is_signed_in(
    attacked: Flask, hostile: Collection
) -> None:
    """The attacker's own cookie, planted in another's browser beforehand, stays worthless."""
    ruth = accounts.add(hostile.database, "Ruth", "volunteer")
    set_password(hostile.database, ruth, WORDS, "Tess")
    attacker, victim = attacked.test_client(), attacked.test_client()
    token = token_in(attacker.get("/sign-in").text)
    planted = attacker.get_cookie("session")
    assert planted is not None
    victim.set_cookie("session", planted.value)
    sent = {"csrf_token": token, "name": "Ruth", "password": WORDS}
    assert victim.post("/sign-in", data=sent).status_code == 302
    now = victim.get_cookie("session")
    assert now is not None
    assert now.value != planted.value
    assert victim.get("/quilts/new").status_code == 200
    assert attacker.get("/quilts/new").status_code == 302


def test_a_cookie_carried_to_another_computer_is_not_signed_in(
    attacked: Flask, client_of: Maker
) -> None:
    cookie = client_of("keeper").get_cookie("session")
    assert cookie is not None
    thief = attacked.test_client()
    thief.set_cookie("session", cookie.value)
    answer = thief.get("/accounts", environ_base={"REMOTE_ADDR": "203.0.113.9"})
    assert answer.status_code == 302


@pytest.mark.parametrize("secure", [True, False])
def test_cookies_are_for_this_house_and_not_for_scripts(
    attacked: Flask, hostile: Collection, secure: bool
) -> None:
    attacked.config["SESSION_COOKIE_SECURE"] = secure
    ruth = accounts.add(hostile.database, "Ruth", "volunteer")
    set_password(hostile.database, ruth, WORDS, "Tess")
    client, address = attacked.test_client(), "https://localhost/sign-in"
    token = token_in(client.get(address).text)
    sent = {"csrf_token": token, "name": "Ruth", "password": WORDS}
    answer = client.post(address, data=sent, headers={"Referer": address})
    cookies = answer.headers.getlist("Set-Cookie")
    assert len(cookies) == 2
    for cookie in cookies:
        assert "HttpOnly" in cookie
        assert "SameSite=Lax" in cookie
        assert "Domain=" not in cookie
        assert ("Secure" in cookie) is secure


# --- guessing ----------------------------------------------------------------------------------


def test_five_hundred_guesses_from_many_places_try_few_words_and_lock_nobody_out(
    attacked: Flask, hostile: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What counts is how many guesses are compared with the password at all."""
    from catalogue.web import sign_in

    ruth = accounts.add(hostile.database, "Ruth", "keeper")
    set_password(hostile.database, ruth, WORDS, "Tess")
    attacked.config.update(WTF_CSRF_ENABLED=False)
    owner = attacked.test_client()
    assert owner.post("/sign-in", data={"name": "Ruth", "password": WORDS}).status_code == 302
    compared: list[str] = []

    def compare(database: object, name: str, password: str) -> None:
        compared.append(password)

    with monkeypatch.context() as patched:
        patched.setattr(sign_in, "account_with", compare)
        for number in range(500):
            attacked.test_client().post(
                "/sign-in",
                data={"name": "Ruth", "password": f"guess {number}"},
                environ_base={"REMOTE_ADDR": f"203.0.113.{number % 250}"},
            )
    assert 5 <= len(compared) <= 40
    again = owner.post("/sign-in", data={"name": "Ruth", "password": WORDS})
    assert again.status_code == 302, "the owner's own browser does not wait for strangers"


def test_whoever_found_a_session_open_cannot_guess_at_the_password_for_long(
    attacked: Flask, hostile: Collection, client_of: Maker
) -> None:
    attacked.config.update(WTF_CSRF_ENABLED=False)
    database = hostile.database
    account = accounts.add(database, "Ruth", "keeper")
    set_password(database, account, WORDS, "Tess")
    keeper = attacked.test_client()
    keeper.get(f"/sign-in/{accounts.make_link_token(database, account)}")
    new = {"password": "eight hens under a shed", "again": "eight hens under a shed"}
    guess = keeper.post("/my-account/password", data={"present": "a guess"} | new)
    assert guess.status_code == 422
    assert attempts(database, succeeded=False)[0].name == "Ruth", "a guess is kept in mind"
    for _ in range(12):
        keep_attempt(database, "Ruth", "127.0.0.1", known=True, succeeded=False)
    right = keeper.post("/my-account/password", data={"present": WORDS} | new)
    assert right.status_code == 429
    assert keeper.get("/my-account").status_code == 200
