"""Attempts to sign in: counted by account and by address, slowed down, never locked for ever.

Whoever guesses waits longer and longer, up to a quarter of an hour. An account that is guessed at
from many places waits a minute after each guess; a browser that has signed in to it before does not
wait for the guesses of others, and a link that works once never waits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.store import from_now, now

_REMEMBERED = timedelta(hours=1)
_KEPT = timedelta(days=90)
_LONGEST_NAME = 200


@dataclass(frozen=True)
class _Limit:
    """After `free` failures each further one doubles the wait, from one second to `longest`."""

    free: int
    longest: int

    def wait(self, failures: int) -> int:
        """Return the seconds to wait after so many failures."""
        over = failures - self.free
        return min(2 ** min(over, 20), self.longest) if over >= 0 else 0


_OF_NAME_AND_ADDRESS = _Limit(5, 900)
_OF_ADDRESS = _Limit(20, 900)
_OF_NAME = _Limit(20, 60)


@dataclass(frozen=True)
class Attempt:
    """One attempt: which name, from where, from a browser known to the account or not, and when."""

    name: str
    address: str
    known: bool
    succeeded: bool
    at: str


def seconds_to_wait(database: Database, name: str, address: str, known: bool) -> int:
    """Return how long to wait before this name may be tried from this address, 0 for not at all."""
    tried = name[:_LONGEST_NAME]
    limits = [
        (_OF_NAME_AND_ADDRESS, "name = ? AND address = ?", [tried, address]),
        (_OF_ADDRESS, "address = ? AND NOT known", [address]),
        (_OF_NAME, "name = ? AND NOT known", [tried]),
    ]
    if known:
        limits = [(_OF_NAME_AND_ADDRESS, "name = ? AND address = ? AND known", [tried, address])]
    return max(_left(database, *limit) for limit in limits)


def keep_attempt(
    database: Database, name: str, address: str, *, known: bool, succeeded: bool
) -> None:
    """Keep an attempt in mind, and forget what was over more than ninety days ago."""
    with writing(database):
        _forget(database, from_now(-_KEPT))
        database.execute(
            "INSERT INTO sign_in_attempt (name, address, known, succeeded, at)"
            " VALUES (?, ?, ?, ?, ?)",
            [name[:_LONGEST_NAME], address, int(known), int(succeeded), now()],
        )


def _forget(database: Database, before: str) -> None:
    """Forget who tried, who was here and which links were out, where all of it is long over."""
    database.execute("DELETE FROM sign_in_attempt WHERE at < ?", [before])
    database.execute("DELETE FROM visit WHERE coalesce(ended, seen) < ?", [before])
    database.execute("DELETE FROM sign_in_link WHERE expires < ?", [before])


def attempts(database: Database, *, succeeded: bool, most: int = 100) -> list[Attempt]:
    """Return the last attempts that succeeded, or that failed, the newest first."""
    rows = database.query(
        "SELECT * FROM sign_in_attempt WHERE succeeded = ? ORDER BY id DESC LIMIT ?",
        [int(succeeded), most],
    )
    return [
        Attempt(row["name"], row["address"], bool(row["known"]), bool(row["succeeded"]), row["at"])
        for row in rows
    ]


def _left(database: Database, limit: _Limit, where: str, values: list[str]) -> int:
    """Return the seconds left under one limit; a clock put back makes nobody wait longer."""
    moment = datetime.now(UTC)
    failures, last = database.execute(
        f"""SELECT count(*), max(at) FROM sign_in_attempt
            WHERE {where} AND NOT succeeded AND at >= ? AND id > coalesce(
              (SELECT max(id) FROM sign_in_attempt WHERE {where} AND succeeded), 0)""",
        [*values, from_now(-_REMEMBERED), *values],
    ).fetchone()
    wait = limit.wait(failures)
    if not wait:
        return 0
    passed = (moment - datetime.fromisoformat(last)).total_seconds()
    return max(0, min(wait, math.ceil(wait - passed)))
