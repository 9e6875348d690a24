"""Who may sign in, and the links that let them in once."""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.store import now

ROLES = ("volunteer", "historian", "keeper")

_LIFETIME = timedelta(hours=24)


@dataclass(frozen=True)
class Account:
    """Somebody who works on the collection."""

    id: int
    name: str
    role: str


def add(database: Database, name: str, role: str) -> Account:
    """Return the account of this name, made with this role where there was none."""
    with writing(database):
        database.execute(
            "INSERT OR IGNORE INTO account (name, role, created) VALUES (?, ?, ?)",
            [name, role, now()],
        )
    row = next(iter(database.query("SELECT * FROM account WHERE name = ?", [name])))
    return Account(row["id"], row["name"], row["role"])


def find(database: Database, id: int) -> Account | None:
    """Return the account with this id, or None."""
    for row in database.query("SELECT * FROM account WHERE id = ?", [id]):
        return Account(row["id"], row["name"], row["role"])
    return None


def make_link_token(database: Database, account: Account) -> str:
    """Return a token that signs this account in once, within a day; only its hash is kept."""
    token = secrets.token_urlsafe(32)
    expires = (datetime.now(UTC) + _LIFETIME).strftime("%Y-%m-%dT%H:%M:%SZ")
    with writing(database):
        database.execute(
            "INSERT INTO sign_in_link (token_sha256, account, expires) VALUES (?, ?, ?)",
            [_digest(token), account.id, expires],
        )
    return token


def use_link_token(database: Database, token: str) -> Account | None:
    """Return the account a token signs in and use the token up; None if it is used or expired."""
    with writing(database):
        rows = list(
            database.query(
                "UPDATE sign_in_link SET used = :now"
                " WHERE token_sha256 = :digest AND used IS NULL AND expires > :now"
                " RETURNING account",
                {"digest": _digest(token), "now": now()},
            )
        )
    return find(database, rows[0]["account"]) if rows else None


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
