"""A save that is cut off leaves the old record or the new one, and the index follows."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time

import pytest

from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Quilt
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, history, load

# Saves again and again, title and history the same number; says each number once it is confirmed.
SAVING = """
import sys
from pathlib import Path
from catalogue.collection.folder import Collection
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.records import Phase, Quilt
from catalogue.collection.store import load, save
collection = Collection.open(Path(sys.argv[1]))
index = SearchIndex(collection)
for number in range(1, 10_000):
    quilt = load(collection.database, Quilt, 1)
    fields = {
        "title": f"title{number}",
        "history": f"history{number}",
        "phases": tuple(Phase("pieced", note=f"note{number}") for _ in range(8)),
    }
    save(collection.database, Quilt, 1, fields, by="Tess", expecting=quilt.revision)
    print(number, flush=True)
    index.catch_up()
"""


def kill_while_saving(collection: Collection, after: float) -> int:
    """Start saving, kill -9 after so many seconds, and return the last number confirmed."""
    process = subprocess.Popen(
        [sys.executable, "-c", SAVING, str(collection.folder)], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    confirmed = int(process.stdout.readline())
    time.sleep(after)
    process.send_signal(signal.SIGKILL)
    confirmed = max([confirmed, *map(int, process.stdout.read().split())])
    process.wait()
    return confirmed


def assert_whole(folder: Collection, confirmed: int) -> None:
    collection = Collection.open(folder.folder)
    quilt = load(collection.database, Quilt, 1)
    number = int(quilt.title.removeprefix("title"))
    assert number in (confirmed, confirmed + 1)
    assert quilt.history == f"history{number}"
    assert [phase.note for phase in quilt.phases] == [f"note{number}"] * 8
    changes = history(collection.database, Quilt, 1)
    assert [change.revision for change in changes] == list(range(quilt.revision, 0, -1))
    index = SearchIndex(collection)
    index.catch_up()
    found = find(collection.database, index, Wanted(f"title{number}"), reader=Reader("historian"))
    assert found.total == 1
    index.close()
    collection.close()
    assert check(collection.folder) == []


def test_killing_a_save_leaves_the_old_record_or_the_new_one(collection: Collection) -> None:
    add(collection.database, Quilt("title0", history="history0"), "Tess")
    moments = random.Random(7)
    for _ in range(3):
        assert_whole(collection, kill_while_saving(collection, moments.uniform(0, 0.4)))


@pytest.mark.long
def test_killing_forty_saves_at_random_moments_leaves_the_old_record_or_the_new_one(
    collection: Collection,
) -> None:
    add(collection.database, Quilt("title0", history="history0"), "Tess")
    moments = random.Random(40)
    for _ in range(40):
        assert_whole(collection, kill_while_saving(collection, moments.uniform(0, 0.3)))
