"""Keeping the search index in step with the record, for several threads.

SQLite holds the queue of quilts to bring up to date, what the index holds of each quilt, and the
hash of every file of the index (see `manifest`). The index is only a shadow of the record:
whatever does not agree with that is thrown away and made anew.
"""

from __future__ import annotations

import shutil
import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import numpy as np
from sqlite_utils import Database

from catalogue.collection.database import CollectionError, writing
from catalogue.collection.folder import Collection
from catalogue.collection.search import fulltext, held, manifest, snapshots
from catalogue.collection.search.searchable import Texts
from catalogue.collection.search.snapshots import Leaf, Snapshot
from catalogue.collection.trouble import trouble_in

# So many segments of up to so many documents are made one at the next writing: each save makes a
# segment, and every segment costs a search a little.
_SEGMENTS_AT_MOST = 16
_SIZES = ((0, 64), (64, 1024))

Progress = Callable[[int, int], None]


def no_progress(done: int, total: int) -> None:
    """Tell nobody how far the work has come."""
    del done, total


class SearchIndex:
    """The index of one collection, safe to be used by several threads."""

    def __init__(self, collection: Collection) -> None:
        self._collection = collection
        self._lock = threading.RLock()
        self._snapshot: Snapshot | None = None
        self._turn = -1

    def snapshot(self) -> Snapshot:
        """Return the index as it now stands, all saves seen.

        Where the disk is full or somebody else saves for long, as it stood before.
        """
        with self._lock:
            try:
                self.catch_up()
            except (sqlite3.Error, OSError) as error:
                if trouble_in(error) is None or self._snapshot is None:
                    raise
            assert self._snapshot is not None
            return self._snapshot

    def catch_up(self) -> None:
        """Bring the index up to date from the queue; make it anew where it is not ours or whole."""
        with self._lock:
            current = self._snapshot is not None and manifest.turn(self._database) == self._turn
            if not current and not self._open():
                self.rebuild()
            while queued := self._queued():
                self._bring(queued)

    def rebuild(self, progress: Progress = no_progress) -> None:
        """Make the index anew from the records, beside the old one, and put it in its place."""
        with self._lock:
            beside, database = self._beside, self._database
            shutil.rmtree(beside, ignore_errors=True)
            beside.mkdir()
            fulltext.create(beside)
            with _table_apart(database) as table:
                saves = _saves_of_others(database)
                fulltext.write(beside, held.put(database, self._all(progress), table))
                with writing(database):
                    database.execute("DELETE FROM indexed")
                    database.execute(f"INSERT INTO indexed SELECT * FROM {table}")
                    if saves == _saves_of_others(database):  # or else it is read again, in time
                        database.execute("DELETE FROM index_queue")
                    manifest.remember(database, beside)
            self.close()
            if not self._open():
                raise CollectionError(f"A new index cannot be put in place of “{self._folder}”.")

    def close(self) -> None:
        """Let go of the index."""
        with self._lock:
            self._snapshot = None

    @property
    def _database(self) -> Database:
        return self._collection.database

    @property
    def _folder(self) -> Path:
        return self._collection.index

    @property
    def _beside(self) -> Path:
        return self._collection.folder / "index.new"

    def _open(self) -> bool:
        """Open the index on disk if its files are those of the manifest, and say whether."""
        if not manifest.made_ready(self._database, self._folder, self._beside):
            return False
        self._turn = manifest.turn(self._database)
        self._snapshot = snapshots.opened(self._database, self._folder)
        return True

    def _queued(self) -> list[int]:
        rows = self._database.execute(f"SELECT quilt FROM index_queue LIMIT {held.BATCH}")
        return [row[0] for row in rows]

    def _all(self, progress: Progress) -> Iterator[tuple[int, Texts]]:
        """Yield the texts of all quilts, a batch at a time, and tell how far it is."""
        ids = held.all_ids(self._database)
        for start in range(0, len(ids), held.BATCH):
            yield from held.composed(self._database, ids[start : start + held.BATCH]).items()
            progress(min(start + held.BATCH, len(ids)), len(ids))

    def _bring(self, ids: list[int]) -> None:
        """Write these quilts to the index and take them from the queue.

        A record may change between reading it and clearing the queue: both are therefore done in
        one transaction, which is committed when the index has been written.
        """
        assert self._snapshot is not None
        database = self._database
        self._turn = -1  # until SQLite agrees, the files may be ahead of it
        with writing(database):
            self._write(ids)
            database.conn.executemany(
                "DELETE FROM index_queue WHERE quilt = ?", [[id] for id in ids]
            )
            turn = manifest.turn(database)
        self._snapshot = snapshots.updated(self._snapshot, database, self._folder, ids)
        self._turn = turn
        manifest.sweep_old(database, self._folder)

    def _write(self, ids: list[int]) -> None:
        """Write those quilts whose text is another than the index holds, inside a transaction."""
        assert self._snapshot is not None
        database, leaves = self._database, self._snapshot.leaves
        now = held.composed(database, ids)
        before = held.digests(database, ids)
        changed = {id: texts for id, texts in now.items() if texts.digest != before.get(id)}
        gone = before.keys() - now.keys()
        database.conn.executemany("DELETE FROM indexed WHERE quilt = ?", [[id] for id in gone])
        if not changed and not gone:
            manifest.next_turn(database)
            return
        merged = _to_merge(leaves)
        moved = held.held_texts(database, _living(merged) - {*changed, *gone})
        additions = [held.addition(id, texts) for id, texts in moved.items()]
        additions += held.put(database, changed.items())
        deleted = _documents(leaves, [*changed, *gone])
        fulltext.write(self._folder, additions, deleted, [leaf.segment.name for leaf in merged])
        manifest.remember(database, self._folder)


@contextmanager
def _table_apart(database: Database) -> Iterator[str]:
    """Make a table like `indexed`, of this connection alone, and drop it in the end."""
    database.execute("CREATE TEMP TABLE index_made AS SELECT * FROM indexed WHERE false")
    try:
        yield "temp.index_made"
    finally:
        database.execute("DROP TABLE temp.index_made")


def _saves_of_others(database: Database) -> int:
    """Return a number that changes when another connection has saved anything."""
    return int(database.execute("PRAGMA data_version").fetchone()[0])


def _to_merge(leaves: Sequence[Leaf]) -> list[Leaf]:
    """Return the segments that should be made one, none where there are few of a size."""
    for least, most in _SIZES:
        within = [leaf for leaf in leaves if least <= len(leaf.rows) < most]
        if len(within) >= _SEGMENTS_AT_MOST:
            return within
    return []


def _living(leaves: Iterable[Leaf]) -> set[int]:
    """Return the quilts that these segments hold as they now are."""
    return {int(id) for leaf in leaves for id in leaf.segment.quilts[leaf.rows >= 0]}


def _documents(leaves: Iterable[Leaf], ids: list[int]) -> dict[str, list[int]]:
    """Return by segment the documents that hold these quilts."""
    return {
        leaf.segment.name: np.flatnonzero(np.isin(leaf.segment.quilts, ids)).tolist()
        for leaf in leaves
    }
