"""Who may work on the collection, in which role, and the links that let them in once."""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import timedelta
from typing import Any, Literal

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.happenings import note
from catalogue.collection.store import from_now, now

# Each may do what those before it may: a volunteer takes in and edits; a historian accepts,
# publishes, sees private fields and merges; the keeper has accounts, settings and copies.
ROLES = ("volunteer", "historian", "keeper")

Purpose = Literal["sign in", "password"]
# Invitations may wait for the next meeting; a link that signs in at once may not.
_LIFETIMES: dict[Purpose, timedelta] = {
    "sign in": timedelta(hours=24),
    "password": timedelta(days=7),
}


class AccountError(ValueError):
    """Something about accounts that cannot be done; the message says why, in one sentence."""


@dataclass(frozen=True)
class Account:
    """Somebody who works on the collection."""

    id: int
    name: str
    role: str
    has_password: bool = False
    closed: str = ""

    def is_at_least(self, role: str) -> bool:
        """Say whether this account may do what that role may."""
        return ROLES.index(self.role) >= ROLES.index(role)


def add(database: Database, name: str, role: str, by: str = "the command line") -> Account:
    """Return the account of this name, made with this role where there was none."""
    if role not in ROLES:
        raise AccountError(f"“{role}” is not a role: they are {', '.join(ROLES)}.")
    if not name.strip():
        raise AccountError("An account needs a name.")
    with writing(database):
        made = database.execute(
            "INSERT OR IGNORE INTO account (name, role, created) VALUES (?, ?, ?)",
            [name, role, now()],
        )
        if made.rowcount:
            note(database, by, "account made", f"{name}, {role}")
    found = by_name(database, name)
    assert found is not None
    return found


def find(database: Database, id: int) -> Account | None:
    """Return the account with this id, or None."""
    return _first(database, "id = ?", id)


def by_name(database: Database, name: str) -> Account | None:
    """Return the account of this name, however it is capitalised, or None."""
    return _first(database, "name = ?", name)


def everybody(database: Database) -> list[Account]:
    """Return all accounts, open ones first, by name."""
    rows = database.query("SELECT * FROM account ORDER BY closed <> '', name")
    return [_account(row) for row in rows]


def change_role(database: Database, account: Account, role: str, by: str) -> None:
    """Give an account another role. Raises AccountError for the last keeper."""
    if role not in ROLES:
        raise AccountError(f"“{role}” is not a role: they are {', '.join(ROLES)}.")
    with writing(database):
        if role != "keeper":
            _refuse_to_lose_the_keeper(database, account)
        database.execute("UPDATE account SET role = ? WHERE id = ?", [role, account.id])
        note(database, by, "role changed", f"{account.name}: {account.role} to {role}")


def close(database: Database, account: Account, by: str) -> None:
    """Let nobody sign in to an account any more, and end its sessions.

    What its owner wrote keeps the name. Raises AccountError for the last keeper.
    """
    with writing(database):
        _refuse_to_lose_the_keeper(database, account)
        database.execute("UPDATE account SET closed = ? WHERE id = ?", [now(), account.id])
        database.execute(
            "UPDATE visit SET ended = ? WHERE account = ? AND ended IS NULL", [now(), account.id]
        )
        note(database, by, "account closed", account.name)


def reopen(database: Database, account: Account, by: str) -> None:
    """Let a closed account sign in again."""
    with writing(database):
        database.execute("UPDATE account SET closed = '' WHERE id = ?", [account.id])
        note(database, by, "account opened again", account.name)


def make_link_token(database: Database, account: Account, purpose: Purpose = "sign in") -> str:
    """Return a token that lets this account in once, for a day, or for a week to choose a password.

    Only its hash is kept.
    """
    token = secrets.token_urlsafe(32)
    with writing(database):
        database.execute(
            "INSERT INTO sign_in_link (token_sha256, account, purpose, expires)"
            " VALUES (?, ?, ?, ?)",
            [digest(token), account.id, purpose, from_now(_LIFETIMES[purpose])],
        )
    return token


def link_purpose(database: Database, token: str) -> tuple[Account, Purpose] | None:
    """Return whom a token lets in and what for, and leave it unused; None if worth nothing."""
    rows = database.query(
        "SELECT account, purpose FROM sign_in_link"
        " WHERE token_sha256 = ? AND used IS NULL AND expires > ?",
        [digest(token), now()],
    )
    for row in rows:
        account = find(database, row["account"])
        if account is not None and not account.closed:
            return account, row["purpose"]
    return None


def use_link_token(database: Database, token: str) -> Account | None:
    """Return the account a token lets in and use the token up; None if it is worth nothing."""
    with writing(database):
        rows = list(
            database.query(
                "UPDATE sign_in_link SET used = :now"
                " WHERE token_sha256 = :digest AND used IS NULL AND expires > :now"
                " RETURNING account",
                {"digest": digest(token), "now": now()},
            )
        )
    account = find(database, rows[0]["account"]) if rows else None
    return account if account is not None and not account.closed else None


def void_links(database: Database, account: Account) -> None:
    """Make every link of an account worthless, inside the caller's transaction."""
    database.execute(
        "UPDATE sign_in_link SET used = ? WHERE account = ? AND used IS NULL", [now(), account.id]
    )


def _refuse_to_lose_the_keeper(database: Database, account: Account) -> None:
    others = database.execute(
        "SELECT count(*) FROM account WHERE role = 'keeper' AND closed = '' AND id <> ?",
        [account.id],
    ).fetchone()[0]
    if account.role == "keeper" and not others:
        raise AccountError(f"{account.name} is the only keeper: make somebody else keeper first.")


def _first(database: Database, where: str, value: object) -> Account | None:
    rows = database.query(f"SELECT * FROM account WHERE {where}", [value])
    return next((_account(row) for row in rows), None)


def _account(row: dict[str, Any]) -> Account:
    return Account(row["id"], row["name"], row["role"], bool(row["password"]), row["closed"])


def digest(token: str) -> str:
    """Return what is kept of a token: from it nobody can make the token again."""
    return hashlib.sha256(token.encode()).hexdigest()
