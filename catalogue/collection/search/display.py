"""Which quilts are on display on a day; asked anew each time, since shows begin by themselves."""

from __future__ import annotations

from datetime import date

from sqlite_utils import Database

from catalogue.collection.privacy import Reader

# A show without a last day goes on; a quilt that came back early hangs no longer.
_SHOWN = """
    SELECT DISTINCT quilt FROM exhibit JOIN exhibit_quilt ON exhibit = exhibit.id
    WHERE begins <> '' AND begins <= :day AND (ends = '' OR ends >= :day)
    AND (back_on = '' OR back_on > :day) AND (published OR :all)"""


def on_display(database: Database, day: date, reader: Reader) -> set[int]:
    """Return the quilts on display; for visitors, those in exhibits that are shown to them."""
    rows = database.execute(_SHOWN, {"day": day.isoformat(), "all": not reader.is_visitor})
    return {row[0] for row in rows}
