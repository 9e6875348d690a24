"""The one place where SQLite is opened: connections, transactions and migrations."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database, Migrations

_SCHEMA = Path(__file__).parent / "schema"
_NAME = "catalogue"


class CollectionError(Exception):
    """A collection that cannot be opened or used; the message is one sentence for the user."""


class Unreadable(CollectionError):
    """A database that is damaged where its tables are described."""


def connect(file: Path) -> Database:
    """Return a connection that writes: WAL, foreign keys kept, a confirmed save safe on disk.

    `synchronous=FULL` makes each commit wait for the disk, so that what was confirmed survives a
    power cut; the volunteers' typing is slower than that wait. `fullfsync` makes macOS wait for the
    disk itself, not for its cache; other systems do not know it (sqlite.org/pragma.html).
    """
    connection = sqlite3.connect(file, timeout=10, isolation_level=None, check_same_thread=False)
    database = Database(connection)
    try:
        database.execute("PRAGMA journal_mode = WAL")
    except UnicodeDecodeError as error:  # SQLite complains in words that are damaged themselves
        raise Unreadable(f"The database “{file}” is damaged: its schema cannot be read.") from error
    database.execute("PRAGMA synchronous = FULL")
    database.execute("PRAGMA fullfsync = ON")
    database.execute("PRAGMA foreign_keys = ON")
    database.execute("PRAGMA secure_delete = ON")  # what is purged is overwritten, not just let go
    return database


def connect_to_read(file: Path) -> Database:
    """Return a connection that cannot write; it opens in a write-protected folder too.

    Raises CollectionError where the file is no database; a damaged one opens, to be examined.
    """
    address = file.absolute().as_uri()
    ways = [f"{address}?mode=ro", f"{address}?immutable=1"]
    if _holds_saves(file.with_name(f"{file.name}-wal")):
        ways.pop()  # the second way reads the file alone, without what was saved last
    for uri in ways:
        connection = sqlite3.connect(uri, uri=True, isolation_level=None)
        try:
            connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
        except sqlite3.OperationalError:
            connection.close()
            continue
        except UnicodeDecodeError:
            pass  # the schema's words are damaged: the examination says so
        except sqlite3.DatabaseError as error:
            if error.sqlite_errorcode == sqlite3.SQLITE_NOTADB:
                break
        return Database(connection)
    raise CollectionError(f"“{file}” cannot be read as a database.")


def _holds_saves(log: Path) -> bool:
    return log.is_file() and log.stat().st_size > 0


@contextmanager
def writing(database: Database) -> Iterator[None]:
    """Run the block as one transaction that holds the write lock from its first statement."""
    database.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        database.conn.rollback()
        raise
    database.execute("COMMIT")


@contextmanager
def reading(database: Database) -> Iterator[None]:
    """Run the block at one moment of the database, whatever others commit meanwhile."""
    if database.conn.in_transaction:
        yield
        return
    database.execute("BEGIN")
    try:
        yield
    finally:
        database.conn.rollback()


def migrations() -> Migrations:
    """Return the ordered migrations, one SQL file each, named by their files."""
    ordered = Migrations(_NAME)
    for file in sorted(_SCHEMA.glob("*.sql")):
        ordered(name=file.stem)(lambda database, file=file: _run(database, file))
    return ordered


def applied_here(database: Database) -> frozenset[str]:
    """Return the names of the migrations that a database has been through and that we know."""
    known = {file.stem for file in _SCHEMA.glob("*.sql")}
    return frozenset(migration.name for migration in migrations().applied(database)) & known


def is_current(database: Database) -> bool:
    """Say whether every migration that is known here has been applied."""
    return applied_here(database) == {file.stem for file in _SCHEMA.glob("*.sql")}


def migrate_to(database: Database, names: frozenset[str]) -> None:
    """Make the tables of these migrations in an empty database."""
    for file in sorted(_SCHEMA.glob("*.sql")):
        if file.stem in names:
            _run(database, file)


def migrate(database: Database) -> None:
    """Bring the schema up to date, each migration in a transaction of its own.

    Raises CollectionError where a newer version of the catalogue has been here.
    """
    ordered = migrations()
    known = {file.stem for file in _SCHEMA.glob("*.sql")}
    applied = {migration.name for migration in ordered.applied(database)}
    if applied - known:
        raise CollectionError(
            "This collection was last opened by a newer version of the catalogue: update this one."
        )
    ordered.apply(database)


def _run(database: Database, file: Path) -> None:
    """Execute a file of SQL statement by statement, inside the transaction that is open."""
    statement = ""
    for line in file.read_text("utf-8").splitlines(keepends=True):
        statement += line
        if sqlite3.complete_statement(statement):
            database.execute(statement)
            statement = ""
