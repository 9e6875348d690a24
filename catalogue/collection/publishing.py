"""Printings of patterns in words: where, when, under which name a pattern was published."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from catalogue.collection.records import Printing, Publication

_REMARK = {
    "yes": " (a house name, not a person)",
    "no": "",
    "unknown": " (not known whether a person or a house name)",
}


def printing_choices(database: Database) -> list[tuple[int, str]]:
    """Return every printing on record with a line that tells it from the others."""
    rows = database.query(
        """SELECT printing.id, pattern.name AS pattern, publication.name AS publication,
                  name_as_printed, number, date_says
           FROM printing JOIN pattern ON pattern.id = pattern
           JOIN publication ON publication.id = publication
           ORDER BY pattern.name COLLATE NOCASE, date_earliest, printing.id"""
    )
    return [
        (
            row["id"],
            ", ".join(
                filter(
                    None,
                    [
                        f"{row['pattern']}: “{row['name_as_printed'] or row['pattern']}”",
                        row["publication"],
                        f"no. {row['number']}" if row["number"] else "",
                        row["date_says"],
                    ],
                )
            ),
        )
        for row in rows
    ]


def printing_line(printing: Printing, publication: Publication) -> str:
    """Return where and when, as a citation: publication, number, date, page."""
    parts = [
        publication.name,
        f"no. {printing.number}" if printing.number else "",
        printing.date.says if printing.date is not None else "",
        f"page {printing.page}" if printing.page else "",
    ]
    return ", ".join(part for part in parts if part)


def designer_line(printing: Printing) -> str:
    """Return the designer as printed, and whether that name stood for a house and not a person."""
    return _designer(printing.designer_as_printed, printing.house_name)


def _designer(name: str, house_name: str) -> str:
    return name + _REMARK[house_name] if name else ""


@dataclass(frozen=True)
class PrintedPattern:
    """One printing: what pattern it printed, where, when and under which names."""

    pattern: int
    pattern_name: str
    publication: int
    publication_name: str
    name_as_printed: str
    number: str
    date: str
    designer: str


_PRINTED = """
    SELECT pattern, pattern.name AS pattern_name, publication, publication.name AS in_name,
           name_as_printed, number, date_says, designer_as_printed, house_name
    FROM printing JOIN pattern ON pattern.id = pattern
    JOIN publication ON publication.id = publication"""
_BY_DATE = "ORDER BY date_earliest IS NULL, date_earliest, printing.id"


def printings_in(database: Database, publication: int) -> list[PrintedPattern]:
    """Return what a publication printed, in the order of its dates."""
    rows = database.query(f"{_PRINTED} WHERE publication = ? {_BY_DATE}", [publication])
    return [_printed(row) for row in rows]


def printings_between(database: Database, first: int, last: int) -> list[PrintedPattern]:
    """Return what may have been printed in these years, in the order of the dates."""
    rows = database.query(
        f"{_PRINTED} WHERE date_earliest <= ? AND date_latest >= ? {_BY_DATE}",
        [f"{last:04d}-12-31", f"{first:04d}-01-01"],
    )
    return [_printed(row) for row in rows]


def _printed(row: dict[str, Any]) -> PrintedPattern:
    return PrintedPattern(
        row["pattern"],
        row["pattern_name"],
        row["publication"],
        row["in_name"],
        row["name_as_printed"],
        row["number"],
        row["date_says"] or "",
        _designer(row["designer_as_printed"], row["house_name"]),
    )
