"""Two records of one person: proposed with grounds, made one by a person, and parted again."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations, product
from typing import Any

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.ownership import life_of
from catalogue.collection.reached import queue_reached
from catalogue.collection.records import Party, PartyName
from catalogue.collection.seals import seal_owners
from catalogue.collection.store import NotFound, change, load, load_many, now
from catalogue.values.name_likeness import compare_people, name_keys
from catalogue.values.names import PersonName, PersonNameError, parse_name

# Where a record refers to a party: table and column.
_REFERENCES = (
    ("phase_maker", "party"),
    ("ownership_period", "person"),
    ("quilt", "donor"),
    ("family_tie", "relative"),
    ("link", "party"),
    ("talk_item", "party"),
)
_WORTH_A_LOOK = 0.5


class MergeError(ValueError):
    """Two records that cannot be made one, or parted; the message is one sentence."""


@dataclass(frozen=True)
class Likely:
    """Two records that may be one person: how likely, and why."""

    one: Party
    other: Party
    likelihood: float
    grounds: tuple[str, ...]


@dataclass(frozen=True)
class Merge:
    """One merging that stands: which record was kept, which went into it, who did it and when."""

    id: int
    kept: int
    merged: int
    merged_name: str
    by: str
    at: str


def likely_duplicates(database: Database) -> list[Likely]:
    """Return pairs of people who may be one, the likeliest first; pairs told apart are left out."""
    ids = [
        row["id"]
        for row in database.query(
            "SELECT id FROM party WHERE kind = 'person' AND merged_into IS NULL"
            " AND put_away = '' ORDER BY id"
        )
    ]
    apart = {(row["one"], row["other"]) for row in database.query("SELECT * FROM told_apart")}
    people = {party.id: party for party in load_many(database, Party, ids)}
    found = [
        likely
        for one, other in sorted(_candidates(people.values()) - apart)
        if (likely := _compare(people[one], people[other])).likelihood >= _WORTH_A_LOOK
    ]
    return sorted(found, key=lambda each: -each.likelihood)


def tell_apart(database: Database, one: int, other: int, by: str) -> None:
    """Remember that two records are two people. Raises NotFound."""
    first, second = sorted((one, other))
    for id in (first, second):
        load(database, Party, id)
    with writing(database):
        database.execute(
            "INSERT OR IGNORE INTO told_apart VALUES (?, ?, ?, ?)", [first, second, by, now()]
        )


def merge(database: Database, kept: int, merged: int, by: str) -> None:
    """Make two records one: what referred to `merged` refers to `kept`, which takes on its names.

    Both records keep their histories, and `part` undoes it. Raises MergeError and NotFound.
    """
    with writing(database):
        keeping, going = load(database, Party, kept), load(database, Party, merged)
        if kept == merged or keeping.merged_into or going.merged_into:
            raise MergeError("These two records cannot be made one: one of them is no longer open.")
        moved = [list(row) for row in _move(database, merged, kept)]
        seal_owners(database, ((table, id) for table, _, id in moved))
        change(database, keeping, {"names": _with_names(keeping, going)}, by)
        change(database, going, {"merged_into": kept}, by)
        database.execute(
            'INSERT INTO merge (kept, merged, "by", at, moved) VALUES (?, ?, ?, ?, ?)',
            [kept, merged, by, now(), json.dumps(moved)],
        )
        queue_reached(database, Party, kept)


def part(database: Database, id: int, by: str) -> int:
    """Undo a merging: what was moved and still stands goes back. Returns the parted record's id.

    Raises MergeError where it has been undone before, and NotFound.
    """
    with writing(database):
        rows = list(database.query("SELECT * FROM merge WHERE id = ?", [id]))
        if not rows:
            raise NotFound(f"There is no merging {id}.")
        row = rows[0]
        if row["undone_at"]:
            raise MergeError("This merging has been undone already.")
        queue_reached(database, Party, row["kept"])
        for table, column, reference in json.loads(row["moved"]):
            database.execute(
                f'UPDATE "{table}" SET "{column}" = ? WHERE id = ? AND "{column}" = ?',
                [row["merged"], reference, row["kept"]],
            )
            seal_owners(database, [(table, reference)])
        parted = load(database, Party, row["merged"])
        keeping = load(database, Party, row["kept"])
        change(database, parted, {"merged_into": None}, by)
        change(database, keeping, {"names": _without_names(keeping, parted)}, by)
        database.execute(
            "UPDATE merge SET undone_by = ?, undone_at = ? WHERE id = ?", [by, now(), id]
        )
        queue_reached(database, Party, row["merged"])
        return int(row["merged"])


def merges_into(database: Database, party: int) -> list[Merge]:
    """Return the mergings into a record that still stand."""
    rows = database.query(
        'SELECT merge.id, kept, merged, name, "by", at FROM merge'
        " JOIN party ON party.id = merged WHERE kept = ? AND undone_at IS NULL ORDER BY merge.id",
        [party],
    )
    return [
        Merge(row["id"], row["kept"], row["merged"], row["name"], row["by"], row["at"])
        for row in rows
    ]


def _candidates(people: Iterable[Party]) -> set[tuple[int, int]]:
    """Return the pairs of ids whose names share a key, the smaller id first."""
    by_key: defaultdict[str, set[int]] = defaultdict(set)
    for party in people:
        for name in _names(party):
            for key in name_keys(name):
                assert party.id is not None
                by_key[key].add(party.id)
    return {pair for ids in by_key.values() for pair in combinations(sorted(ids), 2)}


def _compare(one: Party, other: Party) -> Likely:
    """Return the likeness of the two forms of name that are most alike."""
    likeness = max(
        (
            compare_people(first, second, life_of(one), life_of(other))
            for first, second in product(_names(one), _names(other))
        ),
        key=lambda each: each.likelihood,
    )
    return Likely(one, other, likeness.likelihood, likeness.grounds)


def _names(party: Party) -> Iterator[PersonName]:
    for text in (party.name, *(each.name for each in party.names)):
        try:
            yield parse_name(text)
        except PersonNameError:
            continue  # a name that cannot be taken apart is compared by its other forms


def _with_names(keeping: Party, going: Party) -> tuple[PartyName, ...]:
    known = {keeping.name, *(each.name for each in keeping.names)}
    added = [PartyName(going.name, "also known as"), *(replace(n, id=None) for n in going.names)]
    return keeping.names + tuple(name for name in added if name.name not in known)


def _without_names(keeping: Party, parted: Party) -> tuple[PartyName, ...]:
    """Return the names of the record that was kept, without those that came with the other."""
    came = {parted.name, *(each.name for each in parted.names)}
    return tuple(name for name in keeping.names if name.name not in came)


def _move(database: Database, old: int, new: int) -> Iterator[tuple[str, str, Any]]:
    for table, column in _REFERENCES:
        rows = database.query(f'SELECT id FROM "{table}" WHERE "{column}" = ?', [old])
        for id in [row["id"] for row in rows]:
            database.execute(f'UPDATE "{table}" SET "{column}" = ? WHERE id = ?', [new, id])
            yield table, column, id
