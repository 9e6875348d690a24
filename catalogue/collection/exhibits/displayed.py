"""Which quilts hang in a show on a day; asked anew each time, since shows begin by themselves."""

from __future__ import annotations

from datetime import date

from sqlite_utils import Database

# A show without a last day goes on; a quilt that came back early hangs no longer.
_HANGING = """
    FROM exhibit JOIN exhibit_quilt ON exhibit = exhibit.id
    WHERE put_away = '' AND begins <> '' AND begins <= :day AND (ends = '' OR ends >= :day)
    AND (back_on = '' OR back_on > :day)"""


def on_display(database: Database, day: date, *, published_only: bool) -> set[int]:
    """Return the quilts that hang in any show, or in one that visitors are told of."""
    query = f"SELECT DISTINCT quilt {_HANGING} AND (published OR :all)"
    rows = database.execute(query, {"day": day.isoformat(), "all": not published_only})
    return {row[0] for row in rows}


def hanging_in(database: Database, quilt: int, day: date) -> set[int]:
    """Return the exhibits in which a quilt hangs on a day."""
    query = f"SELECT DISTINCT exhibit.id {_HANGING} AND quilt = :quilt"
    rows = database.execute(query, {"day": day.isoformat(), "quilt": quilt})
    return {row[0] for row in rows}
