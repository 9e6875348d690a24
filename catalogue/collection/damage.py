"""What is wrong with a database file: what SQLite finds, and tables unlike those we make."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from functools import lru_cache

from sqlite_utils import Database

from catalogue.collection.database import applied_here, migrate_to

_Columns = tuple[tuple[object, ...], ...]


def damage(database: Database) -> list[str]:
    """Return what is wrong with a database file, in sentences."""
    found = list(_integrity(database))
    if found:
        return found
    try:
        return list(_altered_tables(database))
    except (sqlite3.DatabaseError, UnicodeDecodeError) as error:
        return [f"SQLite says: {error}."]


def _integrity(database: Database) -> Iterator[str]:
    try:
        rows = database.execute("PRAGMA integrity_check").fetchall()
    except (sqlite3.DatabaseError, UnicodeDecodeError) as error:  # the words may be damaged too
        rows = [(str(error),)]
    for row in rows:
        sentence = " ".join(str(row[0]).split())
        if sentence != "ok":
            yield f"SQLite says: {sentence}."


def _altered_tables(database: Database) -> Iterator[str]:
    """Compare the tables with those that the migrations make; other programs' tables may be there.

    A few bytes of the schema itself pass SQLite's check: it knows no other than the one it reads.
    """
    for table, columns in _made_by(applied_here(database)).items():
        if _columns(database, table) != columns:
            yield f"The table “{table}” is not as the catalogue made it."


@lru_cache(maxsize=4)
def _made_by(migrations: frozenset[str]) -> dict[str, _Columns]:
    fresh = Database(memory=True)
    migrate_to(fresh, migrations)
    tables = {table: _columns(fresh, table) for table in fresh.table_names()}
    fresh.close()
    return tables


def _columns(database: Database, table: str) -> _Columns:
    return tuple(database.execute("SELECT * FROM pragma_table_xinfo(?)", [table]).fetchall())
