"""Printings of patterns in words: where, when, under which name a pattern was published."""

from __future__ import annotations

from dataclasses import dataclass

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
    """One printing in a publication, with the pattern it printed."""

    pattern: int
    pattern_name: str
    name_as_printed: str
    number: str
    date: str
    designer: str


def printings_in(database: Database, publication: int) -> list[PrintedPattern]:
    """Return what a publication printed, in the order of its dates."""
    rows = database.query(
        """SELECT pattern, pattern.name AS pattern_name, name_as_printed, number, date_says,
                  designer_as_printed, house_name
           FROM printing JOIN pattern ON pattern.id = pattern WHERE publication = ?
           ORDER BY date_earliest IS NULL, date_earliest, printing.id""",
        [publication],
    )
    return [
        PrintedPattern(
            row["pattern"],
            row["pattern_name"],
            row["name_as_printed"],
            row["number"],
            row["date_says"] or "",
            _designer(row["designer_as_printed"], row["house_name"]),
        )
        for row in rows
    ]
