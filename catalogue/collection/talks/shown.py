"""All talks, those still to be given, and where a quilt was shown."""

from __future__ import annotations

from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.records import Talk
from catalogue.collection.store import load_many


def all_talks(database: Database, *, published_only: bool) -> list[Talk]:
    """Return the talks, those to be given first by their day, then the given, the latest first."""
    rows = database.query(
        """SELECT talk.id, max(talk_given."on") AS given FROM talk
           LEFT JOIN talk_given ON talk = talk.id
           WHERE put_away = '' AND (published OR ?) GROUP BY talk.id
           ORDER BY given IS NOT NULL, given DESC, talk."on" = '', talk."on", talk.id""",
        [not published_only],
    )
    return load_many(database, Talk, [row["id"] for row in rows])


@dataclass(frozen=True)
class OpenTalk:
    """A talk that can still take more: one that has not been given."""

    id: int
    title: str
    on: str


def open_talks(database: Database) -> list[OpenTalk]:
    """Return the talks that have not been given yet, the one begun last first."""
    rows = database.query(
        """SELECT id, title, "on" FROM talk
           WHERE put_away = '' AND NOT EXISTS (SELECT 1 FROM talk_given WHERE talk = talk.id)
           ORDER BY id DESC"""
    )
    return [OpenTalk(row["id"], row["title"], row["on"]) for row in rows]


@dataclass(frozen=True)
class ShownAt:
    """One talk in which a quilt was shown: which version of which talk, when and where."""

    talk: int
    giving: int
    title: str
    on: str
    place: str


def shown_at(database: Database, quilt: int, *, published_only: bool) -> list[ShownAt]:
    """Return where a quilt was shown in a talk that was given, the latest first."""
    rows = database.query(
        """SELECT DISTINCT talk.id AS talk, talk_given.id AS giving, talk_given.title AS title,
                  talk_given."on" AS "on", talk_given.place AS place
           FROM given_item JOIN talk_given ON talk_given.id = talk_given
           JOIN talk ON talk.id = talk_given.talk
           WHERE given_item.quilt = ? AND put_away = '' AND (published OR ?)
           ORDER BY talk_given."on" DESC, talk_given.id DESC""",
        [quilt, not published_only],
    )
    return [ShownAt(**row) for row in rows]
