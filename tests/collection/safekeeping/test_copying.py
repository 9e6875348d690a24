"""A copy is one moment of the collection, verified before it counts."""

from __future__ import annotations

import os
import sqlite3
import threading
from pathlib import Path

import pytest
from stars import originals, picture, untold

from catalogue.collection import settings
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping import packing
from catalogue.collection.safekeeping.claims import claimed
from catalogue.collection.safekeeping.copies import Copy, copies_in, verify
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.safekeeping.rotation import KeepPolicy
from catalogue.collection.store import add, load, save


def copy_of(collection: Collection) -> Copy:
    return make_copy(collection.folder, collection.folder / "backups", untold)


def test_a_copy_holds_the_database_and_the_originals_and_no_key_or_index(copied: Copy) -> None:
    held = sorted(file.name for file in (copied.folder / "data").rglob("*") if file.is_file())
    assert [name for name in held if not name.endswith(".png")] == ["catalogue.db"]
    assert len(held) == 3
    assert (copied.quilts, copied.photographs, copied.is_whole) == (2, 2, True)
    assert copied.findings == ()


def test_a_copied_database_is_one_file_with_everything_that_was_saved(
    stars: Collection, copied: Copy
) -> None:
    copy = sqlite3.connect(copied.folder / "data" / "catalogue.db")
    assert copy.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    assert list(copy.iterdump()) == list(stars.database.conn.iterdump())


def test_a_photograph_that_did_not_change_takes_no_further_room(
    stars: Collection, copied: Copy
) -> None:
    second = copy_of(stars)
    pairs = zip(originals(copied.folder), originals(second.folder), strict=True)
    assert all(first.samefile(again) for first, again in pairs)


def test_a_copy_shares_no_file_with_the_collection_itself(stars: Collection, copied: Copy) -> None:
    inside = {file.stat().st_ino for file in originals(stars.photographs)}
    assert not inside & {file.stat().st_ino for file in originals(copied.folder)}


