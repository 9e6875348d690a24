"""What the index holds of each quilt, as SQLite remembers it: fingerprint and texts."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence

from sqlite_utils import Database

from catalogue.collection.database import reading
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.collection.seals import Altered, damaged_text_read
from catalogue.collection.search.searchable import (
    FIELDS,
    MEMBERS_FIELDS,
    Texts,
    searchable_texts,
)
from catalogue.collection.search.segments import Addition
from catalogue.collection.search.words import occurrences
from catalogue.collection.store import load_many

BATCH = 500


def composed(database: Database, ids: Sequence[int]) -> dict[int, Texts]:
    """Return the texts of these quilts as the record now stands.

    Those that are gone or put away are left out, and those that are damaged or refer to what is: a
    text that nobody wrote is not searched, and one such record does not stop the others.
    """
    try:
        return _composed(database, ids)
    except Altered:
        if len(ids) == 1:
            return {}
    return {id: texts for one in ids for id, texts in composed(database, [one]).items()}


def _composed(database: Database, ids: Sequence[int]) -> dict[int, Texts]:
    with reading(database):
        quilts = [quilt for quilt in load_many(database, Quilt, ids) if not quilt.put_away]
        texts = searchable_texts(quilts, related_to(database, quilts))
    return {quilt.id: each for quilt, each in zip(quilts, texts, strict=True) if quilt.id}


def addition(quilt: int, texts: Texts) -> Addition:
    """Return what the index takes in of a quilt."""
    public = occurrences(texts.public, FIELDS)
    return Addition(
        quilt, {"public": public, "members": occurrences(texts.members, MEMBERS_FIELDS)}
    )


def put(
    database: Database, texts: Iterable[tuple[int, Texts]], table: str = "indexed"
) -> Iterator[Addition]:
    """Remember the texts as they go by, and yield what the index takes in of each quilt."""
    for quilt, each in texts:
        taken = addition(quilt, each)
        words = _count(taken)
        plain = (json.dumps(part, ensure_ascii=False) for part in (each.public, each.members))
        database.execute(
            f"INSERT OR REPLACE INTO {table} VALUES (?, ?, ?, ?, ?)",
            [quilt, each.digest, words, *plain],
        )
        yield taken


def _count(taken: Addition) -> int:
    return sum(map(len, taken.terms["public"].values()))


def held_texts(database: Database, ids: Iterable[int]) -> dict[int, Texts]:
    """Return the texts of these quilts as the index holds them, composed anew where damaged."""
    with damaged_text_read(database):
        rows = database.execute(
            "SELECT quilt, digest, public, members FROM indexed"
            " WHERE quilt IN (SELECT value FROM json_each(?))",
            [json.dumps(list(ids))],
        ).fetchall()
    read = {id: _whole(*row) for id, *row in rows}
    damaged = [id for id, texts in read.items() if texts is None]
    whole = {id: texts for id, texts in read.items() if texts is not None}
    return whole | (composed(database, damaged) if damaged else {})


def _whole(digest: str, public: str, members: str) -> Texts | None:
    """Return the texts of a row, None where they are not those that were written."""
    try:
        texts = Texts(json.loads(public), json.loads(members))
        return texts if texts.digest == digest else None
    except (TypeError, ValueError):
        return None


def digests(database: Database, ids: Iterable[int]) -> dict[int, str]:
    """Return the fingerprints of what the index holds of these quilts."""
    rows = database.execute(
        "SELECT quilt, digest FROM indexed WHERE quilt IN (SELECT value FROM json_each(?))",
        [json.dumps(list(ids))],
    )
    return dict(rows.fetchall())


def all_ids(database: Database) -> list[int]:
    """Return the ids of all quilts that are not put away."""
    return [
        row[0] for row in database.execute("SELECT id FROM quilt WHERE put_away = '' ORDER BY id")
    ]


def out_of_step(database: Database) -> list[int]:
    """Return the ids of quilts whose text the index does not hold as it now is."""
    ids = all_ids(database)
    differing = {
        id
        for start in range(0, len(ids), BATCH)
        for id in _differing(database, ids[start : start + BATCH])
    }
    held = {row[0] for row in database.execute("SELECT quilt FROM indexed")}
    return sorted(differing | held - set(ids))


def _differing(database: Database, ids: list[int]) -> list[int]:
    """Return those of these quilts whose row is missing, out of date or damaged."""
    with damaged_text_read(database):
        rows = database.execute(
            "SELECT quilt, words, digest, public, members FROM indexed WHERE quilt BETWEEN ? AND ?",
            [ids[0], ids[-1]],
        )
        held = {id: (_whole(*row), words) for id, words, *row in rows}
    now = composed(database, ids).items()
    return [id for id, texts in now if held.get(id) != (texts, _count(addition(id, texts)))]
