"""Disks to go wrong: one that is small, and one that cannot be written to."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

MEGABYTE = 2**20


@contextmanager
def small_disk(place: Path, size: int) -> Iterator[Path]:
    """Mount a disk of so many bytes; the test is skipped where that is not allowed."""
    place.mkdir()
    _mount("-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(place))
    try:
        yield place
    finally:
        subprocess.run(["umount", "-l", str(place)], check=True)


@contextmanager
def write_protected(folder: Path) -> Iterator[None]:
    """Let nobody write in a folder, not even root."""
    if os.geteuid() == 0:
        _mount("--bind", str(folder), str(folder))
        try:
            subprocess.run(["mount", "-o", "remount,ro,bind", str(folder)], check=True)
            yield
        finally:
            subprocess.run(["umount", "-l", str(folder)], check=True)
        return
    paths = [folder, *folder.rglob("*")]
    for path in paths:
        path.chmod(0o555 if path.is_dir() else 0o444)
    try:
        yield
    finally:
        for path in paths:
            path.chmod(0o755 if path.is_dir() else 0o644)


def _mount(*arguments: str) -> None:
    if os.geteuid() != 0:
        pytest.skip("mounting a disk needs root")
    done = subprocess.run(["mount", *arguments], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        pytest.skip(f"a disk cannot be mounted here: {done.stderr.strip()}")


def fill(disk: Path, leaving: int) -> Path:
    """Fill a disk but for so many bytes, and return the file that fills it."""
    filler = disk / "filler"
    free = os.statvfs(disk).f_bavail * os.statvfs(disk).f_frsize
    with filler.open("wb") as file:
        file.write(b"x" * max(0, free - leaving))
    return filler
