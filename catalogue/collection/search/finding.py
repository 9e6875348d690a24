"""Finding quilts: by words, by years, by facets; a page of ids at a time, with counts."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from sqlite_utils import Database

from catalogue.collection import settings
from catalogue.collection.privacy import Reader
from catalogue.collection.search import correcting
from catalogue.collection.search.columns import Rows
from catalogue.collection.search.facets import LABELS, Facet, Facets
from catalogue.collection.search.facts import Value
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.search.matching import Matching, Scores
from catalogue.collection.search.questions import Question, read_question
from catalogue.collection.search.shelf import SORTS as _ORDERS
from catalogue.collection.search.snapshots import Snapshot
from catalogue.collection.search.understanding import understood

# In which order quilts can be shown, by the name of the sort.
SORTS = ("fit", *_ORDERS)


@dataclass(frozen=True)
class Wanted:
    """What is looked for; what is left empty does not narrow the search.

    Each of the tuples is a facet: its values are alternatives, and all facets must agree.
    """

    words: str = ""
    from_year: int | None = None
    to_year: int | None = None
    pattern: tuple[int, ...] = ()
    family: tuple[str, ...] = ()
    decade: tuple[int, ...] = ()
    setting: tuple[str, ...] = ()
    technique: tuple[str, ...] = ()
    maker: tuple[int, ...] = ()
    place: tuple[str, ...] = ()
    colour: tuple[str, ...] = ()
    condition: tuple[str, ...] = ()
    display: tuple[str, ...] = ()
    publication: tuple[int, ...] = ()
    status: tuple[str, ...] = ()
    sort: str = "number"

    @property
    def narrows(self) -> bool:
        """True where anything but the order is asked for."""
        return self != Wanted(sort=self.sort)

    @property
    def chosen(self) -> dict[str, tuple[Value, ...]]:
        """The values chosen, by facet."""
        return {name: getattr(self, name) for name in LABELS}


@dataclass(frozen=True)
class Found:
    """One page of what was found: the ids in order, and how many there are in all.

    `understood` says in words what was looked for; `suggestion` is the whole question with
    misspelt words put right, empty where there is nothing to put right.
    """

    ids: tuple[int, ...]
    total: int
    page: int
    pages: int
    facets: tuple[Facet, ...] = ()
    understood: tuple[str, ...] = ()
    suggestion: str = ""
    question: Question = field(default_factory=Question)


def find(
    database: Database,
    index: SearchIndex,
    wanted: Wanted,
    *,
    reader: Reader,
    page: int = 1,
    per_page: int = 24,
    count: bool = False,
    values_at_most: int = 12,
) -> Found:
    """Return one page of the quilts that are wanted and that the reader may see.

    All facets that the reader may see are counted where `count` is set.
    Sorted by fit, those that answer equally well are in the order of their numbers.
    """
    question = read_question(wanted.words, settings.date_policy(database))
    snapshot = index.snapshot()
    matching = Matching(snapshot, reader)
    scores = matching.scores(question)
    if wanted.from_year is not None or wanted.to_year is not None:
        scores = matching.within(scores, wanted.from_year, wanted.to_year)
    facets = Facets(snapshot.shelf, database, reader)
    rows, others = facets.narrowed(np.flatnonzero(scores), wanted.chosen)
    pages = max(1, -(-len(rows) // per_page))
    page = min(max(1, page), pages)
    shown = _page(snapshot, rows, scores, wanted.sort, (page - 1) * per_page, page * per_page)
    return Found(
        tuple(snapshot.shelf.plain.quilt[shown].tolist()),
        len(rows),
        page,
        pages,
        _counted(facets, rows, others, wanted, values_at_most) if count else (),
        understood(question),
        "" if len(rows) else correcting.corrected(wanted.words, question, matching),
        question,
    )


def _counted(
    facets: Facets, rows: Rows, others: dict[str, Rows], wanted: Wanted, most: int
) -> tuple[Facet, ...]:
    chosen = wanted.chosen
    return tuple(
        facets.counted(name, others.get(name, rows), chosen[name], most) for name in facets.names
    )


def _page(snapshot: Snapshot, rows: Rows, scores: Scores, sort: str, first: int, end: int) -> Rows:
    """Return the rows from `first` up to `end` in their order."""
    if sort == "fit":
        return _best(snapshot, rows, scores, end)[first:end]
    return _in_order(snapshot, rows, sort)[first:end]


def _best(snapshot: Snapshot, rows: Rows, scores: Scores, count: int) -> Rows:
    """Return the best rows, at least `count` of them where there are so many."""
    if count < len(rows):
        least = np.partition(scores[rows], len(rows) - count)[len(rows) - count]
        rows = rows[scores[rows] >= least]
    ordered = _in_order(snapshot, rows, "number")
    return ordered[np.argsort(-scores[ordered], kind="stable")]


def _in_order(snapshot: Snapshot, rows: Rows, sort: str) -> Rows:
    order = snapshot.shelf.orders[sort]
    wanted = np.zeros(len(order), bool)
    wanted[rows] = True
    return order[wanted[order]]


def decades(database: Database, index: SearchIndex, *, reader: Reader) -> list[tuple[int, int]]:
    """Return every decade in which quilts may have been made, with how many."""
    snapshot = index.snapshot()
    visible = Matching(snapshot, reader).visible
    facets = Facets(snapshot.shelf, database, reader)
    counted = facets.counted("decade", np.flatnonzero(visible), (), 0)
    return [(int(each.value), each.count) for each in counted.values]
