"""How long a copy takes, alone and while people save; verifying, restoring and archiving it.

    python tests/benchmarks/copies.py [--quilts 20000] [--photographs 500] [--octets 1000000]
                                      [--folder COLLECTION]

Every photograph is another `--octets` bytes. The second copy shares them with the
first. Saves go on from a thread of this process during the third copy, one after another; how long
they take is compared with how long they take when nothing is copied. With `--folder` a collection
made earlier is copied and used.
"""

from __future__ import annotations

import argparse
import dataclasses
import hashlib
import os
import random
import shutil
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import bagit
from pages import fill

from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import original_in
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.safekeeping.archiving import archive
from catalogue.collection.safekeeping.copies import verify
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.safekeeping.restoring import restore
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import load, save, update
from catalogue.collection.whole_files import write_whole

T = TypeVar("T")


def untold(done: int, total: int) -> None:
    """Tell nobody how far the work has come."""


def timed(what: str, work: Callable[[], T]) -> T:
    began = time.perf_counter()
    result = work()
    print(f"{what:52} {time.perf_counter() - began:7.1f} s", flush=True)
    return result


def add_photographs(collection: Collection, number: int, octets: int) -> None:
    """Put originals on disk and on record; what is in them is of no account to a copy."""
    noise = random.Random(1)
    for quilt in range(1, number + 1):
        data = noise.randbytes(octets)
        digest = hashlib.sha256(data).hexdigest()
        write_whole(original_in(collection.photographs, digest, "jpg"), data)
        photograph = Photograph(digest, "jpg", 4000, 3000)
        update(
            collection.database,
            Quilt,
            quilt,
            lambda each, new=photograph: dataclasses.replace(
                each, photographs=(*each.photographs, new)
            ),
            by="bench",
        )


def prepared(asked: argparse.Namespace, place: Path) -> Collection:
    folder = place / "collection"
    if asked.folder is not None:
        shutil.copytree(asked.folder, folder)
        collection = Collection.open(folder)
    else:
        collection = Collection.create(folder)
    collection.database.execute("PRAGMA synchronous = OFF")  # for the filling alone
    if asked.folder is None:
        fill(collection, asked.quilts, random.Random(1))
    add_photographs(collection, asked.photographs, asked.octets)
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    collection.database.execute("PRAGMA synchronous = FULL")
    return collection


class Saving:
    """Saves one after another, in a thread of its own, until it is stopped."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._ended = threading.Event()
        self._thread = threading.Thread(target=self._go_on)
        self.waits: list[float] = []

    def __enter__(self) -> Saving:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ended.set()
        self._thread.join()

    def _go_on(self) -> None:
        collection = Collection.open(self._folder)
        while not self._ended.wait(0.05):
            quilt = load(collection.database, Quilt, 1)
            began = time.perf_counter()
            fields = {"history": f"at {began}"}
            save(collection.database, Quilt, 1, fields, by="Tess", expecting=quilt.revision)
            self.waits.append(time.perf_counter() - began)
        collection.close()

    def told(self, when: str) -> None:
        waits = sorted(1000 * wait for wait in self.waits)
        print(
            f"{len(waits)} saves {when}: median {waits[len(waits) // 2]:.0f} ms,"
            f" 95 % {waits[int(0.95 * len(waits))]:.0f} ms, longest {waits[-1]:.0f} ms"
        )


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--quilts", type=int, default=20_000)
    parser.add_argument("--photographs", type=int, default=500)
    parser.add_argument("--octets", type=int, default=1_000_000)
    parser.add_argument("--folder", type=Path)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        collection = prepared(asked, place)
        measure(collection, place)
        collection.close()
        findings = check(place / "again")
    print(f"the check of what was restored finds {len(findings)}")
    return 1 if findings else 0


def measure(collection: Collection, place: Path) -> None:
    folder, into = collection.folder, place / "copies"
    (quilts,) = collection.database.execute("SELECT count(*) FROM quilt").fetchone()
    size = (folder / "catalogue.db").stat().st_size / 2**20
    load_average = f"; load average {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    print(f"{quilts} quilts, a database of {size:.0f} MB{load_average}")
    first = timed("first copy, verified", lambda: make_copy(folder, into, untold))
    print(f"it holds {first.photographs} photographs, {first.size / 2**20:.0f} MB in all")
    timed("second copy, sharing the photographs, verified", lambda: make_copy(folder, into, untold))
    with Saving(folder) as alone:
        time.sleep(5)
    alone.told("while nothing is copied")
    with Saving(folder) as meanwhile:
        third = timed("third copy while somebody saves", lambda: make_copy(folder, into, untold))
    meanwhile.told("while it is copied")
    timed("verifying a copy", lambda: verify(third.folder, untold))
    timed("restoring it", lambda: restore(third.folder, place / "again", untold))
    timed("making the index of it", lambda: _indexed(place / "again"))
    timed("an archive copy, verified", lambda: archive(folder, place / "bag", untold))
    timed("the same by bagit", lambda: bagit.Bag(str(place / "bag")).validate())


def _indexed(folder: Path) -> None:
    collection = Collection.open(folder)
    index = SearchIndex(collection)
    index.rebuild()
    index.close()
    collection.close()


if __name__ == "__main__":
    sys.exit(main())
