"""Keeping the search index in step with the record, and never opening one that is not ours.

SQLite holds the queue of quilts to bring up to date, a digest of what the index holds of each
quilt, and the hash of every file of the index. Whatever does not agree with that is thrown away
and rebuilt: the index is only a shadow of the record.
"""

from __future__ import annotations

import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import digest_of
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.collection.search.fulltext import VERSION, Index
from catalogue.collection.search.questions import Question
from catalogue.collection.search.searchable import digest, searchable_texts
from catalogue.collection.store import load_many

_BATCH = 500


Progress = Callable[[int, int], None]


def no_progress(done: int, total: int) -> None:
    """Tell nobody how far the work has come."""
    del done, total


class SearchIndex:
    """The index of one collection, safe to be used by several threads."""

    def __init__(self, collection: Collection) -> None:
        self._collection = collection
        self._lock = threading.RLock()
        self._index: Index | None = None

    def find(self, question: Question) -> dict[int, float]:
        """Return the ids of the quilts that answer the question, with scores, all saves seen."""
        with self._lock:
            self.catch_up()
            assert self._index is not None
            return self._index.find(question)

    def catch_up(self) -> None:
        """Bring the index up to date from the queue; rebuild it if it is not ours or not whole."""
        with self._lock:
            if self._index is None and not self._open_ours():
                self.rebuild()
                return
            queued = [
                row["quilt"]
                for row in self._collection.database.query("SELECT quilt FROM index_queue")
            ]
            if queued:
                self._bring(queued)

    def rebuild(self, progress: Progress = no_progress) -> None:
        """Make the index anew from the records, beside the old one, and put it in its place."""
        with self._lock:
            self.close()
            database = self._collection.database
            ids = [row["id"] for row in database.query("SELECT id FROM quilt ORDER BY id")]
            beside = self._collection.folder / "index.new"
            shutil.rmtree(beside, ignore_errors=True)
            beside.mkdir()
            index = Index.make(beside)
            held: list[tuple[int, str]] = []
            index.write(self._texts(ids, held, progress))
            index.close()
            with writing(database):
                for table in ("indexed", "index_file", "index_queue"):
                    database.execute(f"DELETE FROM {table}")
                self._remember(held, _manifest(beside))
            shutil.rmtree(self._collection.index, ignore_errors=True)
            beside.rename(self._collection.index)
            self._index = Index.open(self._collection.index)

    def close(self) -> None:
        """Let go of the index's files."""
        with self._lock:
            if self._index is not None:
                self._index.close()
                self._index = None

    def _open_ours(self) -> bool:
        """Open the index on disk if its files are those of the manifest, and say whether."""
        if faults(self._collection.database, self._collection.index):
            return False
        self._index = Index.open(self._collection.index)
        return True

    def _bring(self, ids: list[int]) -> None:
        """Write these quilts to the index and take them from the queue.

        The record may change between reading it and clearing the queue: the queue is therefore
        cleared first, in the transaction in which the records are read, and only committed when
        the index has been written.
        """
        assert self._index is not None
        database = self._collection.database
        held: list[tuple[int, str]] = []
        with writing(database):
            self._index.write(self._texts(ids, held))
            marks = ",".join("?" * len(ids))
            database.execute(f"DELETE FROM index_queue WHERE quilt IN ({marks})", ids)
            database.execute(f"DELETE FROM indexed WHERE quilt IN ({marks})", ids)
            self._remember(held, _manifest(self._collection.index))

    def _texts(
        self,
        ids: list[int],
        held: list[tuple[int, str]],
        progress: Progress = no_progress,
    ) -> Iterator[tuple[int, dict[str, str] | None]]:
        """Yield each quilt's text, None for one that is gone; note in `held` what was yielded."""
        for start in range(0, len(ids), _BATCH):
            batch = ids[start : start + _BATCH]
            for id, text, fingerprint in _read(self._collection.database, batch):
                if text is not None:
                    held.append((id, fingerprint))
                yield id, text
            progress(min(start + _BATCH, len(ids)), len(ids))

    def _remember(self, held: list[tuple[int, str]], files: dict[str, str]) -> None:
        database = self._collection.database
        database.conn.executemany("INSERT OR REPLACE INTO indexed VALUES (?, ?)", held)
        database.execute("DELETE FROM index_file")
        database.conn.executemany("INSERT INTO index_file VALUES (?, ?)", list(files.items()))


def faults(database: Database, folder: Path) -> list[str]:
    """Return what is wrong with the index, in sentences, without opening it."""
    manifest = {row["name"]: row["sha256"] for row in database.query("SELECT * FROM index_file")}
    if not manifest:
        return ["The search index has not been made yet."]
    if manifest.pop(_VERSION, None) != VERSION:
        return ["The search index was made by another version of the catalogue."]
    found = _files(folder)
    sentences = [
        f"The index file “{name}” is missing." for name in sorted(manifest.keys() - found.keys())
    ]
    sentences += [
        f"The index file “{name}” is not one that the catalogue wrote."
        for name in sorted(found)
        if manifest.get(name) != digest_of(found[name])
    ]
    return sentences


def out_of_step(database: Database) -> list[int]:
    """Return the ids of quilts whose text the index does not hold as it now is."""
    held = {row["quilt"]: row["digest"] for row in database.query("SELECT * FROM indexed")}
    ids = [row["id"] for row in database.query("SELECT id FROM quilt ORDER BY id")]
    differing = [
        id
        for start in range(0, len(ids), _BATCH)
        for id, _, fingerprint in _read(database, ids[start : start + _BATCH])
        if held.get(id) != fingerprint
    ]
    return sorted({*differing, *(held.keys() - set(ids))})


def _read(database: Database, ids: list[int]) -> Iterator[tuple[int, dict[str, str] | None, str]]:
    """Yield each quilt's text and its fingerprint; no text where the quilt is gone."""
    quilts = load_many(database, Quilt, ids)
    texts = searchable_texts(quilts, related_to(database, quilts))
    found = {
        quilt.id: (text, digest(quilt, text)) for quilt, text in zip(quilts, texts, strict=True)
    }
    for id in ids:
        yield (id, *found.get(id, (None, "")))


_VERSION = "version"


def _files(folder: Path) -> dict[str, Path]:
    return {
        file.name: file
        for file in folder.iterdir()
        if file.is_file() and not file.name.endswith("_WRITELOCK")
    }


def _manifest(folder: Path) -> dict[str, str]:
    hashes = {name: digest_of(file) for name, file in _files(folder).items()}
    return hashes | {_VERSION: VERSION}
