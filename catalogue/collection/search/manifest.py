"""Which files the index consists of: their hashes in SQLite, and what is done where they differ.

Whoosh unpickles what it opens. So nothing is opened whose hash SQLite does not know, and what it
does not know is taken away first. A writing adds files beside the old ones and SQLite learns of
them in the transaction that also clears the queue: cut off anywhere, either the old files or the
new ones are whole and known, and the other ones are swept away at the next opening.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sqlite_utils import Database

from catalogue.collection.photographs import digest_of
from catalogue.collection.search.fulltext import VERSION, files

_LOCK = "_WRITELOCK"  # Whoosh's, empty


@dataclass(frozen=True)
class _Comparison:
    """Names of files: known and not there, there otherwise than known, there and not known."""

    missing: set[str]
    altered: set[str]
    foreign: set[str]


def faults(database: Database, folder: Path) -> list[str]:
    """Return what is wrong with the index, in sentences, without opening it."""
    version = _version(database)
    if version is None:
        return ["The search index has not been made yet."]
    if version != VERSION:
        return ["The search index was made by another version of the catalogue."]
    compared = _compared(database, folder)
    return [
        *(f"The index file “{name}” is missing." for name in sorted(compared.missing)),
        *(
            f"The index file “{name}” is not as the catalogue wrote it."
            for name in sorted(compared.altered)
        ),
        *(f"“{name}” does not belong to the index." for name in sorted(compared.foreign)),
    ]


def made_ready(database: Database, folder: Path, beside: Path) -> bool:
    """Leave in the index folder the files that SQLite knows and nothing else; say whether whole.

    An index that was made anew `beside` and not put in its place before a crash is put there.
    """
    if _version(database) != VERSION:
        return False
    for candidate in (folder, beside):
        compared = _compared(database, candidate)
        if compared.missing or compared.altered:
            continue
        sweep(candidate, compared.foreign)
        if candidate == beside:
            shutil.rmtree(folder, ignore_errors=True)
            beside.rename(folder)
        return not (_found(folder) - _known(database).keys())
    return False


def sweep(folder: Path, names: Iterable[str]) -> None:
    """Take files away; one that somebody holds open stays until the next time."""
    for name in names:
        if (folder / name).is_dir():
            shutil.rmtree(folder / name, ignore_errors=True)
        else:
            with suppress(OSError):
                (folder / name).unlink()


def sweep_old(database: Database, folder: Path) -> None:
    """Take away what a writing left behind, once SQLite knows the new files."""
    sweep(folder, _found(folder) - _known(database).keys())


def remember(database: Database, folder: Path) -> None:
    """Note, inside a transaction, that the index consists of the files written last.

    A segment's files never change once they are written, so only new ones are hashed, and the
    table of contents always.
    """
    known = _known(database)
    new = {
        name: known[name]
        if name in known and not name.endswith(".toc")
        else digest_of(folder / name)
        for name in files(folder)
    }
    database.execute("DELETE FROM index_file")
    database.conn.executemany("INSERT INTO index_file VALUES (?, ?)", list(new.items()))
    next_turn(database)


def forget(database: Database) -> None:
    """Know no file any more, inside a transaction: whoever opens the index next makes it anew."""
    database.execute("DELETE FROM index_file")
    database.execute("DELETE FROM index_state")


def next_turn(database: Database) -> None:
    """Note, inside a transaction, that the index was brought up to date by this version."""
    database.execute(
        "INSERT INTO index_state VALUES (1, ?, 1)"
        " ON CONFLICT DO UPDATE SET version = excluded.version, turn = turn + 1",
        [VERSION],
    )


def turn(database: Database) -> int:
    """Return how often the index was brought up to date, 0 where there is none."""
    row = database.execute("SELECT turn FROM index_state").fetchone()
    return int(row[0]) if row is not None else 0


def _version(database: Database) -> str | None:
    row = database.execute("SELECT version FROM index_state").fetchone()
    return str(row[0]) if row is not None else None


def _known(database: Database) -> dict[str, str]:
    return dict(database.execute("SELECT name, sha256 FROM index_file").fetchall())


def _found(folder: Path) -> set[str]:
    if not folder.is_dir():
        return set()
    return {file.name for file in folder.iterdir() if not file.name.endswith(_LOCK)}


def _compared(database: Database, folder: Path) -> _Comparison:
    known, found = _known(database), _found(folder)
    altered = {
        name
        for name in known.keys() & found
        if not (folder / name).is_file() or digest_of(folder / name) != known[name]
    }
    return _Comparison(known.keys() - found, altered, found - known.keys())
