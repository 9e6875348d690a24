"""Putting records away: hidden everywhere, kept whole with their history, taken out again at will.

Nobody deletes a record. One that should not be there (entered twice, entered by mistake) is put
away with the reason; lists, searches and suggestions pass over it, visitors never see it, and its
own page says that it is put away. Only what no other record refers to can be put away, so that no
quilt's maker or pattern vanishes from under it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from catalogue.collection.database import reading
from catalogue.collection.seals import owner_of
from catalogue.collection.store import load, load_many, save
from catalogue.collection.tables import KINDS, PARENTS_OF, TABLE_OF, children_of, fields_of

# What was shown in a talk stays told as it was given, whatever becomes of the record.
_FROZEN = "given_item"
_NAMED_AT_MOST = 3


class StillReferredTo(ValueError):
    """A record that others refer to; the message names some of them."""


class NotPutAway(ValueError):
    """A record that stands open, where one that is put away is needed."""


@dataclass(frozen=True)
class Referrer:
    """A record that refers to another: its kind, its id and what it is called."""

    kind: type[Any]
    id: int
    name: str


def put_away(
    database: Database, kind: type[Any], id: int, reason: str, *, by: str, expecting: int
) -> None:
    """Hide a record, for a reason. Raises NotFound, Conflict and StillReferredTo."""
    if not reason.strip():
        raise ValueError("Write why the record is put away.")
    refuse_referred_to(database, kind, id)
    fields: dict[str, Any] = {"put_away": reason.strip()}
    if any(field.name == "published" for field in fields_of(kind)):
        fields["published"] = False
    save(database, kind, id, fields, by=by, expecting=expecting)


def take_out(database: Database, kind: type[Any], id: int, *, by: str, expecting: int) -> None:
    """Show a record to members again; showing it to visitors is decided anew.

    Raises NotFound and Conflict.
    """
    save(database, kind, id, {"put_away": ""}, by=by, expecting=expecting)


def all_put_away(database: Database) -> list[Any]:
    """Return every record that is put away, kind by kind, the oldest first."""
    with reading(database):
        return [record for kind in KINDS for record in _put_away_of(database, kind)]


def _put_away_of(database: Database, kind: type[Any]) -> list[Any]:
    rows = database.execute(f"SELECT id FROM {TABLE_OF[kind]} WHERE put_away <> '' ORDER BY id")
    return list(load_many(database, kind, [row[0] for row in rows.fetchall()]))


def called(record: Any) -> str:
    """Return what a record of any kind is called in a sentence."""
    number = getattr(record, "accession", "")
    name = getattr(record, "title", "") or record.name
    return f"{number} {name}".strip()


# --- what refers to a record -------------------------------------------------------------------


def refuse_referred_to(database: Database, kind: type[Any], id: int) -> None:
    """Raise StillReferredTo where another record refers to this one, put away or not."""
    found = referrers(database, kind, id)
    if not found:
        return
    named = ", ".join(f"“{each.name}”" for each in found[:_NAMED_AT_MOST])
    more = f" and {len(found) - _NAMED_AT_MOST} more" if len(found) > _NAMED_AT_MOST else ""
    raise StillReferredTo(
        f"{named}{more} still {'refers' if len(found) == 1 else 'refer'} to it:"
        " take it out there first."
    )


def referrers(database: Database, kind: type[Any], id: int) -> list[Referrer]:
    """Return the records that refer to a record, by the foreign keys of the schema."""
    owners = dict.fromkeys(_owners(database, kind, id))
    return [
        Referrer(owner, owned, called(load(database, owner, owned)))
        for owner, owned in owners
        if (owner, owned) != (kind, id)
    ]


def _owners(database: Database, kind: type[Any], id: int) -> Iterator[tuple[type[Any], int]]:
    """Yield the record that each reference to this one, or to a row of its own, stands in."""
    for target, target_id in _rows_of(load(database, kind, id)):
        for table, column in _references_to(database, target):
            rows = database.execute(f'SELECT id FROM "{table}" WHERE "{column}" = ?', [target_id])
            for (row,) in rows.fetchall():
                owner = owner_of(database, table, row)
                if owner is not None:
                    yield owner


def _rows_of(record: Any) -> Iterator[tuple[str, int]]:
    yield TABLE_OF[type(record)], record.id
    for field in children_of(type(record)):
        for row in getattr(record, field.name):
            yield from _rows_of(row)


def _references_to(database: Database, target: str) -> Iterator[tuple[str, str]]:
    """Yield table and column of every reference from one record to another of this kind."""
    for table in TABLE_OF.values():
        if table == _FROZEN:
            continue
        for key in database.table(table).foreign_keys:
            column = str(key.column)
            if key.other_table == target and column not in PARENTS_OF[table]:
                yield table, column
