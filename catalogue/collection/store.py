"""Loading and changing records: whole records in, one transaction, every change kept.

A record is changed by naming its fields: those fields are written, the revision goes up by one,
and a history entry keeps what stood there before and after. Two people who change different
fields of one record do not disturb each other; two who change the same field do, and the second
is told (`Conflict`).
"""

from __future__ import annotations

import dataclasses
import json
import sqlite3
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, TypeVar

from sqlite_utils import Database

from catalogue.collection import records
from catalogue.collection.database import reading, writing
from catalogue.collection.plain import field_from_plain, to_plain
from catalogue.collection.reached import queue_reached
from catalogue.collection.seals import (
    RowsRead,
    read_rows,
    refuse_altered,
    refuse_altered_changes,
    refuse_vanished,
    seal_anew,
    seal_change,
)
from catalogue.collection.tables import TABLE_OF, Field, children_of, fields_of, from_row, to_row

Record = TypeVar(
    "Record",
    records.Quilt,
    records.Party,
    records.Pattern,
    records.Publication,
    records.RelatedItem,
    records.Exhibit,
    records.Talk,
)


class NotFound(LookupError):
    """No record of this kind has this id."""


@dataclass(frozen=True)
class Change:
    """One entry of a record's history: the fields that changed, as plain values."""

    id: int
    revision: int
    by: str
    at: str
    before: dict[str, Any]
    after: dict[str, Any]


class Conflict(Exception):
    """Somebody else changed the same fields meanwhile; `fields` names them, `change` is theirs."""

    def __init__(self, fields: tuple[str, ...], change: Change) -> None:
        self.fields = fields
        self.change = change
        super().__init__(f"{change.by} changed this meanwhile, at {change.at}.")


class Gone(Exception):
    """What a record would refer to is no longer on record; the message is for the user."""


def now() -> str:
    """Return this moment in UTC, to the second, as ISO 8601."""
    return from_now(timedelta())


def from_now(span: timedelta) -> str:
    """Return the moment that is so far from now, as `now` writes it; past where it is negative."""
    return (datetime.now(UTC) + span).strftime("%Y-%m-%dT%H:%M:%SZ")


# --- reading -----------------------------------------------------------------------------------


def load(database: Database, kind: type[Record], id: int) -> Record:
    """Return the record of this kind with this id. Raises NotFound."""
    found = load_many(database, kind, [id])
    if not found:
        raise NotFound(f"There is no {TABLE_OF[kind]} {id}.")
    return found[0]


def load_many(database: Database, kind: type[Record], ids: Sequence[int]) -> list[Record]:
    """Return the records with these ids, in this order; ids that do not exist are passed over.

    All are read at one moment. Raises Altered where one of them is not as it was saved, or gone
    without having been purged.
    """
    with reading(database):
        read = read_rows(database, kind, ids)
        digests = read.digests()
        refuse_altered(database, TABLE_OF[kind], digests)
        refuse_vanished(database, TABLE_OF[kind], [id for id in ids if id not in digests])
    children = _children(kind, read)
    made = {id: from_row(kind, row, children[id]) for id, row in read.rows[TABLE_OF[kind]]}
    return [made[id] for id in ids if id in made]


def _children(kind: type, read: RowsRead) -> defaultdict[int, dict[str, tuple[Any, ...]]]:
    """Return, by parent id, the child records of every field that has a table of its own."""
    found: defaultdict[int, dict[str, tuple[Any, ...]]] = defaultdict(dict)
    for field in children_of(kind):
        assert field.rows is not None
        grandchildren = _children(field.rows, read)
        for _, row in read.rows[TABLE_OF[field.rows]]:
            record = from_row(field.rows, row, grandchildren[row["id"]])
            siblings = found[row[TABLE_OF[kind]]]
            siblings[field.name] = (*siblings.get(field.name, ()), record)
    return found


