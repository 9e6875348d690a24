"""Files that are there whole or not at all, also after a kill or a power cut.

The order is what counts: the bytes reach the disk, then the name, then the folder that lists the
name. Whoever finds the name after that finds all the bytes.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

if sys.platform != "win32":
    import fcntl

PART = ".part"  # behind the name of a file that is being written; a kill may leave one
MAKING = ".making"  # behind the name of a folder that is being filled


def write_whole(file: Path, data: bytes) -> None:
    """Write a file, for its owner's eyes only, so that it is there whole or not at all."""
    make_folder(file.parent)
    handle, name = tempfile.mkstemp(dir=file.parent, suffix=PART)
    try:
        with os.fdopen(handle, "wb") as opened:
            opened.write(data)
            opened.flush()
            _reach_the_disk(opened.fileno())
        Path(name).replace(file)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    settle(file.parent)


@contextmanager
def whole_folder(final: Path) -> Iterator[Path]:
    """Yield a folder to fill, which gets the name `final` when the block is done.

    Where the block fails nothing is left. What an earlier one that was cut off has left is removed.
    The files are the block's to settle; `final` must not exist, or be empty.
    """
    making = final.with_name(final.name + MAKING)
    shutil.rmtree(making, ignore_errors=True)
    make_folder(making)
    try:
        yield making
        if final.exists():
            final.rmdir()
        making.rename(final)
    except BaseException:
        shutil.rmtree(making, ignore_errors=True)
        raise
    settle(final.absolute().parent)


def make_folder(folder: Path) -> None:
    """Make a folder and those above it, each on the disk before anything lies in it."""
    if not folder.is_dir():
        make_folder(folder.parent)
        folder.mkdir(exist_ok=True)
        settle(folder.parent)


def settle(path: Path) -> None:
    """Wait until a file, or the names in a folder, are on the disk."""
    if os.name == "nt" and path.is_dir():
        return  # Windows opens no folder, and writes its names through by itself
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        _reach_the_disk(handle)
    finally:
        os.close(handle)


def _reach_the_disk(handle: int) -> None:
    if sys.platform == "darwin":  # its fsync ends in the disk's own cache (man 2 fsync)
        with contextlib.suppress(OSError):  # disks of a network may not know it
            fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
            return
    os.fsync(handle)
