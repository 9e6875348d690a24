"""Related material: letters, leaflets, photographs, and what each belongs to."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from sqlite_utils import Database

from catalogue.collection.records import RelatedItem
from catalogue.collection.store import load_many

# What a piece of related material can belong to: columns of `link`.
TARGETS = ("quilt", "pattern", "publication", "party")


def items_of(
    database: Database, target: str, id: int, *, published_only: bool
) -> list[RelatedItem]:
    """Return the material that belongs to one record, by title."""
    assert target in TARGETS
    rows = database.query(
        f"""SELECT DISTINCT related_item.id, title FROM related_item
            JOIN link ON related_item = related_item.id
            WHERE link.{target} = ? AND (published OR ?) ORDER BY title COLLATE NOCASE""",
        [id, not published_only],
    )
    return _loaded(database, [row["id"] for row in rows], published_only)


def all_items(database: Database, *, published_only: bool) -> list[RelatedItem]:
    """Return all related material, by title."""
    rows = database.query(
        "SELECT id FROM related_item WHERE published OR ? ORDER BY title COLLATE NOCASE",
        [not published_only],
    )
    return _loaded(database, [row["id"] for row in rows], published_only)


def items_with(
    database: Database, words: Sequence[str], *, published_only: bool, most: int = 20
) -> list[RelatedItem]:
    """Return material whose title, kind or description holds every one of the words."""
    if not words:
        return []
    held = " AND ".join(
        ["instr(lower(title || ' ' || kind || ' ' || description), ?) > 0"] * len(words)
    )
    rows = database.query(
        f"""SELECT id FROM related_item WHERE (published OR ?) AND {held}
            ORDER BY title COLLATE NOCASE LIMIT ?""",
        [not published_only, *(word.casefold() for word in words), most],
    )
    return _loaded(database, [row["id"] for row in rows], published_only)


def _loaded(database: Database, ids: list[int], published_only: bool) -> list[RelatedItem]:
    """Return the items, for visitors without the place where they are kept."""
    items = load_many(database, RelatedItem, ids)
    return [item_for_visitors(item) if published_only else item for item in items]


def item_for_visitors(item: RelatedItem) -> RelatedItem:
    """Return the item without what only members see."""
    return dataclasses.replace(item, kept="")
