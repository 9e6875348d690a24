"""What is counted and sorted by, read from SQLite: of all quilts at once, or of a few anew."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from sqlite_utils import Database

from catalogue.collection.seals import Altered
from catalogue.collection.search.colours import plain_colours
from catalogue.collection.vocabulary import DATES_IT
from catalogue.patterns.thesaurus import UnknownDesignError, design
from catalogue.values.days import year_of

Value = int | str

SPANS = f"""
    SELECT quilt, min(date_earliest) AS earliest, max(date_latest) AS latest,
           count(*) AS phases, count(date_earliest) AS begun, count(date_latest) AS ended
    FROM phase WHERE {DATES_IT}
    AND (date_earliest IS NOT NULL OR date_latest IS NOT NULL)"""

# Years before and after everything, for work whose begin or end is not known.
EVER_BEFORE, EVER_AFTER = -30_000, 30_000
_UNDATED = 99_999_999


def bounded(year: int) -> int:
    """Return the year, or the nearest that a column can hold."""
    return min(max(year, EVER_BEFORE + 1), EVER_AFTER - 1)


@dataclass(frozen=True, slots=True)
class Fact:
    """One quilt's facts that have one value each.

    `first` and `last` bound the work, open where a phase is; `first_known` and `last_known` are
    the outermost years on record; where there are none, the first is after the last. `first_day`
    and `last_day` sort by date, as figures such as 19310501. `area` is in square inches, 0 where
    it was not measured; `words` counts the public text.
    """

    quilt: int
    published: bool
    number: str
    title: str
    first: int
    last: int
    first_known: int
    last_known: int
    first_day: int
    last_day: int
    area: float
    words: int


@dataclass(frozen=True)
class Facts:
    """Facts of some quilts, and by facet the pairs of a quilt and a value."""

    quilts: list[Fact]
    values: dict[str, set[tuple[int, Value]]]


def read_facts(database: Database, ids: Sequence[int] | None = None) -> Facts:
    """Return the facts of these quilts, of all where `ids` is None; in the order of the ids."""
    reading = _Reading(database, ids)
    return Facts(_quilts(reading), {name: set(read(reading)) for name, read in _VALUES.items()})


class _Reading:
    """Queries about some quilts or all."""

    def __init__(self, database: Database, ids: Sequence[int] | None) -> None:
        self._database = database
        self._ids = ids

    def rows(self, query: str, where: str = "quilt", rest: str = "") -> list[tuple[Any, ...]]:
        """Return the rows of a query with a WHERE, of these quilts alone."""
        if self._ids is None:
            return self._database.execute(f"{query} {rest}").fetchall()
        these = f"{where} IN (SELECT value FROM json_each(?))"
        ids = json.dumps(list(self._ids))
        return self._database.execute(f"{query} AND {these} {rest}", [ids]).fetchall()


# --- facts with one value ----------------------------------------------------------------------


# What the index holds is open, whatever stands in a damaged row: it is listed, and then said.
_OPEN = """SELECT id, published, accession_key, title FROM quilt
           WHERE (put_away = '' OR id IN (SELECT quilt FROM indexed))"""


def _quilts(reading: _Reading) -> list[Fact]:
    spans = {row[0]: row[1:] for row in reading.rows(SPANS, rest="GROUP BY quilt")}
    areas = _areas(reading)
    words = dict(reading.rows("SELECT quilt, words FROM indexed WHERE true"))
    rows = reading.rows(_OPEN, "id", "ORDER BY id")
    _refuse_vanished(reading, {row[0] for row in rows})
    return [
        Fact(
            id,
            bool(published),
            number,
            title.casefold(),
            *_span(*spans.get(id, (None, None, 0, 0, 0))),
            areas.get(id, 0.0),
            words.get(id, 0),
        )
        for id, published, number, title in rows
    ]


def _refuse_vanished(reading: _Reading, found: set[int]) -> None:
    """Raise Altered where the index holds a quilt that the record no longer shows.

    Noise in the number of a row makes it vanish: a list without it would be wrong, silently.
    """
    held = "SELECT quilt FROM indexed WHERE quilt NOT IN (SELECT quilt FROM index_queue)"
    vanished = {row[0] for row in reading.rows(held)} - found
    if vanished:
        raise Altered("quilt", min(vanished))


def _span(
    earliest: str | None, latest: str | None, phases: int, begun: int, ended: int
) -> tuple[int, int, int, int, int, int]:
    first = bounded(year_of(earliest)) if earliest is not None else EVER_AFTER
    last = bounded(year_of(latest)) if latest is not None else EVER_BEFORE
    known = (first, last) if earliest is not None and latest is not None else _NO_YEARS
    days = _day(earliest), _day(latest)
    if not phases:
        return *_NO_YEARS, *_NO_YEARS, *days
    open_first = EVER_BEFORE if begun < phases else first
    open_last = EVER_AFTER if ended < phases else last
    return open_first, open_last, *known, *days


_NO_YEARS = (EVER_AFTER, EVER_BEFORE)


def _day(iso: str | None) -> int:
    if iso is None or iso[0] == "-":
        return _UNDATED
    return min(int(iso.replace("-", "")), _UNDATED)


def _areas(reading: _Reading) -> dict[int, float]:
    """Return the mean width times the mean length of each quilt that was measured both ways."""
    sides: dict[int, dict[str, list[float]]] = {}
    query = "SELECT quilt, dimension, inches FROM reading WHERE part = 'overall'"
    for quilt, dimension, inches in reading.rows(query):
        sides.setdefault(quilt, {}).setdefault(dimension, []).append(float(Fraction(inches)))
    return {
        quilt: _mean(read["width"]) * _mean(read["length"])
        for quilt, read in sides.items()
        if "width" in read and "length" in read
    }


def _mean(numbers: list[float]) -> float:
    return sum(numbers) / len(numbers)


# --- facts with any number of values -----------------------------------------------------------

_BLOCK_PATTERNS = "SELECT quilt, pattern FROM block_kind WHERE pattern IS NOT NULL"
_FAMILIES = """
    SELECT quilt, family, design FROM block_kind
    JOIN pattern ON pattern.id = pattern WHERE true"""
_PRINTED_IN = """
    SELECT quilt, publication FROM block_kind
    JOIN printing ON printing.id = block_kind.printing WHERE true"""
_MAKERS = "SELECT quilt, party FROM phase JOIN phase_maker ON phase = phase.id WHERE true"
_ACCEPTED = """
    SELECT quilt, CASE decision WHEN 'accepted' THEN json_extract(layout, '$.setting') END
    FROM layout_decision WHERE decision IN ('accepted', 'left open')"""
_SEEN = "SELECT id, setting_seen FROM quilt WHERE setting_seen <> ''"
_GRADES = "SELECT quilt, grade FROM condition_report WHERE true"


def _families(reading: _Reading) -> Iterable[tuple[int, Value]]:
    for quilt, family, slug in reading.rows(_FAMILIES):
        if slug:
            # A design that a newer thesaurus may know: the recorded family stands.
            with suppress(UnknownDesignError):
                family = design(slug).family
        if family:
            yield quilt, family


def _settings(reading: _Reading) -> Iterable[tuple[int, Value]]:
    """Yield the setting seen, or else that of the layout somebody accepted last."""
    accepted = dict(reading.rows(_ACCEPTED, rest="ORDER BY position"))
    found = {quilt: setting for quilt, setting in accepted.items() if setting}
    return (found | dict(reading.rows(_SEEN, "id"))).items()


def _plain(query: str, where: str = "quilt", rest: str = "") -> Any:
    def read(reading: _Reading) -> Iterable[tuple[int, Value]]:
        return reading.rows(query, where, rest)

    return read


def _texts(column: str, table: str) -> Any:
    """Return what reads a short text, with its blanks made one."""

    def read(reading: _Reading) -> Iterable[tuple[int, Value]]:
        query = f"SELECT quilt, {column} FROM {table} WHERE {column} <> ''"
        return ((quilt, " ".join(text.split())) for quilt, text in reading.rows(query))

    return read


# Of whole quilts: a colour has to take up a twentieth to count.
_SEEN_COLOURS = """
    SELECT DISTINCT quilt, plain FROM photograph_colour
    JOIN photograph ON photograph.id = photograph_colour.photograph
    WHERE view = 'overall' AND share >= 0.05 AND quilt IS NOT NULL"""


def _colours(reading: _Reading) -> Iterable[tuple[int, Value]]:
    query = "SELECT quilt, colours FROM material WHERE colours <> ''"
    for quilt, text in reading.rows(query):
        for colour in plain_colours(text):
            yield quilt, colour
    yield from reading.rows(_SEEN_COLOURS)


def _conditions(reading: _Reading) -> Iterable[tuple[int, Value]]:
    return dict(reading.rows(_GRADES, rest="ORDER BY position")).items()  # the last one stands


_VALUES: dict[str, Any] = {
    "pattern": _plain(_BLOCK_PATTERNS),
    "family": _families,
    "setting": _settings,
    "setting seen": _plain(_SEEN, "id"),
    "technique": _texts("name", "technique"),
    "maker": _plain(_MAKERS),
    "place": _texts("place", "phase"),
    "colour": _colours,
    "condition": _conditions,
    "publication": _plain(_PRINTED_IN),
    "status": _plain("SELECT id, status FROM quilt WHERE true", "id"),
}
