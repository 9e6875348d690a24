"""Files that are there whole or not at all, also after a kill or a power cut.

The order is what counts: the bytes reach the disk, then the name, then the folder that lists the
name. Whoever finds the name after that finds all the bytes.
"""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

PART = ".part"  # what is being written, and what a kill may leave behind


def write_whole(file: Path, data: bytes) -> None:
    """Write a file, for its owner's eyes only, so that it is there whole or not at all."""
    make_folder(file.parent)
    handle, name = tempfile.mkstemp(dir=file.parent, suffix=PART)
    try:
        with os.fdopen(handle, "wb") as opened:
            opened.write(data)
            opened.flush()
            os.fsync(opened.fileno())
        Path(name).replace(file)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    settle(file.parent)


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
        os.fsync(handle)
    finally:
        os.close(handle)
