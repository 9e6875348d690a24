"""What people type to say what an item of a talk is about, and back."""

from __future__ import annotations

import re
from typing import Any

from sqlite_utils import Database

from catalogue.collection.records import TalkItem
from catalogue.collection.register import Kind, Register
from catalogue.collection.talks.programme import SUBJECTS, kind_of

_NUMBERED = re.compile(r"(?P<name>.*\S)\s*\[(?P<id>\d{1,12})\]")
_REGISTERED = {
    "quilt": Kind.QUILT,
    "pattern": Kind.PATTERN,
    "publication": Kind.PUBLICATION,
    "person": Kind.PARTY,
}
_FIELD = {words: name for name, (_, words) in SUBJECTS.items()}


def item_named(database: Database, register: Register, kind: str, typed: str) -> TalkItem | None:
    """Return an item of this kind by its name, number or words; None where nothing is so called."""
    if kind == "heading":
        return TalkItem(typed)
    if kind == "borrowed quilt":
        return TalkItem(typed, borrowed=True)
    if kind == "related material":
        id = _related_item(database, typed)
    else:
        id = register.find(_REGISTERED[kind], typed)
    about: dict[str, Any] = {_FIELD[kind]: id}
    return TalkItem(**about) if id is not None else None


def name_of(database: Database, register: Register, item: TalkItem) -> str:
    """Return what `item_named` takes for this item."""
    kind = kind_of(item)
    if kind == "related material":
        return _related_label(database, item.related_item)
    if kind in _REGISTERED:
        return register.label_of(_REGISTERED[kind], getattr(item, _FIELD[kind]))
    return item.words


def names_to_offer(database: Database, register: Register) -> list[str]:
    """Return every name on record that an item can be about."""
    names = [name for kind in _REGISTERED.values() for name in register.labels(kind)]
    rows = database.query(
        "SELECT id FROM related_item WHERE put_away = '' ORDER BY title COLLATE NOCASE, id"
    )
    return names + [_related_label(database, row["id"]) for row in rows]


def _related_item(database: Database, typed: str) -> int | None:
    numbered = _NUMBERED.fullmatch(typed)
    name, id = (numbered["name"], int(numbered["id"])) if numbered else (typed, None)
    rows = database.query(
        """SELECT id FROM related_item WHERE put_away = ''
               AND title = ? COLLATE NOCASE AND (? IS NULL OR id = ?)
           UNION SELECT id FROM related_item WHERE put_away = '' AND title = ? COLLATE NOCASE
           ORDER BY id""",
        [name, id, id, typed],
    )
    return next((int(row["id"]) for row in rows), None)


def _related_label(database: Database, id: int | None) -> str:
    """Return the title, with its number where another bears the same."""
    row = next(
        iter(
            database.query(
                """SELECT title, (SELECT count(*) FROM related_item AS other
                   WHERE lower(other.title) = lower(related_item.title)) AS bearers
                   FROM related_item WHERE id = ?""",
                [id],
            )
        )
    )
    return str(row["title"]) if row["bearers"] == 1 else f"{row['title']} [{id}]"
