"""All exhibits, and in which of them a quilt was or is shown."""

from __future__ import annotations

from sqlite_utils import Database

from catalogue.collection.records import Exhibit
from catalogue.collection.store import load_many


def all_exhibits(database: Database, *, published_only: bool = False) -> list[Exhibit]:
    """Return the exhibits, the latest first, those without dates before all."""
    rows = database.query(
        "SELECT id FROM exhibit WHERE put_away = '' AND (published OR ?)"
        " ORDER BY begins = '' DESC, begins DESC, id",
        [not published_only],
    )
    return load_many(database, Exhibit, [row["id"] for row in rows])
