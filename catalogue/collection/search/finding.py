"""Finding quilts: by words, by years, by pattern, maker or status; a page of ids at a time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.search.questions import read_question

# Work that dates a quilt as an object: a design may be older, a repair is later.
_MADE = "span.phases > 0"
_MAKING = "kind NOT IN ('designed', 'repaired')"
_SPAN = f"""
    SELECT quilt, min(date_earliest) AS earliest, max(date_latest) AS latest,
           count(*) AS phases, count(date_earliest) AS begun, count(date_latest) AS ended
    FROM phase WHERE {_MAKING} AND date_written IS NOT NULL GROUP BY quilt"""


@dataclass(frozen=True)
class Wanted:
    """What is looked for; what is left empty does not narrow the search."""

    words: str = ""
    from_year: int | None = None
    to_year: int | None = None
    pattern: int | None = None
    maker: int | None = None
    publication: int | None = None
    status: str = ""
    sort: str = "number"

    @property
    def narrows(self) -> bool:
        """True where anything but the order is asked for."""
        return self != Wanted(sort=self.sort)


@dataclass(frozen=True)
class Found:
    """One page of what was found: the ids in order, and how many there are in all."""

    ids: tuple[int, ...]
    total: int
    page: int
    pages: int


SORTS = {
    "fit": "quilt.accession_key = '', quilt.accession_key, quilt.id",
    "number": "quilt.accession_key = '', quilt.accession_key, quilt.id",
    "date": "span.earliest IS NULL, span.earliest, span.latest, quilt.accession_key",
    "title": "quilt.title COLLATE NOCASE, quilt.accession_key",
}


def find(
    database: Database,
    index: SearchIndex,
    wanted: Wanted,
    *,
    published_only: bool,
    page: int = 1,
    per_page: int = 24,
) -> Found:
    """Return one page of the quilts that are wanted; sorted by fit where words are asked for."""
    question = read_question(wanted.words)
    scores = index.find(question) if question.parts else None
    ids = _matching(database, wanted, published_only)
    if scores is not None:
        ids = [id for id in ids if id in scores]
        if wanted.sort == "fit":
            ids.sort(key=lambda id: -scores[id])
    pages = max(1, -(-len(ids) // per_page))
    page = min(max(1, page), pages)
    return Found(tuple(ids[(page - 1) * per_page : page * per_page]), len(ids), page, pages)


def _matching(database: Database, wanted: Wanted, published_only: bool) -> list[int]:
    conditions, values = _conditions(wanted, published_only)
    query = f"""
        SELECT quilt.id FROM quilt LEFT JOIN ({_SPAN}) AS span ON span.quilt = quilt.id
        WHERE {" AND ".join(conditions) or "true"} ORDER BY {SORTS[wanted.sort]}"""
    return [row["id"] for row in database.query(query, values)]


def _conditions(wanted: Wanted, published_only: bool) -> tuple[list[str], dict[str, Any]]:
    conditions: list[str] = []
    if published_only:
        conditions.append("quilt.published = 1")
    if wanted.status:
        conditions.append("quilt.status = :status")
    if wanted.from_year is not None:
        conditions.append(f"{_MADE} AND (span.ended < span.phases OR span.latest >= :first)")
    if wanted.to_year is not None:
        conditions.append(
            "span.phases > 0 AND (span.begun < span.phases OR span.earliest <= :last)"
        )
    if wanted.pattern is not None:
        conditions.append("quilt.id IN (SELECT quilt FROM block_kind WHERE pattern = :pattern)")
    if wanted.maker is not None:
        conditions.append(
            "quilt.id IN (SELECT quilt FROM phase JOIN phase_maker ON phase = phase.id"
            " WHERE party = :maker)"
        )
    if wanted.publication is not None:
        conditions.append(
            "quilt.id IN (SELECT quilt FROM block_kind JOIN printing"
            " ON printing.id = block_kind.printing WHERE publication = :publication)"
        )
    values = {
        "status": wanted.status,
        "first": f"{wanted.from_year or 0:04d}-01-01",
        "last": f"{wanted.to_year or 0:04d}-12-31",
        "pattern": wanted.pattern,
        "maker": wanted.maker,
        "publication": wanted.publication,
    }
    used = {
        name: value for name, value in values.items() if any(f":{name}" in c for c in conditions)
    }
    return conditions, used


def decades(database: Database, *, published_only: bool) -> list[tuple[int, int]]:
    """Return every decade in which quilts may have been made, with how many."""
    spans = database.query(
        f"""SELECT earliest, latest FROM ({_SPAN}) AS span JOIN quilt ON quilt.id = span.quilt
            WHERE earliest IS NOT NULL AND latest IS NOT NULL AND (published = 1 OR :all)""",
        {"all": not published_only},
    )
    counts: dict[int, int] = {}
    for span in spans:
        first, last = int(span["earliest"][:4]), int(span["latest"][:4])
        for decade in range(first // 10 * 10, last + 1, 10):
            counts[decade] = counts.get(decade, 0) + 1
    return sorted(counts.items())
