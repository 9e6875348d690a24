"""What happened beside changes of records: accounts, exports, what was purged; and by whom."""

from __future__ import annotations

from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.store import now


@dataclass(frozen=True)
class Happening:
    """One thing that happened: when, by whose hand, what, and about whom or what."""

    at: str
    by: str
    what: str
    about: str


def note(database: Database, by: str, what: str, about: str = "") -> None:
    """Keep in mind that something happened, in the caller's transaction if there is one."""
    database.execute(
        'INSERT INTO happening (at, "by", what, about) VALUES (?, ?, ?, ?)',
        [now(), by, what, about],
    )


def happenings(database: Database, most: int = 200) -> list[Happening]:
    """Return what happened last, the newest first."""
    rows = database.query(
        'SELECT at, "by", what, about FROM happening ORDER BY id DESC LIMIT ?', [most]
    )
    return [Happening(row["at"], row["by"], row["what"], row["about"]) for row in rows]
