"""Names as people type them, matched with the people, patterns and so on that are on record."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Any

from sqlite_utils import Database

from catalogue.collection.records import Party, Pattern, Publication
from catalogue.collection.store import add

_NUMBERED = re.compile(r"(?P<name>.*\S)\s*\[(?P<id>\d{1,12})\]")


class Kind(StrEnum):
    """What a name can be the name of; the value is the table."""

    PARTY = "party"
    PATTERN = "pattern"
    PUBLICATION = "publication"
    QUILT = "quilt"
    RELATED_ITEM = "related_item"


_RECORD: dict[Kind, type[Any]] = {
    Kind.PARTY: Party,
    Kind.PATTERN: Pattern,
    Kind.PUBLICATION: Publication,
}
# A record that was merged into another is found under the other alone; one put away is not found.
_STANDING = {
    Kind.PARTY: "WHERE merged_into IS NULL AND put_away = ''",
    Kind.PATTERN: "WHERE put_away = ''",
    Kind.PUBLICATION: "WHERE put_away = ''",
    Kind.QUILT: "WHERE put_away = ''",
    Kind.RELATED_ITEM: "WHERE put_away = ''",
}
# What a record is called; a quilt without an accession number goes by its title.
_NAME = {
    Kind.PARTY: "name",
    Kind.PATTERN: "name",
    Kind.PUBLICATION: "name",
    Kind.QUILT: "trim(accession || ' ' || title)",
    Kind.RELATED_ITEM: "title",
}
_OTHER_NAMES = {
    Kind.PARTY: (
        "SELECT party AS id FROM party_name JOIN party ON party.id = party"
        " WHERE merged_into IS NULL AND put_away = '' AND party_name.name = ? COLLATE NOCASE"
    ),
    Kind.PATTERN: (
        "SELECT pattern AS id FROM pattern_name JOIN pattern ON pattern.id = pattern"
        " WHERE put_away = '' AND pattern_name.name = ? COLLATE NOCASE"
    ),
    Kind.QUILT: "SELECT id FROM quilt WHERE put_away = '' AND accession = ? COLLATE NOCASE",
}


class Register:
    """The names on record; whatever it adds is added in the name of `by`."""

    def __init__(self, database: Database, by: str) -> None:
        self._database = database
        self._by = by

    def labels(self, kind: Kind) -> list[str]:
        """Return every name on record, sorted; one that several bear is followed by its number."""
        rows = self._database.query(
            f"SELECT id, {_NAME[kind]} AS called,"
            f" count(*) OVER (PARTITION BY lower({_NAME[kind]})) AS bearers"
            f" FROM {kind} {_STANDING[kind]} ORDER BY called COLLATE NOCASE, id"
        )
        return [_label(row["called"], row["id"], row["bearers"]) for row in rows]

    def label_of(self, kind: Kind, id: int) -> str:
        """Return the name of one record, with its number where another bears the same name.

        Raises LookupError where it is not on record.
        """
        rows = self._database.query(
            f"WITH named AS (SELECT id, {_NAME[kind]} AS called FROM {kind})"
            " SELECT called, (SELECT count(*) FROM named AS other"
            " WHERE lower(other.called) = lower(named.called)) AS bearers"
            " FROM named WHERE id = ?",
            [id],
        )
        row = next(iter(rows), None)
        if row is None:
            raise LookupError(f"There is no {kind} {id}.")
        return _label(row["called"], id, row["bearers"])

    def find(self, kind: Kind, typed: str) -> int | None:
        """Return the id of the record that a typed name means, None where there is none.

        A name is found by its chief form first, then by any other form on record.
        """
        numbered = _NUMBERED.fullmatch(typed)
        if numbered is not None and self._bears(kind, int(numbered["id"]), numbered["name"]):
            return int(numbered["id"])
        chief = f"SELECT id FROM {kind} {_STANDING[kind]} AND {_NAME[kind]} = ? COLLATE NOCASE"
        for query in filter(None, (chief, _OTHER_NAMES.get(kind))):
            found = [row["id"] for row in self._database.query(query, [typed])]
            if found:
                return int(min(found))
        return None

    def id_of(self, kind: Kind, typed: str) -> int:
        """Return the id of the record that a typed name means, added where there is none."""
        found = self.find(kind, typed)
        if found is not None:
            return found
        added: int = add(self._database, _RECORD[kind](name=typed), self._by).id
        return added

    def _bears(self, kind: Kind, id: int, name: str) -> bool:
        rows = self._database.query(
            f"SELECT 1 FROM {kind} WHERE id = ? AND {_NAME[kind]} = ? COLLATE NOCASE", [id, name]
        )
        return any(True for _ in rows)


def _label(name: str, id: int, bearers: int) -> str:
    return name if bearers == 1 else f"{name} [{id}]"
