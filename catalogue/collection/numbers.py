"""Accession numbers in use: whose one is, and which comes next."""

from __future__ import annotations

from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.tables import accession_key
from catalogue.values.accession import AccessionError, next_number, parse_accession


@dataclass(frozen=True)
class Holder:
    """The quilt that has a number."""

    id: int
    title: str


def taken_by(database: Database, accession: str, besides: int | None) -> Holder | None:
    """Return the quilt that has this number, other than the one named; None where it is free."""
    rows = database.query(
        "SELECT id, title FROM quilt WHERE accession_key = ? AND id IS NOT ?",
        [accession_key(accession), besides],
    )
    return next((Holder(row["id"], row["title"]) for row in rows), None)


def next_free(database: Database, year: int) -> str:
    """Return the number after the highest one of this year."""
    numbers = []
    for row in database.query("SELECT accession FROM quilt WHERE accession <> ''"):
        try:
            numbers.append(parse_accession(row["accession"]))
        except AccessionError:
            continue  # an irregular number from an older system takes no part in the count
    return str(next_number(numbers, year))
