"""What is named in the words on a quilt: people on record, and years that are evidence."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from sqlite_utils import Database

from catalogue.collection.records import Inscription
from catalogue.values.names import fold

_YEAR = re.compile(r"(?<!\d)(1[6-9]\d\d|20\d\d)(?!\d)")

# Every page of an inscribed quilt asks for all the names, which folded anew take 65 ms of 10,000.
_folded = lru_cache(maxsize=50_000)(fold)


@dataclass(frozen=True)
class Named:
    """What one inscription names: people on record as (id, name), and years."""

    people: tuple[tuple[int, str], ...]
    years: tuple[int, ...]


def named_in(database: Database, inscriptions: Iterable[Inscription]) -> dict[int | None, Named]:
    """Return, by inscription, the people on record and the years that its words name.

    A person is found under any form of the name, whatever the case, accents and line breaks.
    """
    inscriptions = tuple(inscriptions)
    if not inscriptions:
        return {}
    names = [(id, name, f" {_folded(name)} ") for id, name in _all_names(database)]
    found: dict[int | None, Named] = {}
    for inscription in inscriptions:
        text = f" {fold(inscription.text)} "
        people = {id: name for id, name, folded in names if folded.strip() and folded in text}
        years = dict.fromkeys(int(year) for year in _YEAR.findall(inscription.text))
        found[inscription.id] = Named(tuple(people.items()), tuple(years))
    return found


def _all_names(database: Database) -> list[tuple[int, str]]:
    """Every form of every name on record, the longest last, so that it is the one shown."""
    cursor = database.execute(
        """SELECT id, name FROM (
               SELECT id, name FROM party
               WHERE merged_into IS NULL AND put_away = '' AND kind <> 'organisation'
               UNION ALL
               SELECT party AS id, party_name.name FROM party_name
               JOIN party ON party.id = party WHERE merged_into IS NULL AND put_away = ''
           ) ORDER BY length(name)"""
    )
    return cursor.fetchall()
