"""Related material: letters, leaflets, photographs, and what each belongs to."""

from __future__ import annotations

from collections.abc import Sequence

from sqlite_utils import Database

from catalogue.collection.privacy import Reader, item_for
from catalogue.collection.records import RelatedItem
from catalogue.collection.store import load_many

# What a piece of related material can belong to: columns of `link`.
TARGETS = ("quilt", "pattern", "publication", "party")


def items_of(database: Database, target: str, id: int, *, reader: Reader) -> list[RelatedItem]:
    """Return the material that belongs to one record, by title."""
    assert target in TARGETS
    rows = database.query(
        f"""SELECT DISTINCT related_item.id, title FROM related_item
            JOIN link ON related_item = related_item.id
            WHERE link.{target} = ? AND put_away = '' AND (published OR ?)
            ORDER BY title COLLATE NOCASE""",
        [id, not reader.is_visitor],
    )
    return _loaded(database, [row["id"] for row in rows], reader)


def all_items(database: Database, *, reader: Reader) -> list[RelatedItem]:
    """Return all related material, by title."""
    rows = database.query(
        "SELECT id FROM related_item WHERE put_away = '' AND (published OR ?)"
        " ORDER BY title COLLATE NOCASE",
        [not reader.is_visitor],
    )
    return _loaded(database, [row["id"] for row in rows], reader)


def items_with(
    database: Database, words: Sequence[str], *, reader: Reader, most: int = 20
) -> list[RelatedItem]:
    """Return material whose title, kind or description holds every one of the words."""
    if not words:
        return []
    held = " AND ".join(
        ["instr(lower(title || ' ' || kind || ' ' || description), ?) > 0"] * len(words)
    )
    rows = database.query(
        f"""SELECT id FROM related_item WHERE put_away = '' AND (published OR ?) AND {held}
            ORDER BY title COLLATE NOCASE LIMIT ?""",
        [not reader.is_visitor, *(word.casefold() for word in words), most],
    )
    return _loaded(database, [row["id"] for row in rows], reader)


def _loaded(database: Database, ids: list[int], reader: Reader) -> list[RelatedItem]:
    return [item_for(reader, item) for item in load_many(database, RelatedItem, ids)]
