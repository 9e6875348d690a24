"""A small collection worth keeping safe, and its first copy."""

from __future__ import annotations

import pytest
from stars import picture, untold

from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping.copies import Copy
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add


@pytest.fixture
def stars(collection: Collection) -> Collection:
    """A collection of two quilts and two photographs, in which nothing is amiss."""
    photographs = (keep(collection, picture()), keep(collection, picture("red")))
    add(collection.database, Quilt("Stars", photographs=photographs), "Tess")
    add(collection.database, Quilt("Bars", history="From Ada's house"), "Tess")
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    collection.secret()
    return collection


@pytest.fixture
def copied(stars: Collection) -> Copy:
    """Its first copy."""
    return make_copy(stars.folder, stars.folder / "backups", untold)
