"""Seals: a digest of every record as it was written, so that damage is never served as the record.

SQLite finds a page that is damaged as a whole, but a few bytes inside a text pass its own check
(of sectors of noise written into a file of records it missed four in ten that changed something).
A record and its rows are therefore sealed when they are written, and compared when they are read.

What is empty is left out of the seal, so that a new, empty column does not break one. A migration
that rewrites what is there seals it anew.
"""

from __future__ import annotations

import hashlib
import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from sqlite_utils import Database

from catalogue.collection.database import CollectionError, reading
from catalogue.collection.tables import PARENTS_OF, TABLE_OF, children_of

_BATCH = 500  # below SQLite's limit on the number of parameters, whatever it was compiled with
_CHANGE = "change"

Row = Mapping[str, Any]


class Altered(CollectionError):
    """A record that is not as it was saved: damage, or another program's hand."""

    def __init__(self, subject: str, id: int) -> None:
        self.subject, self.id = subject, id
        super().__init__(
            f"The {subject.replace('_', ' ')} {id} is not as it was saved: the database has been"
            " damaged there, or changed by another program."
        )


# --- the rows of records -----------------------------------------------------------------------


class RowsRead:
    """The rows that make up records, by table, each with the id of the record it belongs to."""

    def __init__(self) -> None:
        self.rows: defaultdict[str, list[tuple[int, Row]]] = defaultdict(list)

    def note(self, record: int, table: str, row: Row) -> None:
        """Count a row to a record."""
        self.rows[table].append((record, row))

    def digests(self) -> dict[int, bytes]:
        """Return the digest of every record whose rows were noted."""
        texts: defaultdict[int, list[str]] = defaultdict(list)
        for table, rows in self.rows.items():
            for record, row in rows:
                texts[record].append(f"{table} {_text(row)}")
        return {record: _digest(*rows) for record, rows in texts.items()}


def _text(row: Row) -> str:
    return json.dumps({name: value for name, value in row.items() if value}, sort_keys=True)


def _digest(*rows: str) -> bytes:
    return hashlib.blake2b("\n".join(sorted(rows)).encode(), digest_size=16).digest()


def read_rows(database: Database, kind: type, ids: Sequence[int]) -> RowsRead:
    """Return the rows of records of a kind and of all that hangs on them."""
    read = RowsRead()
    for row in _rows_where(database, kind, "id", ids, order="id"):
        read.note(row["id"], TABLE_OF[kind], row)
    _read_below(database, kind, read)
    return read


def _read_below(database: Database, kind: type, read: RowsRead) -> None:
    table = TABLE_OF[kind]
    record_of = {row["id"]: record for record, row in read.rows[table]}
    for field in children_of(kind):
        assert field.rows is not None
        for row in _rows_where(database, field.rows, table, list(record_of), order="position"):
            read.note(record_of[row[table]], TABLE_OF[field.rows], row)
        _read_below(database, field.rows, read)


def _rows_where(
    database: Database, kind: type, column: str, ids: Sequence[int], order: str
) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = []
    for start in range(0, len(ids), _BATCH):
        batch = list(ids[start : start + _BATCH])
        marks = ",".join("?" * len(batch))
        rows.extend(
            database.query(
                f'SELECT * FROM "{TABLE_OF[kind]}" WHERE "{column}" IN ({marks}) ORDER BY {order}',
                batch,
            )
        )
    return rows


# --- sealing -----------------------------------------------------------------------------------


def seal_anew(database: Database, kind: type, ids: Sequence[int]) -> None:
    """Seal records as they stand, inside the transaction in which their rows were written."""
    _seal(database, TABLE_OF[kind], read_rows(database, kind, ids).digests())


def seal_owners(database: Database, rows: Iterable[tuple[str, int]]) -> None:
    """Seal the records that rows belong to, each row named by its table and its id."""
    for table, id in rows:
        owner = owner_of(database, table, id)
        if owner is not None:
            seal_anew(database, owner[0], [owner[1]])


def seal_change(database: Database, id: int) -> None:
    """Seal an entry of the history."""
    _seal(database, _CHANGE, _change_digests(_changes(database, [id])))


def _seal(database: Database, subject: str, digests: Mapping[int, bytes]) -> None:
    database.conn.executemany(
        "INSERT OR REPLACE INTO seal VALUES (?, ?, ?)",
        [(subject, id, digest) for id, digest in digests.items()],
    )