def history(database: Database, kind: type[Record], id: int) -> list[Change]:
    """Return every change of the record, the newest first.

    Raises Altered where one of them is not as it was written.
    """
    with reading(database):
        rows = list(
            database.query(
                "SELECT * FROM change WHERE subject = ? AND subject_id = ? ORDER BY revision DESC",
                [TABLE_OF[kind], id],
            )
        )
        refuse_altered_changes(database, rows)
    return [_change(row) for row in rows]


def _change(row: dict[str, Any]) -> Change:
    return Change(
        row["id"],
        row["revision"],
        row["by"],
        row["at"],
        json.loads(row["before"]),
        json.loads(row["after"]),
    )


# --- writing -----------------------------------------------------------------------------------


def add(database: Database, record: Record, by: str) -> Record:
    """Write a new record with all that hangs on it, and return it as it now stands."""
    with writing(database):
        id = _insert(database, record, {"revision": 1})
        seal_anew(database, type(record), [id])
        after = {
            field.name: to_plain(getattr(record, field.name)) for field in _changeable(type(record))
        }
        _remember(database, type(record), id, 1, by, {}, after)
    return load(database, type(record), id)


def save(
    database: Database,
    kind: type[Record],
    id: int,
    fields: dict[str, Any],
    *,
    by: str,
    expecting: int,
) -> Record:
    """Change the named fields of a record that the writer saw at revision `expecting`.

    Returns the record as it now stands; nothing is written where nothing differs. Raises NotFound
    and Conflict; after either, the record is untouched.
    """
    with writing(database):
        record = load(database, kind, id)
        changed = {name: value for name, value in fields.items() if getattr(record, name) != value}
        _refuse_conflict(database, record, changed, expecting)
        if not changed:
            return record
        change(database, record, changed, by)
    return load(database, kind, id)


def update(
    database: Database, kind: type[Record], id: int, edit: Callable[[Record], Record], *, by: str
) -> Record:
    """Apply `edit` to the record as it stands now, inside the transaction.

    For changes that do not depend on what somebody saw on a page, such as adding a photograph.
    """
    with writing(database):
        record = load(database, kind, id)
        edited = edit(record)
        changed = {
            field.name: getattr(edited, field.name)
            for field in _changeable(kind)
            if getattr(edited, field.name) != getattr(record, field.name)
        }
        if not changed:
            return record
        change(database, record, changed, by)
    return load(database, kind, id)


def _changeable(kind: type) -> Iterable[Field]:
    return (field for field in fields_of(kind) if field.name not in ("id", "revision"))


def _refuse_conflict(
    database: Database, record: Any, changed: dict[str, Any], expecting: int
) -> None:
    """Raise Conflict where a later change than `expecting` touched one of the changed fields."""
    if record.revision == expecting:
        return
    for change in history(database, type(record), record.id):
        if change.revision <= expecting:
            return
        both = tuple(name for name in changed if name in change.after)
        if both:
            raise Conflict(both, change)


def change(database: Database, record: Any, changed: dict[str, Any], by: str) -> None:
    """Write changed fields of a record as it stands, inside a transaction that is open."""
    kind = type(record)
    revision = record.revision + 1
    new = dataclasses.replace(record, **changed, revision=revision)
    if "printings" in changed:
        stay = {printing.id for printing in new.printings}
        _let_go(database, {printing.id for printing in record.printings} - stay, by)
    _update_row(database, kind, record.id, to_row(new))
    for field in children_of(kind):
        if field.name in changed:
            _replace_children(database, field, kind, record.id, getattr(record, field.name), new)
    seal_anew(database, kind, [record.id])
    written = load(database, kind, record.id)
    before = {name: to_plain(getattr(record, name)) for name in changed}
    after = {name: to_plain(getattr(written, name)) for name in changed}
    _remember(database, kind, record.id, revision, by, before, after)


