"""Accounts keep their last keeper; passwords are long, uncommon, and kept as hashes alone."""

from __future__ import annotations

import unicodedata
from datetime import timedelta

import pytest

from catalogue import serving
from catalogue.collection import accounts, settings, visits
from catalogue.collection.accounts import Account, AccountError
from catalogue.collection.attempts import keep_attempt
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.happenings import happenings
from catalogue.collection.passwords import PasswordError, account_with, set_password
from catalogue.collection.store import from_now


@pytest.fixture
def ruth(collection: Collection) -> Account:
    settings.write(collection.database, settings.Settings("Ashlar Bend Quilters' Guild"))
    return accounts.add(collection.database, "Ruth Thessaly", "keeper")


@pytest.mark.parametrize(
    ("password", "says"),
    [
        ("short", "It has 5 characters and needs 15"),
        ("x" * 201, "200 is the most"),
        ("passwordpassword", "guessed first"),
        ("aaaaaaaaaaaaaaaa", "guessed first"),
        ("1234567890123456", "guessed first"),
        ("qwertyuiopasdfgh", "guessed first"),
        ("RuthThessaly1987", "guessed first"),
    ],
)
def test_passwords_that_are_short_or_guessed_first_are_refused(
    collection: Collection, ruth: Account, password: str, says: str
) -> None:
    with pytest.raises(PasswordError, match=says) as refused:
        set_password(collection.database, ruth, password, "Ruth")
    assert password not in str(refused.value)


@pytest.mark.parametrize(
    "password",
    ["seven geese over a barn", "Ein Fass voll blauer Knöpfe", "紺 の 布 を 縫う 祖母 の 指 と 糸"],
)
def test_any_letters_and_spaces_make_a_password(
    collection: Collection, ruth: Account, password: str
) -> None:
    set_password(collection.database, ruth, password, "Ruth")
    assert account_with(collection.database, "ruth thessaly", password) is not None
    other_keyboard = unicodedata.normalize("NFD", password)
    assert account_with(collection.database, "Ruth Thessaly", other_keyboard) is not None
    assert account_with(collection.database, "Ruth Thessaly", password + "x") is None


def test_only_an_argon2id_hash_is_kept(collection: Collection, ruth: Account) -> None:
    set_password(collection.database, ruth, "seven geese over a barn", "Ruth")
    kept = collection.database.execute("SELECT password FROM account").fetchone()[0]
    assert kept.startswith("$argon2id$v=19$m=65536,t=3,p=4$")  # RFC 9106, section 4, second option
    assert "geese" not in kept


def test_an_account_without_a_password_opens_to_none(collection: Collection, ruth: Account) -> None:
    for password in ("", "nobody signs in with this"):
        assert account_with(collection.database, "Ruth Thessaly", password) is None


def test_the_last_keeper_stays(collection: Collection, ruth: Account) -> None:
    for lose in (
        lambda: accounts.close(collection.database, ruth, "Ruth"),
        lambda: accounts.change_role(collection.database, ruth, "volunteer", "Ruth"),
    ):
        with pytest.raises(AccountError, match="is the only keeper"):
            lose()
    accounts.add(collection.database, "Joan", "keeper")
    accounts.change_role(collection.database, ruth, "volunteer", "Joan")
    found = accounts.by_name(collection.database, "Ruth Thessaly")
    assert found is not None
    assert found.role == "volunteer"


def test_what_happens_to_accounts_is_kept_in_mind(collection: Collection, ruth: Account) -> None:
    accounts.add(collection.database, "Joan", "volunteer", by="Ruth Thessaly")
    joan = accounts.by_name(collection.database, "joan")
    assert joan is not None
    accounts.change_role(collection.database, joan, "historian", "Ruth Thessaly")
    accounts.close(collection.database, joan, "Ruth Thessaly")
    told = [(each.what, each.about) for each in happenings(collection.database)]
    assert told[:3] == [
        ("account closed", "Joan"),
        ("role changed", "Joan: volunteer to historian"),
        ("account made", "Joan, volunteer"),
    ]


@pytest.mark.parametrize(
    ("role", "may"),
    [
        ("volunteer", {"volunteer"}),
        ("historian", {"volunteer", "historian"}),
        ("keeper", {"volunteer", "historian", "keeper"}),
    ],
)
def test_each_role_may_do_what_those_before_it_may(role: str, may: set[str]) -> None:
    account = Account(1, "Joan", role)
    assert {each for each in accounts.ROLES if account.is_at_least(each)} == may


def test_an_unknown_role_is_refused(collection: Collection) -> None:
    with pytest.raises(AccountError, match="“owner” is not a role"):
        accounts.add(collection.database, "Joan", "owner")


@pytest.mark.parametrize("name", ["", "  "])
def test_an_account_without_a_name_is_refused(collection: Collection, name: str) -> None:
    with pytest.raises(AccountError, match="needs a name"):
        accounts.add(collection.database, name, "keeper")


def test_what_was_over_long_ago_is_forgotten(collection: Collection, ruth: Account) -> None:
    database = collection.database
    visits.begin(database, ruth, "127.0.0.1", "a browser")
    accounts.make_link_token(database, ruth)
    keep_attempt(database, "Ruth", "127.0.0.1", known=False, succeeded=False)
    for change in ("visit SET seen", "sign_in_link SET expires", "sign_in_attempt SET at"):
        database.execute(f"UPDATE {change} = '2020-01-01T00:00:00Z'")
    keep_attempt(database, "Ruth", "127.0.0.1", known=False, succeeded=True)
    tables = ("visit", "sign_in_link", "sign_in_attempt")
    assert [database.table(table).count for table in tables] == [0, 0, 1]


def test_whoever_is_signed_in_goes_on_reading_where_nothing_can_be_written(
    collection: Collection, ruth: Account
) -> None:
    token = visits.begin(collection.database, ruth, "127.0.0.1", "a browser")
    collection.database.execute("UPDATE visit SET seen = ?", [from_now(-timedelta(hours=1))])
    collection.database.execute("PRAGMA query_only = ON")
    assert visits.account_of(collection.database, token) == ruth


# --- who is let in at the start ----------------------------------------------------------------


def link_of(collection: Collection, monkeypatch: pytest.MonkeyPatch, host: str) -> str:
    said: list[str] = []
    closed = lambda app, *, sockets, **more: sockets[0].close()  # noqa: E731
    monkeypatch.setattr(serving.waitress, "serve", closed)
    serving.serve(collection, serving.Where(host, 0), said.append)
    return said[1].rsplit("/", 1)[1]


def test_the_link_at_the_start_lets_a_keeper_in_whatever_became_of_the_first(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    database = collection.database
    first = accounts.add(database, "Keeper", "keeper")
    ruth = accounts.add(database, "Ruth Thessaly", "keeper")
    accounts.close(database, first, "Ruth Thessaly")
    token = link_of(collection, monkeypatch, "localhost")
    assert accounts.use_link_token(database, token) == ruth


def test_a_keeper_is_made_beside_a_volunteer_of_that_name(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    accounts.add(collection.database, "Keeper", "volunteer")
    token = link_of(collection, monkeypatch, "127.0.0.1")
    let_in = accounts.use_link_token(collection.database, token)
    assert let_in is not None
    assert (let_in.name, let_in.role) == ("Keeper 2", "keeper")


def test_a_host_that_is_none_is_said_in_a_sentence(collection: Collection) -> None:
    with pytest.raises(CollectionError, match="“no such host” is no address of this computer"):
        serving.serve(collection, serving.Where("no such host"), print)
