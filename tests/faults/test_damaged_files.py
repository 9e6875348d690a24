"""Photographs that are missing or altered, and an index that is damaged or gone."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
import works
from clients import signed_in
from flask.testing import FlaskClient

from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep, original, smaller
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Quilt
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, load, save
from catalogue.web import create_app


@pytest.fixture
def collection(collection: Collection) -> Collection:
    """A collection of one quilt with a photograph, and an index."""
    add(
        collection.database,
        Quilt("Stars", photographs=(keep(collection, works.picture(1)),)),
        "Tess",
    )
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    return collection


@pytest.fixture
def keeper(collection: Collection) -> FlaskClient:
    """A browser in which the keeper is signed in; faults are answered as they are in use."""
    app = create_app(collection)
    app.config.update(WTF_CSRF_ENABLED=False, PROPAGATE_EXCEPTIONS=False)
    return signed_in(app, name="Tess")


def whats(collection: Collection) -> set[str]:
    return {finding.what for finding in check(collection.folder)}


def original_of(collection: Collection) -> Path:
    return original(collection, load(collection.database, Quilt, 1).photographs[0])


@pytest.mark.parametrize(
    ("harm", "status"),
    [(Path.unlink, 404), (lambda file: file.write_bytes(works.picture(2)), 410)],
    ids=["missing", "altered"],
)
def test_a_photograph_amiss_is_said_and_never_served_as_the_one_that_was_kept(
    collection: Collection, keeper: FlaskClient, harm: Callable[[Path], object], status: int
) -> None:
    address = "/quilts/1/photographs/1/original"
    assert keeper.get(address).status_code == 200
    harm(original_of(collection))
    assert whats(collection) == {"photograph"}
    assert keeper.get(address).status_code == status
    assert keeper.get("/quilts/1").status_code == 200
    # The smaller pictures were made of the good one; none is made of another.
    assert keeper.get("/quilts/1/photographs/1/page.webp").status_code == 200
    smaller(collection, load(collection.database, Quilt, 1).photographs[0], "page", "webp").unlink()
    assert keeper.get("/quilts/1/photographs/1/page.webp").status_code == 404


@pytest.mark.parametrize(
    "harm",
    [Path.unlink, lambda file: file.write_bytes(works.picture(2))],
    ids=["missing", "altered"],
)
def test_a_photograph_amiss_is_whole_again_once_it_is_kept_again(
    collection: Collection, harm: Callable[[Path], object]
) -> None:
    harm(original_of(collection))
    keep(collection, works.picture(1))
    assert check(collection.folder) == []


@pytest.mark.parametrize(
    "damage",
    [
        "UPDATE indexed SET public = replace(public, 'Stars', 'Stairs')",
        "UPDATE indexed SET public = substr(public, 2)",
        "UPDATE indexed SET members = CAST(x'ff' AS TEXT)",
        "UPDATE indexed SET digest = 'another'",
        "DELETE FROM indexed",
    ],
)
def test_a_text_kept_for_the_index_that_is_damaged_is_said(
    collection: Collection, damage: str
) -> None:
    collection.database.execute(damage)
    found = [(finding.what, finding.where) for finding in check(collection.folder)]
    assert found == [("index", "quilt 1")]


def test_no_extract_is_shown_of_a_damaged_text(collection: Collection, keeper: FlaskClient) -> None:
    damage = "UPDATE indexed SET public = replace(public, 'Stars', 'Stars on red')"
    collection.database.execute(damage)
    page = keeper.get("/search?q=stars").text
    assert "1 quilt" in page
    assert "on red" not in page


def harm_one(index: Path) -> None:
    largest = max(index.iterdir(), key=lambda file: file.stat().st_size)
    data = bytearray(largest.read_bytes())
    data[len(data) // 2] ^= 0xFF
    largest.write_bytes(data)


def truncate_all(index: Path) -> None:
    for file in index.iterdir():
        file.write_bytes(file.read_bytes()[: file.stat().st_size // 2])


def swap_for_another(index: Path) -> None:
    for file in index.iterdir():
        file.write_bytes(b"\x80\x04cos\nsystem\n")  # what a foreign pickle might begin with


@pytest.mark.parametrize(
    "harm",
    [shutil.rmtree, harm_one, truncate_all, swap_for_another],
    ids=lambda harm: harm.__name__,
)
def test_an_index_that_is_damaged_or_gone_is_said_and_made_anew_when_it_is_needed(
    collection: Collection, harm: Callable[[Path], object]
) -> None:
    harm(collection.index)
    assert whats(collection) == {"index"}
    index = SearchIndex(collection)
    found = find(collection.database, index, Wanted("stars"), reader=Reader("historian"))
    assert found.total == 1
    index.close()
    assert check(collection.folder) == []


@pytest.mark.parametrize("harm", [shutil.rmtree, truncate_all, swap_for_another])
def test_an_index_harmed_while_it_is_served_never_fails_a_save_and_loses_nothing(
    collection: Collection, keeper: FlaskClient, harm: Callable[[Path], object]
) -> None:
    assert "1 quilt" in keeper.get("/search?q=stars").text
    harm(collection.index)
    form = {"revision": "1", "history": "Windmills"}
    assert keeper.post("/quilts/1/edit/story", data=form).status_code == 302
    assert load(collection.database, Quilt, 1).history == "Windmills"
    keeper.application.extensions["search_index"].close()  # as at the next start
    assert "1 quilt" in keeper.get("/search?q=windmills").text
    assert whats(collection) == set()


def test_what_was_saved_while_the_index_was_gone_is_found(collection: Collection) -> None:
    shutil.rmtree(collection.index)
    save(collection.database, Quilt, 1, {"title": "Bars"}, by="Tess", expecting=1)
    index = SearchIndex(collection)
    for word, total in (("bars", 1), ("stars", 0)):
        wanted = Wanted(word)
        assert find(collection.database, index, wanted, reader=Reader("historian")).total == total
    index.close()
