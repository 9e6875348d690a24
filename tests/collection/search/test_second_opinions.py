"""Whoosh's own search and SQLite's FTS5 find the same quilts by the same words."""

from __future__ import annotations

import random
import sqlite3
from collections import defaultdict
from collections.abc import Callable, Iterator

import pytest
from thousand import Thousand
from whoosh.filedb.filestore import FileStorage
from whoosh.index import FileIndex
from whoosh.query import And, Or, Prefix, Term
from whoosh.searching import Searcher

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.held import all_ids, held_texts
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.search.segments import LAYERS

MEMBER = Reader("historian")


@pytest.fixture(scope="module")
def indexed(sample: Collection) -> Iterator[SearchIndex]:
    index = SearchIndex(sample)
    index.catch_up()
    yield index
    index.close()


def whoosh(collection: Collection) -> Searcher:
    return FileIndex(FileStorage(str(collection.index)), indexname="MAIN").searcher()


def ids(searcher: Searcher, query: object) -> set[int]:
    column = searcher.reader().column_reader("quilt")
    return {column[document] for document in searcher.docs_for_query(query)}


def anywhere(word: str) -> Or:
    return Or([Term(layer, word) for layer in LAYERS])


@pytest.mark.parametrize("asked", ["word", "two words", "beginning"])
def test_whoosh_reads_the_same_index_and_finds_the_same_quilts(
    sample: Collection, indexed: SearchIndex, asked: str
) -> None:
    vocabularies = indexed.snapshot().vocabularies
    words = [word for word in sorted({*vocabularies["public"]._terms}) if word.isalpha()]
    chance = random.Random(asked)
    with whoosh(sample) as searcher:
        for _ in range(150):
            one, other = chance.sample(words, 2)
            typed, query = {
                "word": (f'"{one}"', _endings(vocabularies, one)),
                "two words": (
                    f'"{one}" "{other}"',
                    And([_endings(vocabularies, one), _endings(vocabularies, other)]),
                ),
                "beginning": (
                    f"{one[:3]}*",
                    Or([Prefix(layer, one[:3]) for layer in LAYERS]),
                ),
            }[asked]
            found = find(sample.database, indexed, Wanted(typed), reader=MEMBER, per_page=100)
            if len(one) >= 2:
                assert set(found.ids) == ids(searcher, query), typed


def _endings(vocabularies: dict[str, object], word: str) -> Or:
    return Or(
        [
            Term(layer, each)
            for layer, vocabulary in vocabularies.items()
            for each in vocabulary.with_stem_of(word)  # type: ignore[attr-defined]
        ]
    )


def test_fts5_says_the_same_of_which_records_hold_a_word(
    sample: Collection, indexed: SearchIndex, figures: Callable[[str], None]
) -> None:
    theirs = _by_fts5(sample)
    ours = defaultdict(set)
    for segment in indexed.snapshot().segments:
        for term in segment.layers["public"].terms:
            postings = segment.layers["public"].postings(term)
            assert postings is not None
            ours[term] |= {int(id) for id in segment.quilts[postings.ids] if id >= 0}
    both = theirs.keys() & ours.keys()
    only_ours = {word for word in ours.keys() - theirs.keys() if ours[word]}
    only_theirs = theirs.keys() - ours.keys()
    figures(
        f"FTS5: {len(both)} words alike; {len(only_ours)} written as one here,"
        f" {len(only_theirs)} cut off there"
    )
    assert len(both) > 1_000
    # FTS5 cuts at apostrophes, and words joined by hyphens it does not know as one
    cut_off = {word for word in theirs if theirs[word] - ours[word]}
    assert cut_off <= {"s", "t", "couldn"}
    assert {word for word in both if ours[word] - theirs[word]} <= {"ninepatch"}


def _by_fts5(collection: Collection) -> dict[str, set[int]]:
    database = sqlite3.connect(":memory:")
    database.execute("CREATE VIRTUAL TABLE texts USING fts5 (content, tokenize = 'unicode61')")
    texts = held_texts(collection.database, all_ids(collection.database))
    database.executemany(
        "INSERT INTO texts (rowid, content) VALUES (?, ?)",
        [(id, "\n".join(each.public.values())) for id, each in texts.items()],
    )
    database.execute("CREATE VIRTUAL TABLE held USING fts5vocab (texts, instance)")
    found = defaultdict(set)
    for term, id in database.execute("SELECT term, doc FROM held"):
        found[term].add(id)
    return found


@pytest.mark.parametrize(
    "phrase", ["hollow ford", "feed sack", "number 7", "pieced 1850", "was stitched for the"]
)
def test_fts5_finds_the_same_phrases(thousand: Thousand, phrase: str) -> None:
    database = sqlite3.connect(":memory:")
    database.execute("CREATE VIRTUAL TABLE t USING fts5 (c, tokenize = 'porter unicode61')")
    texts = held_texts(thousand.collection.database, range(1, 1001))
    database.executemany(
        "INSERT INTO t (rowid, c) VALUES (?, ?)",
        [
            (id, " betweenfields ".join([*each.public.values(), *each.members.values()]))
            for id, each in texts.items()
        ],
    )
    rows = database.execute("SELECT rowid FROM t WHERE t MATCH ?", [f'"{phrase}"']).fetchall()
    found = find(
        thousand.collection.database,
        *(thousand.index, Wanted(f'"{phrase}"')),
        reader=MEMBER,
        per_page=1000,
    )
    assert rows
    assert set(found.ids) == {row[0] for row in rows}
