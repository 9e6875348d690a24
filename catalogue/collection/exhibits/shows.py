"""All exhibits, and in which of them a quilt was or is shown."""

from __future__ import annotations

from datetime import date

from sqlite_utils import Database

from catalogue.collection.records import Exhibit
from catalogue.collection.store import load_many
from catalogue.exhibits.findings import written


def all_exhibits(database: Database, *, published_only: bool = False) -> list[Exhibit]:
    """Return the exhibits, the latest first, those without dates before all."""
    rows = database.query(
        "SELECT id FROM exhibit WHERE put_away = '' AND (published OR ?)"
        " ORDER BY begins = '' DESC, begins DESC, id",
        [not published_only],
    )
    return load_many(database, Exhibit, [row["id"] for row in rows])


def days_of(exhibit: Exhibit) -> str:
    """Return the first and the last day of an exhibit in words, as far as they are set."""
    days = (exhibit.begins, exhibit.ends)
    return " to ".join(written(date.fromisoformat(day)) for day in days if day)
