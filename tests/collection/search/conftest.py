"""A thousand quilts whose answers are known."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest
from thousand import Thousand, made_in

from catalogue.collection.folder import Collection
from catalogue.collection.search.indexing import SearchIndex


@pytest.fixture
def index(collection: Collection) -> SearchIndex:
    """The index of an empty collection."""
    return SearchIndex(collection)


@pytest.fixture(scope="session")
def thousand(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Thousand]:
    """A thousand quilts, made once; nothing is changed in them."""
    collection = Collection.create(tmp_path_factory.mktemp("thousand") / "collection")
    collection.database.execute("PRAGMA synchronous = OFF")
    index = SearchIndex(collection)
    quilts = tuple(made_in(collection, random.Random(11)))
    index.catch_up()
    yield Thousand(collection, index, quilts)
    index.close()
    collection.close()
