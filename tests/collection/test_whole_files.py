"""Files are there whole or not at all; the order on the way to the disk is what makes it so."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.whole_files import whole_folder, write_whole


@pytest.fixture
def order(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What reaches the disk, in order: bytes of files, names of files, lists of names."""
    done: list[str] = []
    fsync, replace = os.fsync, Path.replace

    def settle(handle: int) -> None:
        done.append("names" if os.path.isdir(f"/proc/self/fd/{handle}") else "bytes")  # noqa: PTH112
        fsync(handle)

    def name(self: Path, target: Path) -> Path:
        done.append("name")
        return replace(self, target)

    monkeypatch.setattr(os, "fsync", settle)
    monkeypatch.setattr(Path, "replace", name)
    return done


@pytest.mark.skipif(not Path("/proc/self/fd").exists(), reason="open files are listed on Linux")
def test_the_bytes_are_on_the_disk_before_the_name_and_the_name_before_it_is_confirmed(
    tmp_path: Path, order: list[str]
) -> None:
    write_whole(tmp_path / "new" / "file", b"all of it")
    assert order == ["names", "bytes", "name", "names"]


def test_a_file_that_cannot_be_written_leaves_the_old_one_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_whole(tmp_path / "file", b"old")

    def fail(handle: int) -> None:
        raise OSError("no room")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OSError, match="no room"):
        write_whole(tmp_path / "file", b"new")
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"old"]


def test_a_folder_gets_its_name_when_it_is_whole(tmp_path: Path) -> None:
    (tmp_path / "final.making").mkdir()  # left by one that was cut off
    (tmp_path / "final.making" / "half").touch()
    with whole_folder(tmp_path / "final") as making:
        assert list(making.iterdir()) == []
        (making / "file").touch()
        assert not (tmp_path / "final").exists()
    assert [path.name for path in (tmp_path / "final").iterdir()] == ["file"]
    with pytest.raises(ValueError, match="enough"), whole_folder(tmp_path / "other"):
        raise ValueError("enough")
    assert [path.name for path in tmp_path.iterdir()] == ["final"]


def test_every_confirmed_save_has_reached_the_disk(collection: Collection) -> None:
    """SQLite waits for the disk at every commit (sqlite.org/pragma.html#pragma_synchronous)."""
    assert collection.database.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    assert collection.database.execute("PRAGMA synchronous").fetchone() == (2,)  # FULL
