"""One collection as one folder on disk, opened once and used by several threads."""

from __future__ import annotations

import secrets
import threading
from pathlib import Path

from sqlite_utils import Database

from catalogue.collection.database import CollectionError, connect, connect_to_read, migrate
from catalogue.collection.trouble import explained
from catalogue.collection.whole_files import write_whole

DATABASE = "catalogue.db"


class Collection:
    """A collection's folder: `catalogue.db`, `photographs/`, `index/`, `backups/` and a key.

    Every thread that asks gets a database connection of its own, which it keeps.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._connections = threading.local()

    @classmethod
    def create(cls, folder: Path) -> Collection:
        """Make a new, empty collection. Raises CollectionError where one is there already."""
        if (folder / DATABASE).exists():
            raise CollectionError(f"“{folder}” already holds a collection.")
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise CollectionError(f"“{folder}” cannot be made: {error.strerror}.") from error
        return cls._prepared(folder)

    @classmethod
    def open(cls, folder: Path) -> Collection:
        """Open a collection and bring its schema up to date. Raises CollectionError."""
        if not (folder / DATABASE).is_file():
            raise CollectionError(f"“{folder}” is not a collection: it holds no {DATABASE}.")
        return cls._prepared(folder)

    @classmethod
    def _prepared(cls, folder: Path) -> Collection:
        collection = cls(folder)
        with explained(f"“{folder}” cannot be opened for work"):
            for name in ("photographs", "index", "backups"):
                (folder / name).mkdir(exist_ok=True)
            migrate(collection.database)
        return collection

    @property
    def database(self) -> Database:
        """This thread's connection."""
        existing: Database | None = getattr(self._connections, "database", None)
        if existing is None:
            existing = self._connections.database = connect(self.folder / DATABASE)
        return existing

    @property
    def photographs(self) -> Path:
        """The folder of photographs."""
        return self.folder / "photographs"

    @property
    def index(self) -> Path:
        """The folder of the search index."""
        return self.folder / "index"

    def secret(self) -> bytes:
        """Return the key that signs sessions, made at the first run, for its owner's eyes only."""
        file = self.folder / "secret"
        if not file.exists():
            write_whole(file, secrets.token_bytes(32))
        return file.read_bytes()

    def close(self) -> None:
        """Close this thread's connection."""
        existing: Database | None = getattr(self._connections, "database", None)
        if existing is not None:
            existing.close()
            self._connections.database = None


def open_to_read(folder: Path) -> Database:
    """Return a read-only connection to a collection. Raises CollectionError."""
    if not (folder / DATABASE).is_file():
        raise CollectionError(f"“{folder}” is not a collection: it holds no {DATABASE}.")
    return connect_to_read(folder / DATABASE)
