"""Eras and makers that are missing from a talk, and what the collection could put there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sqlite_utils import Database

from catalogue.collection.records import Quilt
from catalogue.collection.talks.programme import Programme, Turn
from catalogue.collection.talks.remarks import Offer, Remark, named
from catalogue.collection.vocabulary import DATES_IT, NOT_DATING
from catalogue.dating.eras import eras
from catalogue.values.dates import HistoricDate
from catalogue.values.days import year_of

Span = tuple[int, int]

# Years without a quilt between one and the next that are worth a word (house rule, no source).
GAP = 15
_MOST_OFFERS = 3
_MOST_ERAS = 3


def eras_missing(database: Database, programme: Programme) -> Iterator[Remark]:
    """Yield each stretch of years that the talk jumps over, with what was made in it."""
    undated = [quilt.title for quilt in programme.quilts if not any(_dates(quilt))]
    if undated:
        yield Remark("eras", f"No date is on record for {named(undated)}.", "phases of making")
    shown = {quilt.id for quilt in programme.quilts}
    spans = sorted(span for quilt in programme.quilts for span in _spans(quilt))
    for first, last in gaps_between(spans):
        says = f"Nothing here was made from {first} to {last}."
        passed = [era for era in eras() if first <= era.first and era.last <= last]
        if passed:
            longest = sorted(passed, key=lambda era: era.first - era.last)[:_MOST_ERAS]
            named_eras = "; ".join(f"{e.name}, {e.first} to {e.last}" for e in longest)
            says += f" That passes over: {named_eras}."
        offers = _offers(_made_between(database, first, last), shown)
        if not offers:
            says += " Nothing else in the collection was, either."
        yield Remark("eras", says, f"gaps of {GAP} years or more (house rule)", offers=offers)


def gaps_between(spans: Iterable[Span]) -> Iterator[Span]:
    """Yield the first and the last year of each gap of GAP years or more between spans in order."""
    reached: int | None = None
    for first, last in spans:
        if reached is not None and first - reached - 1 >= GAP:
            yield reached + 1, first - 1
        reached = last if reached is None else max(reached, last)


def makers_missing(database: Database, programme: Programme) -> Iterator[Remark]:
    """Yield quilts without a maker on record, and who or what is spoken of and not shown."""
    unknown = [q.title for q in programme.quilts if not programme.related.makers_of(q)]
    if unknown:
        says = f"No maker is on record for {named(unknown)}: say so, or look once more."
        yield Remark("makers", says, "phases of making")
    shown = {quilt.id for quilt in programme.quilts}
    for turn in programme.turns:
        found = list(_of_subject(database, turn))
        if found and not shown & {offer.quilt for offer in found}:
            says = f"“{turn.title}” is spoken of, and nothing shown goes with it."
            offers = _offers(found, shown)
            yield Remark("makers", says, f"quilts on record of this {turn.kind}", offers=offers)


def _spans(quilt: Quilt) -> Iterator[Span]:
    """Yield the years of each work on a quilt: blocks of 1890 may have been quilted in 1978."""
    for date in _dates(quilt):
        if date.earliest is not None and date.latest is not None:
            yield year_of(date.earliest), year_of(date.latest)


def _dates(quilt: Quilt) -> Iterator[HistoricDate]:
    """Yield the dates of the work that made a quilt."""
    for phase in quilt.phases:
        if phase.kind not in NOT_DATING and phase.date is not None:
            yield phase.date


def _offers(found: Iterable[Offer], shown: set[int | None]) -> tuple[Offer, ...]:
    return tuple(offer for offer in found if offer.quilt not in shown)[:_MOST_OFFERS]


_OURS = "quilt.put_away = '' AND quilt.status IN ('accepted', 'accessioned')"
_GOES_WITH = {
    "person": "SELECT quilt FROM phase JOIN phase_maker ON phase = phase.id WHERE party = :id",
    "pattern": "SELECT quilt FROM block_kind WHERE pattern = :id",
    "publication": (
        "SELECT quilt FROM block_kind JOIN printing ON printing = printing.id"
        " WHERE publication = :id"
    ),
}


def _of_subject(database: Database, turn: Turn) -> Iterator[Offer]:
    if turn.subject is None or turn.kind not in _GOES_WITH:
        return
    rows = database.query(
        f"""SELECT id, title FROM quilt WHERE {_OURS} AND id IN ({_GOES_WITH[turn.kind]})
            ORDER BY accession_key = '', accession_key""",
        {"id": turn.subject.id},
    )
    yield from (Offer(row["id"], row["title"]) for row in rows)


def _made_between(database: Database, first: int, last: int) -> list[Offer]:
    """Return what is ours and was made wholly within these years, the oldest first."""
    rows = database.query(
        f"""SELECT quilt.id AS id, title FROM quilt JOIN phase ON quilt = quilt.id
            WHERE {_OURS} AND {DATES_IT}
            GROUP BY quilt.id HAVING min(date_earliest) >= ? AND max(date_latest) <= ?
            ORDER BY min(date_earliest), quilt.id""",
        [f"{first:04d}-01-01", f"{last:04d}-12-31"],
    )
    return [Offer(row["id"], row["title"]) for row in rows]