_KIND_OF = {table: kind for kind, table in TABLE_OF.items()}


def owner_of(database: Database, table: str, id: int) -> tuple[type[Any], int] | None:
    """Return the kind and the id of the record that a row belongs to, None where it is gone."""
    while parents := PARENTS_OF[table]:
        columns = ", ".join(f'"{parent}"' for parent in parents)
        found = database.execute(f'SELECT {columns} FROM "{table}" WHERE id = ?', [id]).fetchone()
        if found is None:
            return None
        places = zip(parents, found, strict=True)
        table, id = next((parent, value) for parent, value in places if value is not None)
    return _KIND_OF[table], id


# --- comparing ---------------------------------------------------------------------------------


def refuse_altered(database: Database, subject: str, digests: Mapping[int, bytes]) -> None:
    """Raise Altered where a record differs from its seal; one without a seal does not."""
    for id in _differing(database, subject, digests):
        raise Altered(subject, id)


def refuse_vanished(database: Database, subject: str, ids: Sequence[int]) -> None:
    """Raise Altered where a record that is not there has a seal: damage took its number away."""
    for id in ids:
        sealed = "SELECT 1 FROM seal WHERE subject = ? AND subject_id = ?"
        if database.execute(sealed, [subject, id]).fetchone() is not None:
            raise Altered(subject, id)


def refuse_altered_changes(database: Database, rows: Iterable[Row]) -> None:
    """Raise Altered where an entry of the history differs from its seal."""
    refuse_altered(database, _CHANGE, _change_digests(rows))


def altered_records(database: Database, kind: type) -> list[int]:
    """Return the ids of all records of a kind that are not as they were saved."""
    table, found = TABLE_OF[kind], []
    for ids in _batches(database, table):
        with reading(database), damaged_text_read(database):
            digests = read_rows(database, kind, ids).digests()
            found += _differing(database, table, digests)
    return sorted({*found, *_vanished(database, table)})


def altered_changes(database: Database) -> list[int]:
    """Return the ids of all entries of the history that are not as they were written."""
    found = []
    for ids in _batches(database, _CHANGE):
        with reading(database), damaged_text_read(database):
            digests = _change_digests(_changes(database, ids))
            found += _differing(database, _CHANGE, digests)
    return sorted({*found, *_vanished(database, _CHANGE)})


def _vanished(database: Database, table: str) -> list[int]:
    """Return the ids that are sealed and of which no row is left."""
    sealed = f'SELECT subject_id FROM seal WHERE subject = ? EXCEPT SELECT id FROM "{table}"'
    return [row[0] for row in database.execute(sealed, [table]).fetchall()]


@contextmanager
def damaged_text_read(database: Database) -> Iterator[None]:
    """Read texts in the block even where their bytes are damaged: their digests differ then."""
    usual = database.conn.text_factory
    database.conn.text_factory = lambda octets: octets.decode("utf-8", "surrogateescape")
    try:
        yield
    finally:
        database.conn.text_factory = usual


def _batches(database: Database, table: str) -> list[list[int]]:
    ids = [row["id"] for row in database.query(f'SELECT id FROM "{table}" ORDER BY id')]
    return [ids[start : start + _BATCH] for start in range(0, len(ids), _BATCH)]


def _changes(database: Database, ids: Sequence[int]) -> list[Row]:
    marks = ",".join("?" * len(ids))
    return list(database.query(f"SELECT * FROM change WHERE id IN ({marks})", list(ids)))


def _change_digests(rows: Iterable[Row]) -> dict[int, bytes]:
    return {row["id"]: _digest(_text(row)) for row in rows}


def _differing(database: Database, subject: str, digests: Mapping[int, bytes]) -> list[int]:
    """Return the ids of what differs from its seal."""
    ids, found = sorted(digests), []
    for start in range(0, len(ids), _BATCH):
        batch = ids[start : start + _BATCH]
        marks = ",".join("?" * len(batch))
        rows = database.execute(
            f"SELECT subject_id, digest FROM seal WHERE subject = ? AND subject_id IN ({marks})",
            [subject, *batch],
        )
        found += [id for id, digest in rows.fetchall() if digest != digests[id]]
    return found
