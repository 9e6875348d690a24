"""Killed at any moment of saving, uploading, indexing, migrating or backing up, nothing is lost.

After each kill -9: the collection opens, the check tells the truth, and everything that had been
confirmed is there.
"""

from __future__ import annotations

import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
import works

from catalogue.collection import database as opening
from catalogue.collection import settings
from catalogue.collection.checking import check
from catalogue.collection.database import connect, migrate
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import digest_of, original
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping.copies import copies_in, faults_in
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.safekeeping.rotation import KeepPolicy
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, history, load

Figures = Callable[[str], None]


def untold(done: int, total: int) -> None:
    """Tell nobody how far the work has come."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A collection of one quilt, numbered 0, with an index; nobody has it open."""
    collection = Collection.create(tmp_path / "collection")
    add(collection.database, Quilt("title0", history="history0"), "Tess")
    settings.set_keep_policy(collection.database, KeepPolicy(999))
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    collection.close()
    return collection.folder


def kill_during(kind: str, folder: Path, seconds: float) -> list[str]:
    """Start the work, kill -9 so long after its first confirmation, return what was confirmed."""
    process = subprocess.Popen(
        [sys.executable, works.__file__, kind, str(folder)], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    first = process.stdout.readline()
    assert first, f"{kind} did not begin"
    time.sleep(seconds)
    process.send_signal(signal.SIGKILL)
    rest = process.stdout.read()
    process.wait()
    # A line that was cut off was not confirmed to anybody.
    return [line for line in (first + rest).splitlines(keepends=True) if line.endswith("\n")]


def assert_check_tells_the_truth(collection: Collection) -> None:
    """Nothing but the index may lag, and once it has caught up nothing is amiss."""
    assert {finding.what for finding in check(collection.folder)} <= {"index"}
    index = SearchIndex(collection)
    index.catch_up()
    title = load(collection.database, Quilt, 1).title
    assert find(collection.database, index, Wanted(title), reader=Reader("historian")).total == 1
    index.close()
    assert check(collection.folder) == []


def after_numbers(folder: Path, confirmed: list[str]) -> None:
    collection = Collection.open(folder)
    quilt = load(collection.database, Quilt, 1)
    number = int(quilt.title.removeprefix("title"))
    assert number in (int(confirmed[-1]), int(confirmed[-1]) + 1)
    assert quilt.history == f"history{number}"
    assert {phase.note for phase in quilt.phases} <= {f"note{number}"}
    changes = history(collection.database, Quilt, 1)
    assert [change.revision for change in changes] == list(range(quilt.revision, 0, -1))
    assert_check_tells_the_truth(collection)
    collection.close()


def after_photographs(folder: Path, confirmed: list[str]) -> None:
    collection = Collection.open(folder)
    photographs = load(collection.database, Quilt, 1).photographs
    assert {line.strip() for line in confirmed} <= {photo.file for photo in photographs}
    for photo in photographs:
        assert digest_of(original(collection, photo)) == photo.file
    assert_check_tells_the_truth(collection)
    collection.close()


def after_steps(folder: Path, confirmed: list[str]) -> None:
    database = connect(folder / "catalogue.db")
    (table,) = [name for name in database.table_names() if name.startswith("moved_")]
    step = int(table.removeprefix("moved_"))
    assert step in (int(confirmed[-1]), int(confirmed[-1]) + 1)
    assert database.table(table).count == works.ROWS
    migrate(database)  # what was cut off is done when the collection is opened next
    assert check(folder) == []
    database.close()


def after_copies(folder: Path, confirmed: list[str]) -> None:
    copies = copies_in(folder / "backups")
    names = {copy.folder.name for copy in copies}
    assert {line.strip() for line in confirmed} <= names
    for copy in copies[:3]:  # the older ones were looked at after earlier kills
        assert copy.is_whole
        assert list(faults_in(copy.folder, untold)) == []
    assert make_copy(folder, folder / "backups", untold).is_whole
    assert not [path for path in (folder / "backups").iterdir() if path.suffix == ".making"]
    collection = Collection.open(folder)
    assert_check_tells_the_truth(collection)
    collection.close()


AFTER: dict[str, Callable[[Path, list[str]], None]] = {
    "saving": after_numbers,
    "uploading": after_photographs,
    "indexing": after_numbers,
    "migrating": after_steps,
    "backing up": after_copies,
}


def kill_often(
    kind: str, folder: Path, times: int, figures: Figures, monkeypatch: pytest.MonkeyPatch
) -> None:
    if kind == "migrating":
        works.prepare_migrating(folder)
        monkeypatch.setattr(opening, "_SCHEMA", works.steps_in(folder))
        migrate(connect(folder / "catalogue.db"))
    moments = random.Random(kind)
    count = 0
    for _ in range(times):
        confirmed = kill_during(kind, folder, moments.uniform(0, 0.3))
        AFTER[kind](folder, confirmed)
        count += len(confirmed)
    figures(f"{kind}: {times} kills, {count} confirmed, 0 missing, check true after each")
    shutil.rmtree(folder)


@pytest.mark.parametrize("kind", AFTER)
def test_a_kill_loses_nothing(
    kind: str, folder: Path, figures: Figures, monkeypatch: pytest.MonkeyPatch
) -> None:
    kill_often(kind, folder, 2, figures, monkeypatch)


@pytest.mark.long
@pytest.mark.parametrize("kind", AFTER)
def test_forty_kills_lose_nothing(
    kind: str, folder: Path, figures: Figures, monkeypatch: pytest.MonkeyPatch
) -> None:
    kill_often(kind, folder, 40, figures, monkeypatch)
