"""Passwords: what makes one good enough, keeping its hash, and knowing it again."""

from __future__ import annotations

import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from argon2.profiles import RFC_9106_LOW_MEMORY
from sqlite_utils import Database
from zxcvbn import zxcvbn

from catalogue.collection import accounts, settings
from catalogue.collection.accounts import Account
from catalogue.collection.database import writing
from catalogue.collection.happenings import note
from catalogue.collection.store import now

# NIST SP 800-63B-4, section 3.1.1.2 (2025): 15 characters where a password is the only factor, no
# rules on kinds of characters, a check against common and expected ones; at least 64 allowed.
SHORTEST, LONGEST = 15, 200
# zxcvbn's scale of guesses needed runs from 0 to 4; 3 is 10^8 and more.
_LEAST_SCORE = 3
# zxcvbn looks at so many characters and no more.
_EXAMINED = 72

# Argon2id, second recommended option of RFC 9106, section 4: 64 MiB, 3 passes, 4 lanes.
_HASHER = PasswordHasher.from_parameters(RFC_9106_LOW_MEMORY)
# Known again where there is no account or no password, so that both answers take as long.
_NOBODY = _HASHER.hash("nobody signs in with this")


class PasswordError(ValueError):
    """A password that is not good enough; the message says why and does not repeat it."""


def set_password(database: Database, account: Account, password: str, by: str) -> None:
    """Keep a new password, end every session of the account and make its links worthless.

    Raises PasswordError.
    """
    _refuse_weak(database, account, password)
    hashed = _HASHER.hash(_normal(password))
    with writing(database):
        database.execute("UPDATE account SET password = ? WHERE id = ?", [hashed, account.id])
        database.execute(
            "UPDATE visit SET ended = ? WHERE account = ? AND ended IS NULL", [now(), account.id]
        )
        accounts.void_links(database, account)
        note(database, by, "password set", account.name)


def account_with(database: Database, name: str, password: str) -> Account | None:
    """Return the open account of this name if this is its password; a wrong name takes as long."""
    account = accounts.by_name(database, name)
    kept = _NOBODY
    if account is not None and account.has_password:
        row = database.execute("SELECT password FROM account WHERE id = ?", [account.id]).fetchone()
        kept = row[0]
    known = _is_known(kept, password)
    if account is None or account.closed or not account.has_password or not known:
        return None
    return account


def _is_known(kept: str, password: str) -> bool:
    try:
        return len(password) <= LONGEST and _HASHER.verify(kept, _normal(password))
    except (VerificationError, InvalidHashError):
        return False


def _refuse_weak(database: Database, account: Account, password: str) -> None:
    if len(password) < SHORTEST:
        raise PasswordError(
            f"It has {len(password)} characters and needs {SHORTEST}: four plain words that do not"
            " belong together are easy to keep in mind."
        )
    if len(password) > LONGEST:
        raise PasswordError(f"It has {len(password)} characters; {LONGEST} is the most.")
    named = (account.name, settings.read(database).name, "quilt")
    expected = [*named, *(name.replace(" ", "") for name in named), *account.name.split()]
    judged = zxcvbn(password[:_EXAMINED], user_inputs=expected)
    if judged["score"] < _LEAST_SCORE:
        raise PasswordError(
            "It is among those that are guessed first: common words, names, keys in a row, dates,"
            " repeats. Take four plain words that do not belong together."
        )


def _normal(password: str) -> str:
    """Return the same password however a keyboard composes its letters (NFKC, as NIST asks)."""
    return unicodedata.normalize("NFKC", password)
