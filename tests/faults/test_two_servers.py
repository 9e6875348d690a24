"""Two servers on one folder: the second refuses in a sentence; looking and copying go on."""

from __future__ import annotations

import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add

CATALOGUE = [sys.executable, "-c", "from catalogue.cli import main; main()"]


@pytest.fixture
def folder(collection: Collection) -> Path:
    """A collection of one quilt, which nobody has open."""
    add(collection.database, Quilt("Stars"), "Tess")
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    collection.close()
    return collection.folder


@contextmanager
def serving(folder: Path) -> Iterator[subprocess.Popen[str]]:
    """Serve the folder as the command does, from when it says so, until it is killed."""
    command = [*CATALOGUE, "serve", str(folder), "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    try:
        assert process.stdout.readline().startswith("Serving at http://127.0.0.1:")
        yield process
    finally:
        process.send_signal(signal.SIGKILL)
        process.wait()


def run(*command: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*CATALOGUE, *map(str, command)], capture_output=True, text=True, timeout=60
    )


def test_the_second_refuses_and_says_where_the_first_is(folder: Path) -> None:
    with serving(folder):
        for command in (["serve", folder, "--port", "0"], ["reindex", folder]):
            second = run(*command)
            assert second.returncode == 1
            (line,) = second.stderr.splitlines()
            assert "is in use: it is served at http://127.0.0.1:" in line


def test_a_served_collection_can_be_checked_and_copied(folder: Path, tmp_path: Path) -> None:
    with serving(folder):
        checked = run("check", folder)
        assert (checked.returncode, checked.stdout, checked.stderr) == (0, "", "")
        assert run("backup", folder).returncode == 0
        assert run("archive", folder, tmp_path / "bag").returncode == 0


def test_a_server_that_was_killed_is_in_nobodys_way(folder: Path) -> None:
    for _ in range(2):
        with serving(folder):
            pass  # killed at the end
    assert run("check", folder).returncode == 0
