"""Signed-in browsers: begun by signing in; ended by signing out, by their owner, or by age."""

from __future__ import annotations

import secrets
import sqlite3
from dataclasses import dataclass
from datetime import timedelta

from sqlite_utils import Database

from catalogue.collection import accounts
from catalogue.collection.accounts import Account
from catalogue.collection.database import writing
from catalogue.collection.store import from_now, now
from catalogue.collection.trouble import trouble_in

# Left alone for half a day, or a month after signing in, it ends by itself (thirty days at most,
# from memory of NIST SP 800-63B-4; half a day is our own choice).
_IDLE, _LONGEST = timedelta(hours=12), timedelta(days=30)
# How old "seen" may become before it is written again: a page shall not cost a write.
_SEEN_EVERY = timedelta(minutes=5)


@dataclass(frozen=True)
class Visit:
    """One signed-in browser."""

    id: int
    begun: str
    seen: str
    address: str
    browser: str
    here: bool = False


def begin(database: Database, account: Account, address: str, browser: str) -> str:
    """Begin a session, and return the token by which its browser is known; only a hash is kept."""
    token = secrets.token_urlsafe(32)
    with writing(database):
        database.execute(
            "INSERT INTO visit (token_sha256, account, begun, seen, address, browser)"
            " VALUES (?, ?, ?, ?, ?, ?)",
            [accounts.digest(token), account.id, now(), now(), address[:60], browser[:200]],
        )
    return token


def account_of(database: Database, token: str) -> Account | None:
    """Return whose session a token belongs to; None where it has ended or its account is closed."""
    row = database.execute(
        "SELECT id, account, begun, seen FROM visit WHERE token_sha256 = ? AND ended IS NULL",
        [accounts.digest(token)],
    ).fetchone()
    if row is None or from_now(-_LONGEST) > row[2] or from_now(-_IDLE) > row[3]:
        return None
    if row[3] < from_now(-_SEEN_EVERY):
        _note_seen(database, row[0])
    account = accounts.find(database, row[1])
    return account if account is not None and not account.closed else None


def _note_seen(database: Database, id: int) -> None:
    """Note that a session is used; where nothing can be written now, reading goes on."""
    try:
        database.execute("UPDATE visit SET seen = ? WHERE id = ?", [now(), id])
    except sqlite3.Error as error:
        if trouble_in(error) is None:
            raise


def visits_of(database: Database, account: Account, token: str = "") -> list[Visit]:
    """Return the sessions of an account that have not ended, the latest used first.

    The one of the token is marked as `here`.
    """
    rows = database.query(
        "SELECT * FROM visit WHERE account = ? AND ended IS NULL AND begun >= ? AND seen >= ?"
        " ORDER BY seen DESC, id DESC",
        [account.id, from_now(-_LONGEST), from_now(-_IDLE)],
    )
    return [
        Visit(
            row["id"],
            row["begun"],
            row["seen"],
            row["address"],
            row["browser"],
            row["token_sha256"] == accounts.digest(token),
        )
        for row in rows
    ]


def end(database: Database, account: Account, id: int | None = None, *, but: str = "") -> None:
    """End one session of an account, or all but the one of a token."""
    with writing(database):
        database.execute(
            "UPDATE visit SET ended = ? WHERE account = ? AND ended IS NULL"
            " AND (? IS NULL OR id = ?) AND token_sha256 <> ?",
            [now(), account.id, id, id, accounts.digest(but)],
        )


def end_of_token(database: Database, token: str) -> None:
    """End the session of a token."""
    with writing(database):
        database.execute(
            "UPDATE visit SET ended = ? WHERE token_sha256 = ? AND ended IS NULL",
            [now(), accounts.digest(token)],
        )
