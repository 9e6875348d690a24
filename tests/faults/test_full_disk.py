"""A full disk fails the save with a plain page, and nothing that was confirmed is lost."""

from __future__ import annotations

import io
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import works
from clients import signed_in
from disks import MEGABYTE, fill, small_disk
from flask.testing import FlaskClient

from catalogue.collection.checking import check
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping.copies import copies_in
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, history, load
from catalogue.web import create_app


def untold(done: int, total: int) -> None:
    """Tell nobody how far the work has come."""


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of eight megabytes."""
    with small_disk(tmp_path / "disk", 8 * MEGABYTE) as mounted:
        yield mounted


@pytest.fixture
def collection(disk: Path) -> Iterator[Collection]:
    """A collection of one quilt on the small disk."""
    made = Collection.create(disk / "collection")
    add(made.database, Quilt("title0", history="history0"), "Tess")
    yield made
    made.close()


@pytest.fixture
def keeper(collection: Collection) -> FlaskClient:
    """A browser in which the keeper is signed in; faults are answered as they are in use."""
    app = create_app(collection)
    app.config.update(WTF_CSRF_ENABLED=False, PROPAGATE_EXCEPTIONS=False)
    app.extensions["search_index"].catch_up()
    return signed_in(app, name="Tess")


def save_story(keeper: FlaskClient, collection: Collection, text: str) -> int:
    revision = load(collection.database, Quilt, 1).revision
    form = {"revision": str(revision), "history": text}
    return keeper.post("/quilts/1/edit/story", data=form).status_code


def assert_only_the_index_lags(collection: Collection) -> None:
    assert {finding.what for finding in check(collection.folder)} <= {"index"}
    SearchIndex(collection).catch_up()
    assert check(collection.folder) == []


def test_a_save_on_a_full_disk_is_told_in_plain_words_and_changes_nothing(
    keeper: FlaskClient, collection: Collection, disk: Path
) -> None:
    filler = fill(disk, leaving=0)
    answer = keeper.post("/quilts/1/edit/story", data={"revision": "1", "history": "word " * 7_000})
    assert answer.status_code == 507
    assert "The disk is full" in answer.text
    assert "everything that was confirmed before is safe" in answer.text
    assert load(collection.database, Quilt, 1).history == "history0"
    assert keeper.get("/quilts/1").status_code == 200
    filler.unlink()
    assert save_story(keeper, collection, "after") == 302
    assert_only_the_index_lags(collection)


def test_what_is_confirmed_while_the_disk_fills_up_is_there_afterwards(
    keeper: FlaskClient, collection: Collection, disk: Path, figures: Callable[[str], None]
) -> None:
    """At every amount of room, down to the last block, a save is confirmed and kept, or told."""
    confirmed, told = [], 0
    for leaving in range(400_000, -1, -20_000):
        filler = fill(disk, leaving)
        for number in range(3):
            text = f"{leaving}/{number} " + "word " * 3000
            status = save_story(keeper, collection, text)
            assert status in (302, 507)
            if status == 302:
                confirmed.append(text.strip())
            told += status == 507
        filler.unlink()
    written = [change.after["history"] for change in history(collection.database, Quilt, 1)[:-1]]
    assert written[::-1] == confirmed
    assert confirmed
    assert told
    assert_only_the_index_lags(collection)
    figures(f"disk filling up: {len(confirmed)} saves confirmed and found, {told} told to wait")


def test_an_upload_to_a_full_disk_leaves_nothing_behind(
    keeper: FlaskClient, collection: Collection, disk: Path
) -> None:
    filler = fill(disk, leaving=8192)
    photograph = (io.BytesIO(works.picture(1) + b"\0" * 100_000), "stars.png")
    answer = keeper.post("/quilts/1/photographs/add", data={"photographs": [photograph]})
    assert answer.status_code == 507
    assert load(collection.database, Quilt, 1).photographs == ()
    assert not list(collection.photographs.rglob("*.png"))
    assert not list(collection.photographs.rglob("*.part"))
    filler.unlink()
    again = (io.BytesIO(works.picture(1)), "stars.png")
    assert (
        keeper.post("/quilts/1/photographs/add", data={"photographs": [again]}).status_code == 302
    )
    assert len(load(collection.database, Quilt, 1).photographs) == 1
    assert_only_the_index_lags(collection)


def test_a_copy_that_finds_no_room_leaves_the_earlier_ones_and_nothing_else(
    collection: Collection, tmp_path: Path, disk: Path
) -> None:
    with small_disk(tmp_path / "stick", 80 * MEGABYTE) as stick:
        first = make_copy(collection.folder, stick, untold)
        fill(stick, leaving=66 * MEGABYTE)
        for number in range(30):
            add(collection.database, Quilt(f"Quilt {number}", history="word " * 20_000), "Tess")
        with pytest.raises(CollectionError, match="not enough room"):
            make_copy(collection.folder, stick, untold)
        assert copies_in(stick) == [first]
        assert [path.name for path in stick.iterdir() if path.suffix == ".making"] == []


LIMITED = """
import resource, sys
from pathlib import Path
sys.path.insert(0, sys.argv[3])
import works
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), int(sys.argv[2])))
from catalogue.collection.trouble import explained
from catalogue.collection.database import CollectionError
try:
    with explained("Nothing was saved"):
        for number in works.WORKS[sys.argv[4]](Path(sys.argv[1])):
            print(number, flush=True)
except CollectionError as error:
    print(error, file=sys.stderr)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="the size of files is not limited there")
@pytest.mark.parametrize("kilobytes", [250, 600])
def test_where_files_cannot_grow_the_save_fails_and_the_confirmed_ones_are_there(
    tmp_path: Path, kilobytes: int
) -> None:
    collection = Collection.create(tmp_path / "collection")
    add(collection.database, Quilt("title0", history="history0"), "Tess")
    collection.close()
    (collection.folder / "catalogue.db-wal").unlink(missing_ok=True)
    tests = str(Path(__file__).parent)
    command = [sys.executable, "-c", LIMITED, str(collection.folder), str(kilobytes * 1024)]
    done = subprocess.run(
        [*command, tests, "saving"], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.stderr.startswith("Nothing was saved: "), done.stderr
    confirmed = [int(line) for line in done.stdout.split()]
    opened = Collection.open(collection.folder)
    number = int(load(opened.database, Quilt, 1).title.removeprefix("title"))
    assert number in (max(confirmed, default=0), max(confirmed, default=0) + 1)
    assert_only_the_index_lags(opened)
    opened.close()
