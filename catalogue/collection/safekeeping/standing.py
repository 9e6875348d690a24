"""How things stand with the disk and the program that a collection depends on."""

from __future__ import annotations

import shutil
import sqlite3
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path


@dataclass(frozen=True)
class Standing:
    """The folder, the room on its disk in bytes, and the versions at work."""

    folder: Path
    free: int
    total: int
    version: str
    sqlite_version: str


def standing(folder: Path) -> Standing:
    """Return how things stand just now."""
    disk = shutil.disk_usage(folder)
    return Standing(
        folder.absolute(),
        disk.free,
        disk.total,
        version("quilt-catalogue"),
        sqlite3.sqlite_version,
    )


def octets_in_words(octets: int) -> str:
    """Return a size in megabytes, or in gigabytes where it is large."""
    megabytes = octets / 2**20
    return f"{megabytes / 1024:.1f} GB" if megabytes >= 1024 else f"{megabytes:.1f} MB"
