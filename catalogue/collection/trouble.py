"""What disk and database complain of, told in one sentence each."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Literal

from catalogue.collection.database import CollectionError, Unreadable
from catalogue.collection.seals import Altered

Kind = Literal["full", "protected", "busy", "damaged", "failing"]


@dataclass(frozen=True)
class Trouble:
    """A fault under the program, not in it: its kind, and one sentence for the user."""

    kind: Kind
    says: str


REMEDY = (
    " Nothing was changed: see with `catalogue check` how far it goes, and restore the newest copy"
    " into a new folder with `catalogue restore`."
)

_SAYS: dict[Kind, str] = {
    "full": "The disk is full.",
    "protected": "The folder is write-protected, or belongs to somebody else.",
    "busy": "Somebody else was saving for too long.",
    "damaged": "The database is damaged.",
    "failing": "The disk reports a fault.",
}

_OF_SQLITE: dict[int, Kind] = {
    sqlite3.SQLITE_FULL: "full",
    sqlite3.SQLITE_READONLY: "protected",
    sqlite3.SQLITE_CANTOPEN: "protected",
    sqlite3.SQLITE_PERM: "protected",
    sqlite3.SQLITE_BUSY: "busy",
    sqlite3.SQLITE_LOCKED: "busy",
    sqlite3.SQLITE_CORRUPT: "damaged",
    sqlite3.SQLITE_NOTADB: "damaged",
    sqlite3.SQLITE_IOERR: "failing",
}

_OF_SYSTEM: dict[int | None, Kind] = {
    errno.ENOSPC: "full",
    errno.EDQUOT: "full",
    errno.EFBIG: "full",
    errno.EROFS: "protected",
    errno.EACCES: "protected",
    errno.EPERM: "protected",
    errno.EIO: "failing",
}


def trouble_in(error: BaseException | None) -> Trouble | None:
    """Return what an error says of disk or database, None where the fault lies elsewhere."""
    if isinstance(error, Altered | Unreadable):
        return Trouble("damaged", str(error))
    kind: Kind | None = None
    if isinstance(error, sqlite3.Error):
        kind = _of_sqlite(error)
    elif isinstance(error, OSError):
        kind = _OF_SYSTEM.get(error.errno)
    return Trouble(kind, _SAYS[kind]) if kind is not None else None


def _of_sqlite(error: sqlite3.Error) -> Kind | None:
    if "Could not decode to UTF-8" in str(error):
        return "damaged"  # what is written here is always UTF-8
    code: int = getattr(error, "sqlite_errorcode", 0)
    return _OF_SQLITE.get(code & 0xFF)  # the low byte is the code without its details


@contextmanager
def explained(what: str) -> Iterator[None]:
    """Turn trouble with disk or database inside the block into a CollectionError about `what`."""
    try:
        yield
    except (OSError, sqlite3.Error) as error:
        trouble = trouble_in(error)
        if trouble is None and not isinstance(error, OSError):
            raise
        reason = trouble.says.removesuffix(".") if trouble is not None else str(error)
        remedy = REMEDY if trouble is not None and trouble.kind == "damaged" else ""
        raise CollectionError(f"{what}: {reason[0].lower()}{reason[1:]}.{remedy}") from error
