"""One process at a time: a claim on a folder that ends with the process that made it."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from catalogue.collection.database import CollectionError
from catalogue.collection.trouble import explained

CLAIM = "in_use"

# Windows lets nobody read what is locked: the lock lies far behind the words.
_LOCKED_BYTE = 1 << 30


@contextmanager
def claimed(folder: Path, doing: str) -> Iterator[None]:
    """Hold the folder against every other claim while the block runs. Raises CollectionError.

    The operating system keeps the claim and drops it when the process ends, also when it is
    killed: no claim is ever stale. The words in the file serve the other's refusal only.
    """
    with explained(f"“{folder}” cannot be used"):
        handle = os.open(folder / CLAIM, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        if not _take(handle):
            said = os.read(handle, 200).decode("utf-8", "replace").strip()
            raise CollectionError(f"“{folder}” is in use: {said or 'another program holds it'}.")
        os.ftruncate(handle, 0)
        os.write(handle, f"{doing} (process {os.getpid()})\n".encode())
        yield
    finally:
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _take(handle: int) -> bool:
        os.lseek(handle, _LOCKED_BYTE, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        finally:
            os.lseek(handle, 0, os.SEEK_SET)
        return True

else:
    import fcntl

    def _take(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        except OSError as error:
            raise CollectionError(
                "This folder lies where files cannot be claimed: keep a collection on a disk of"
                " this computer."
            ) from error
        return True