def test_where_files_cannot_have_two_names_photographs_are_copied(
    stars: Collection, copied: Copy, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError("no links here")

    monkeypatch.setattr(os, "link", refuse)
    second = copy_of(stars)
    assert second.is_whole
    assert second.photographs == 2


def test_a_photograph_damaged_in_an_earlier_copy_is_taken_from_the_collection(
    stars: Collection, copied: Copy
) -> None:
    damaged = originals(copied.folder)[0]
    damaged.chmod(0o600)
    damaged.write_bytes(b"no picture")
    second = copy_of(stars)
    assert second.is_whole
    assert originals(second.folder)[0].read_bytes() == originals(stars.photographs)[0].read_bytes()
    assert verify(copied.folder, untold).faults
    assert [copy.is_whole for copy in copies_in(stars.folder / "backups")] == [True, False]


@pytest.mark.parametrize("harm", [Path.unlink, lambda file: file.write_bytes(b"no picture")])
def test_a_photograph_amiss_in_the_collection_is_taken_from_an_earlier_copy(
    stars: Collection, copied: Copy, harm: object
) -> None:
    harm(originals(stars.photographs)[0])  # type: ignore[operator]
    second = copy_of(stars)
    assert second.findings == ()
    assert second.photographs == 2


@pytest.mark.parametrize("harm", [Path.unlink, lambda file: file.write_bytes(b"no picture")])
def test_a_photograph_that_nobody_has_whole_is_named_and_the_rest_copied(
    stars: Collection, harm: object
) -> None:
    file = originals(stars.photographs)[0]
    harm(file)  # type: ignore[operator]
    copy = copy_of(stars)
    assert copy.findings == (f"The photograph {file.name} is missing or altered.",)
    assert copy.photographs == 1
    assert copy.is_whole


def test_a_photograph_taken_off_the_record_is_still_copied(stars: Collection) -> None:
    quilt = load(stars.database, Quilt, 1)
    save(stars.database, Quilt, 1, {"photographs": ()}, by="Tess", expecting=quilt.revision)
    assert copy_of(stars).photographs == 2


def test_a_copy_of_a_damaged_database_does_not_count(stars: Collection, copied: Copy) -> None:
    for number in range(200):
        add(stars.database, Quilt(f"Quilt {number}", history="x" * 2000), "Tess")
    stars.database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    stars.close()
    with (stars.folder / "catalogue.db").open("r+b") as file:
        file.seek(40 * 4096)
        file.write(b"\xff" * 20 * 4096)
    with pytest.raises(CollectionError, match="database is damaged"):
        copy_of(stars)
    assert [path.name for path in (stars.folder / "backups").iterdir() if path.is_dir()] == [
        copied.folder.name
    ]


def test_while_something_is_amiss_no_copy_is_let_go(stars: Collection, copied: Copy) -> None:
    settings.set_keep_policy(stars.database, KeepPolicy(1, 0, 0))
    stars.database.execute("UPDATE quilt SET history = 'x' WHERE id = 2")
    second = copy_of(stars)
    assert second.findings == ("The quilt 2 is not as saved.",)
    assert copies_in(stars.folder / "backups") == [second, copied]


def test_copies_beyond_the_policy_are_let_go(stars: Collection, copied: Copy) -> None:
    settings.set_keep_policy(stars.database, KeepPolicy(2, 0, 0))
    later = [copy_of(stars) for _ in range(3)]
    assert copies_in(stars.folder / "backups") == [later[2], later[1]]


def test_a_copy_that_was_damaged_is_neither_let_go_nor_counted(
    stars: Collection, copied: Copy
) -> None:
    (copied.folder / "bag-info.txt").write_text("nothing")
    settings.set_keep_policy(stars.database, KeepPolicy(1, 0, 0))
    second = copy_of(stars)
    assert [copy.folder for copy in copies_in(stars.folder / "backups")] == [
        second.folder,
        copied.folder,
    ]


def test_what_a_killed_making_left_is_no_copy_and_is_swept_away(stars: Collection) -> None:
    left = stars.folder / "backups" / "0001_2026-01-01T000000Z.making"
    left.mkdir()
    assert copies_in(stars.folder / "backups") == []
    assert copy_of(stars).is_whole
    assert not left.exists()


def test_two_copies_at_once_are_refused(stars: Collection) -> None:
    with (
        claimed(stars.folder / "backups", "a copy is being made"),
        pytest.raises(CollectionError, match="a copy is being made"),
    ):
        copy_of(stars)


def test_a_disk_without_room_is_said_before_anything_is_written(
    stars: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(packing, "RESERVE", 2**60)
    with pytest.raises(CollectionError, match="not enough room"):
        copy_of(stars)
    assert copies_in(stars.folder / "backups") == []


def test_a_copy_made_while_people_save_is_one_moment(stars: Collection) -> None:
    """Title and history are always saved together, and a photograph before its record."""
    ended = threading.Event()

    def go_on_saving() -> None:
        number = 0
        while not ended.is_set():
            number += 1
            quilt = load(stars.database, Quilt, 2)
            photograph = keep(stars, picture(f"#{number % 999:03}"))
            fields = {
                "title": f"title {number}",
                "history": f"history {number}",
                "photographs": (photograph,),
            }
            save(stars.database, Quilt, 2, fields, by="Ada", expecting=quilt.revision)
        stars.close()

    thread = threading.Thread(target=go_on_saving)
    thread.start()
    try:
        copies = [copy_of(stars) for _ in range(5)]
    finally:
        ended.set()
        thread.join()
    for copy in copies:
        assert copy.findings == ()
        database = sqlite3.connect(copy.folder / "data" / "catalogue.db")
        title, history = database.execute(
            "SELECT title, history FROM quilt WHERE id = 2"
        ).fetchone()
        assert title.replace("title", "history") == history or title == "Bars"
