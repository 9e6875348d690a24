"""A folder that cannot be written to: one sentence, and what only reads goes on working."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from clients import signed_in
from commands import run
from disks import write_protected

from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, load
from catalogue.web import create_app


@pytest.fixture
def collection(tmp_path: Path) -> Iterator[Collection]:
    """A collection of one quilt."""
    made = Collection.create(tmp_path / "collection")
    add(made.database, Quilt("Stars", history="as it was"), "Tess")
    index = SearchIndex(made)
    index.catch_up()
    index.close()
    yield made
    made.close()


@pytest.mark.parametrize("command", ["serve", "reindex", "demo", "backup"])
def test_a_command_that_writes_ends_with_one_sentence(collection: Collection, command: str) -> None:
    collection.close()
    with write_protected(collection.folder):
        done = run(command, collection.folder)
    assert done.returncode == 1
    (line,) = done.stderr.splitlines()
    assert line.startswith("Error: ")
    assert "write-protected" in line


def test_checking_and_copying_elsewhere_still_work(collection: Collection, tmp_path: Path) -> None:
    collection.close()
    with write_protected(collection.folder):
        checked = run("check", collection.folder)
        copied = run("backup", collection.folder, "--into", tmp_path / "stick")
        packed = run("archive", collection.folder, tmp_path / "bag")
    assert (checked.returncode, checked.stdout) == (0, "")
    assert "Verified: 1 quilts" in copied.stdout
    assert packed.returncode == 0


def test_a_folder_that_becomes_write_protected_while_it_is_served_fails_the_save_in_plain_words(
    collection: Collection,
) -> None:
    app = create_app(collection)
    app.config.update(WTF_CSRF_ENABLED=False, PROPAGATE_EXCEPTIONS=False)
    keeper = signed_in(app, name="Tess")
    collection.close()
    with write_protected(collection.folder):
        answer = keeper.post("/quilts/1/edit/story", data={"revision": "1", "history": "new"})
        assert answer.status_code == 507
        assert "The collection cannot be written to" in answer.text
    assert load(collection.database, Quilt, 1).history == "as it was"
    answer = keeper.post("/quilts/1/edit/story", data={"revision": "1", "history": "new"})
    assert answer.status_code == 302
