"""Purging: what was put away is destroyed with its history, by the keeper, and that is recorded.

For what should never have been written down, such as something told in confidence. Copies of the
collection that were made before still hold it.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Iterator
from typing import Any

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.folder import Collection
from catalogue.collection.happenings import note
from catalogue.collection.photographs import forget
from catalogue.collection.putting_away import NotPutAway, called, refuse_referred_to
from catalogue.collection.records import Party, Quilt, Talk, TalkGiven
from catalogue.collection.search import manifest
from catalogue.collection.store import change, load, load_many
from catalogue.collection.tables import TABLE_OF


def purge(collection: Collection, kind: type[Any], id: int, *, by: str) -> None:
    """Destroy a record that is put away, its history, and its photographs if no other has them.

    The photographs go first: cut off in between, the record is still there to be purged again. The
    index is made anew when it is next used. What a talk that was given tells of it stays, in words.
    Raises NotFound, NotPutAway and StillReferredTo; nothing is destroyed then.
    """
    database, table = collection.database, TABLE_OF[kind]
    with writing(database):
        record = load(database, kind, id)
        if not record.put_away:
            raise NotPutAway(f"“{called(record)}” is not put away.")
        refuse_referred_to(database, kind, id)
        pictures = set(_pictures(database, table, id))
        _let_go(database, kind, id, by)
        _delete(database, table, id)
        manifest.forget(database)
        note(database, by, "purged", _remembered(record))
        for picture in sorted(pictures):
            if not _is_used(database, picture):
                forget(collection, picture)
    database.execute("PRAGMA wal_checkpoint(TRUNCATE)")  # nor does the log keep it


def _remembered(record: Any) -> str:
    """Return what may be kept of what was destroyed: its kind and number, never its name."""
    number = f", {record.accession}" if isinstance(record, Quilt) and record.accession else ""
    kind = TABLE_OF[type(record)].replace("_", " ")
    return f"{kind} {record.id}{number}, with {record.revision} revisions"


def _let_go(database: Database, kind: type[Any], id: int, by: str) -> None:
    """Take the record out of what is kept about records but is no record itself."""
    if kind is Quilt:
        database.execute("DELETE FROM indexed WHERE quilt = ?", [id])
        database.execute("DELETE FROM index_queue WHERE quilt = ?", [id])
        for talk in load_many(database, Talk, _told_in(database, id)):
            change(database, talk, {"givings": _without_link(talk.givings, id)}, by)
    if kind is Party:
        database.execute("DELETE FROM told_apart WHERE ? IN (one, other)", [id])
        database.execute("DELETE FROM merge WHERE ? IN (kept, merged)", [id])


def _told_in(database: Database, quilt: int) -> list[int]:
    rows = database.execute(
        """SELECT DISTINCT talk_given.talk FROM given_item
           JOIN talk_given ON talk_given.id = talk_given WHERE quilt = ?""",
        [quilt],
    )
    return [row[0] for row in rows.fetchall()]


def _without_link(givings: tuple[TalkGiven, ...], quilt: int) -> tuple[TalkGiven, ...]:
    """Return the versions of a talk as given, telling of a quilt in words alone."""
    return tuple(
        dataclasses.replace(
            giving,
            items=tuple(
                dataclasses.replace(item, quilt=None) if item.quilt == quilt else item
                for item in giving.items
            ),
        )
        for giving in givings
    )


def _delete(database: Database, table: str, id: int) -> None:
    database.execute(
        """DELETE FROM seal WHERE subject = 'change' AND subject_id IN
           (SELECT id FROM change WHERE subject = ? AND subject_id = ?)""",
        [table, id],
    )
    database.execute("DELETE FROM change WHERE subject = ? AND subject_id = ?", [table, id])
    database.execute("DELETE FROM seal WHERE subject = ? AND subject_id = ?", [table, id])
    database.execute(f"DELETE FROM {table} WHERE id = ?", [id])


# --- photographs -------------------------------------------------------------------------------


def _pictures(database: Database, table: str, id: int) -> Iterator[str]:
    """Yield the hash of every photograph that the record has or ever had."""
    rows = database.execute(
        "SELECT before, after FROM change WHERE subject = ? AND subject_id = ?", [table, id]
    )
    for row in rows.fetchall():
        for plain in map(json.loads, row):
            yield from _files_in(plain)


def _files_in(plain: Any) -> Iterator[str]:
    """Yield the hashes of the photographs in a field's plain value, however deep."""
    if isinstance(plain, dict):
        if "file" in plain and "pixels_wide" in plain:
            yield plain["file"]
        for inner in plain.values():
            yield from _files_in(inner)
    elif isinstance(plain, list):
        for inner in plain:
            yield from _files_in(inner)


def _is_used(database: Database, picture: str) -> bool:
    """Say whether a record has the photograph, or its history can put it back."""
    return bool(
        database.execute(
            """SELECT EXISTS (SELECT 1 FROM photograph WHERE file = :file)
                   OR EXISTS (SELECT 1 FROM change WHERE instr(before || after, :file))""",
            {"file": picture},
        ).fetchone()[0]
    )
