"""What the keeper watches: who changed how much, and the last changes of all."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from sqlite_utils import Database

from catalogue.collection.store import from_now

_RECENT = timedelta(days=30)


@dataclass(frozen=True)
class Changed:
    """How many changes one person made: ever, in the last thirty days, and when last."""

    by: str
    ever: int
    lately: int
    last: str


@dataclass(frozen=True)
class LastChange:
    """One change: of which record, by whom and when, and which fields."""

    subject: str
    subject_id: int
    revision: int
    by: str
    at: str


def changed_by_person(database: Database) -> list[Changed]:
    """Return everybody who changed a record, whoever did so last first."""
    rows = database.query(
        """SELECT "by", count(*) AS ever, sum(at >= ?) AS lately, max(at) AS last
           FROM change GROUP BY "by" ORDER BY last DESC""",
        [from_now(-_RECENT)],
    )
    return [Changed(row["by"], row["ever"], row["lately"], row["last"]) for row in rows]


def last_changes(database: Database, most: int = 50) -> list[LastChange]:
    """Return the last changes of any record, the newest first."""
    rows = database.query(
        'SELECT subject, subject_id, revision, "by", at FROM change ORDER BY id DESC LIMIT ?',
        [most],
    )
    return [LastChange(**row) for row in rows]
