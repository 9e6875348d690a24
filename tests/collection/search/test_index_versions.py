"""An index is opened only if it is ours and whole; whatever is cut off, nothing is lost by it."""

from __future__ import annotations

import shutil
import threading
from pathlib import Path

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Party, Phase, PhaseMaker, Quilt
from catalogue.collection.search import fulltext, manifest
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.held import out_of_step
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, save

MEMBER = Reader("historian")


class Cut(Exception):
    """The power went."""


def total(collection: Collection, index: SearchIndex, words: str) -> int:
    return find(collection.database, index, Wanted(words), reader=MEMBER).total


@pytest.fixture
def rebuilt(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Notes every time an index is made anew."""
    made: list[str] = []
    create = fulltext.create

    def noted(folder: Path) -> None:
        made.append(folder.name)
        create(folder)

    monkeypatch.setattr(fulltext, "create", noted)
    return made


@pytest.mark.parametrize("at", ["write", "remember"])
def test_a_save_cut_off_anywhere_is_made_up_for_without_making_all_anew(
    collection: Collection,
    index: SearchIndex,
    monkeypatch: pytest.MonkeyPatch,
    rebuilt: list[str],
    at: str,
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()
    rebuilt.clear()
    save(collection.database, Quilt, 1, {"title": "Bridal quilt"}, by="Tess", expecting=1)

    def cut(*_: object) -> None:
        raise Cut

    with monkeypatch.context() as patch:
        patch.setattr(fulltext if at == "write" else manifest, at, cut)
        with pytest.raises(Cut):
            index.catch_up()
    again = SearchIndex(collection)
    assert total(collection, again, "bridal") == 1
    assert total(collection, again, "wedding") == 0
    assert rebuilt == []
    assert manifest.faults(collection.database, collection.index) == []


def test_files_written_and_not_known_when_the_power_went_are_swept_away(
    collection: Collection, index: SearchIndex, rebuilt: list[str]
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()
    rebuilt.clear()
    (collection.index / "MAIN_half.trm").write_bytes(b"half")
    index.close()
    assert total(collection, SearchIndex(collection), "wedding") == 1
    assert rebuilt == []
    assert not (collection.index / "MAIN_half.trm").exists()


def test_an_index_made_beside_and_not_put_in_its_place_is_put_there(
    collection: Collection,
    index: SearchIndex,
    monkeypatch: pytest.MonkeyPatch,
    rebuilt: list[str],
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()
    with monkeypatch.context() as patch:
        patch.setattr(manifest, "made_ready", lambda *_: (_ for _ in ()).throw(Cut()))
        with pytest.raises(Cut):
            index.rebuild()
    rebuilt.clear()
    assert total(collection, SearchIndex(collection), "wedding") == 1
    assert rebuilt == []


def test_the_old_index_stands_while_a_new_one_is_made_and_after_that_was_cut_off(
    collection: Collection, index: SearchIndex, rebuilt: list[str]
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()

    def cut(done: int, total: int) -> None:
        raise Cut

    with pytest.raises(Cut):
        index.rebuild(cut)
    rebuilt.clear()
    assert manifest.faults(collection.database, collection.index) == []
    assert total(collection, SearchIndex(collection), "wedding") == 1
    assert rebuilt == []


def test_an_index_of_another_collection_is_not_opened(
    collection: Collection, index: SearchIndex, rebuilt: list[str], tmp_path: Path
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()
    index.close()
    other = Collection.create(tmp_path / "other")
    foreign = SearchIndex(other)
    foreign.catch_up()
    other.close()
    shutil.rmtree(collection.index)
    shutil.copytree(tmp_path / "other" / "index", collection.index)
    rebuilt.clear()
    assert total(collection, SearchIndex(collection), "wedding") == 1
    assert len(rebuilt) == 1


@pytest.mark.parametrize("what", ["index", "everything known"])
def test_a_deleted_index_is_made_anew(
    collection: Collection, index: SearchIndex, what: str
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()
    index.close()
    shutil.rmtree(collection.index)
    if what != "index":
        collection.database.execute("DELETE FROM index_state")
    assert total(collection, SearchIndex(collection), "wedding") == 1


def test_what_is_saved_while_an_index_is_made_anew_is_not_lost(
    collection: Collection, index: SearchIndex
) -> None:
    for number in range(3):
        add(collection.database, Quilt(f"Quilt {number}"), "Tess")

    def save_meanwhile(done: int, total: int) -> None:
        def run() -> None:
            save(collection.database, Quilt, 1, {"title": "Bridal"}, by="Ann", expecting=1)
            collection.close()

        thread = threading.Thread(target=run)
        thread.start()
        thread.join()

    index.rebuild(save_meanwhile)
    assert total(collection, index, "bridal") == 1
    assert out_of_step(collection.database) == []


def test_a_damaged_record_stops_no_other(collection: Collection, index: SearchIndex) -> None:
    database = collection.database
    ada = add(database, Party("Ada Winter"), "Tess").id
    assert ada is not None
    add(database, Quilt("Damaged"), "Tess")
    made = (Phase("pieced", makers=(PhaseMaker(ada),)),)
    add(database, Quilt("Of a damaged maker", phases=made), "Tess")
    add(database, Quilt("Whole"), "Tess")
    database.execute("UPDATE quilt SET title = 'Changed by hand' WHERE id = 1")
    database.execute("UPDATE party SET name = 'Changed by hand' WHERE id = ?", [ada])
    assert total(collection, index, "whole") == 1
    assert total(collection, index, '"changed by hand"') == 0
    index.rebuild()
    assert total(collection, index, "whole") == 1


def test_a_damaged_text_is_said_and_composed_anew(
    collection: Collection, index: SearchIndex
) -> None:
    add(collection.database, Quilt("Wedding quilt"), "Tess")
    index.catch_up()
    for column, value in (("words", "words + 1"), ("public", "'{}'"), ("members", "'no JSON'")):
        collection.database.execute(f"UPDATE indexed SET {column} = {value}")
        assert out_of_step(collection.database) == [1]
        index.rebuild()
        assert out_of_step(collection.database) == []