def _let_go(database: Database, printings: set[int | None], by: str) -> None:
    """Take printings that are about to go out of the quilts that name them.

    That is a change of each quilt. Left to the database, the quilt would change without its
    history, and would no longer fit its seal.
    """
    going = sorted(id for id in printings if id is not None)
    marks = ",".join("?" * len(going))
    naming = f"SELECT DISTINCT quilt FROM block_kind WHERE printing IN ({marks})"
    for row in list(database.query(naming, going)):
        quilt = load(database, records.Quilt, row["quilt"])
        blocks = tuple(
            dataclasses.replace(block, printing=None) if block.printing in going else block
            for block in quilt.blocks
        )
        change(database, quilt, {"blocks": blocks}, by)


def _replace_children(
    database: Database, field: Field, kind: type, parent_id: int, old: tuple[Any, ...], new: Any
) -> None:
    """Make the child rows of one field equal to the new record's, keeping the ids that stay."""
    assert field.rows is not None
    known = {child.id: child for child in old}
    kept = set()
    for position, child in enumerate(getattr(new, field.name)):
        place = {TABLE_OF[kind]: parent_id, "position": position}
        if child.id is None or child.id not in known:
            kept.add(_insert(database, dataclasses.replace(child, id=None), place))
            continue
        kept.add(child.id)
        _update_row(database, field.rows, child.id, to_row(child) | place)
        for below in children_of(field.rows):
            before = getattr(known[child.id], below.name)
            _replace_children(database, below, field.rows, child.id, before, child)
    for id in known.keys() - kept:
        database.execute(f'DELETE FROM "{TABLE_OF[field.rows]}" WHERE id = ?', [id])


def _insert(database: Database, record: Any, place: dict[str, Any]) -> int:
    """Insert a record with its children and return its id."""
    row = to_row(record) | place
    columns = ", ".join(f'"{name}"' for name in row)
    marks = ", ".join("?" * len(row))
    cursor = database.execute(
        f'INSERT INTO "{TABLE_OF[type(record)]}" ({columns}) VALUES ({marks})', list(row.values())
    )
    id = cursor.lastrowid
    assert id is not None
    for field in children_of(type(record)):
        for position, child in enumerate(getattr(record, field.name)):
            _insert(database, child, {TABLE_OF[type(record)]: id, "position": position})
    return id


def _update_row(database: Database, kind: type, id: int, row: dict[str, Any]) -> None:
    assignments = ", ".join(f'"{name}" = ?' for name in row)
    database.execute(
        f'UPDATE "{TABLE_OF[kind]}" SET {assignments} WHERE id = ?', [*row.values(), id]
    )


def _remember(
    database: Database,
    kind: type,
    id: int,
    revision: int,
    by: str,
    before: dict[str, Any],
    after: dict[str, Any],
) -> None:
    """Write the history entry, and queue every quilt whose searchable text the change may touch."""
    cursor = database.execute(
        'INSERT INTO change (subject, subject_id, revision, "by", at, before, after)'
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        [
            TABLE_OF[kind],
            id,
            revision,
            by,
            now(),
            json.dumps(before, ensure_ascii=False),
            json.dumps(after, ensure_ascii=False),
        ],
    )
    seal_change(database, int(cursor.lastrowid or 0))
    queue_reached(database, kind, id)


def put_back(
    database: Database,
    kind: type[Record],
    id: int,
    change: Change,
    field: str,
    *,
    by: str,
    expecting: int,
) -> Record:
    """Make a field what it was before a change, as a change of its own.

    Raises Conflict as `save` does, and Gone where it referred to what is no longer on record.
    """
    known = {each.name: each for each in fields_of(kind)}
    value = field_from_plain(known[field], change.before[field])
    try:
        return save(database, kind, id, {field: value}, by=by, expecting=expecting)
    except sqlite3.IntegrityError as error:
        raise Gone("It cannot be put back: what it referred to is no longer on record.") from error
