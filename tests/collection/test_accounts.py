"""Accounts keep their last keeper; passwords are long, uncommon, and kept as hashes alone."""

from __future__ import annotations

import unicodedata

import pytest

from catalogue.collection import accounts, settings
from catalogue.collection.accounts import Account, AccountError
from catalogue.collection.folder import Collection
from catalogue.collection.happenings import happenings
from catalogue.collection.passwords import PasswordError, account_with, set_password


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
