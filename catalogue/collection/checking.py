"""Checking a collection without changing it: what is damaged, missing, or contradicts itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from sqlite_utils import Database

from catalogue.collection import settings
from catalogue.collection.contradictions import contradictions
from catalogue.collection.damage import damage
from catalogue.collection.folder import DATABASE, open_to_read
from catalogue.collection.photographs import digest_of, original_in
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.collection.safekeeping.copies import faults_in, is_copy
from catalogue.collection.seals import altered_changes, altered_records, owner_of
from catalogue.collection.search.held import out_of_step
from catalogue.collection.search.manifest import faults
from catalogue.collection.store import load_many
from catalogue.collection.tables import KINDS, TABLE_OF


@dataclass(frozen=True)
class Finding:
    """Something amiss: what kind of thing, where, and one sentence about it."""

    what: str
    where: str
    says: str


def check(folder: Path) -> list[Finding]:
    """Return everything amiss in a collection or a copy of one, opened read-only.

    Raises CollectionError.
    """
    if is_copy(folder):
        return [Finding("copy", folder.name, says) for says in faults_in(folder, _untold)]
    database = open_to_read(folder)
    try:
        damaged = [Finding("database", DATABASE, says) for says in damage(database)]
        if damaged:
            return damaged
        broken = [*_broken_references(database), *_altered(database)]
        found = [*broken, *_photographs(database, folder)]
        if broken:
            return found  # records that are not whole cannot be put together and compared
        return [*found, *_index(database, folder), *_contradictions(database)]
    finally:
        database.close()


def _untold(done: int, total: int) -> None:
    del done, total


def _broken_references(database: Database) -> Iterator[Finding]:
    for table, rowid, target, _ in database.execute("PRAGMA foreign_key_check").fetchall():
        yield Finding(
            "reference", f"{table} {rowid}", f"It refers to a {target} that is not on record."
        )


def _altered(database: Database) -> Iterator[Finding]:
    for kind in KINDS:
        for id in altered_records(database, kind):
            where = f"{TABLE_OF[kind].replace('_', ' ')} {id}"
            yield Finding("record", where, "It is not as it was saved.")
    for id in altered_changes(database):
        yield Finding("record", f"entry {id} of the history", "It is not as it was written.")


def _photographs(database: Database, folder: Path) -> Iterator[Finding]:
    for row in list(database.query("SELECT id, file, format FROM photograph ORDER BY quilt, id")):
        file = original_in(folder / "photographs", row["file"], row["format"])
        kind, id = owner_of(database, "photograph", row["id"]) or (Quilt, 0)
        where = f"{TABLE_OF[kind].replace('_', ' ')} {id}, photograph {row['file'][:12]}"
        if not file.is_file():
            yield Finding("photograph", where, "The original is missing.")
        elif digest_of(file) != row["file"]:
            yield Finding("photograph", where, "The original has been altered or damaged.")


def _index(database: Database, folder: Path) -> Iterator[Finding]:
    index = folder / "index"
    for sentence in faults(database, index):
        yield Finding("index", "index", sentence)
    for id in out_of_step(database):
        yield Finding("index", f"quilt {id}", "The search index does not hold it as it now is.")


def _contradictions(database: Database) -> Iterator[Finding]:
    house = settings.read(database).name
    ids = [row["id"] for row in database.query("SELECT id FROM quilt ORDER BY id")]
    for start in range(0, len(ids), 500):
        quilts = load_many(database, Quilt, ids[start : start + 500])
        related = related_to(database, quilts)
        for quilt in quilts:
            where = f"quilt {quilt.id}, {quilt.accession or quilt.title}"
            for sentence in contradictions(quilt, related, house):
                yield Finding("contradiction", where, sentence)
