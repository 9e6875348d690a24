"""Several threads search while others save; none fails, and each sees what was saved before."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor, wait
from dataclasses import replace
from functools import partial

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Quilt
from catalogue.collection.search.extracts import extracts_of
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.held import out_of_step
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, update

MEMBER = Reader("historian")
SAVERS, SEARCHERS, SAVES = 2, 3, 25


def test_searching_while_others_save(collection: Collection, index: SearchIndex) -> None:
    for number in range(20):
        add(collection.database, Quilt(f"Quilt number{number}"), "Tess")
    index.catch_up()
    saved = threading.Event()
    with ThreadPoolExecutor(SAVERS + SEARCHERS) as threads:
        searchers = [threads.submit(search, collection, index, saved) for _ in range(SEARCHERS)]
        savers = [threads.submit(save, collection, index, n + 1) for n in range(SAVERS)]
        wait(savers)
        saved.set()
    for each in (*savers, *searchers):
        each.result()
    assert out_of_step(collection.database) == []
    last = Wanted(f"word1x{SAVES - 1}")
    again = SearchIndex(collection)
    assert find(collection.database, again, last, reader=MEMBER).ids == (1,)


def save(collection: Collection, index: SearchIndex, id: int) -> None:
    """Save a quilt under one new title after another, and find it by each."""
    for turn in range(SAVES):
        title = f"word{id}x{turn}"
        update(collection.database, Quilt, id, partial(replace, title=title), by="Tess")
        found = find(collection.database, index, Wanted(title), reader=MEMBER)
        assert found.ids == (id,)
    collection.close()


def search(collection: Collection, index: SearchIndex, saved: threading.Event) -> None:
    """Search until all is saved; the quilts that nobody changes are always found."""
    while not saved.is_set():
        found = find(collection.database, index, Wanted("number*"), reader=MEMBER, count=True)
        assert found.total >= 20 - SAVERS
        extracts_of(collection.database, found.ids, found.question, reader=MEMBER)
    collection.close()
