"""Paper about quilts: which wording was read and approved by whom, and what was printed when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.records import Quilt
from catalogue.collection.store import history, now

# A wording is drafted until a second person has read it, and prints as a proof until approved.
DRAFTED, READ, APPROVED = "drafted", "read by a second person", "approved"


class NotYetError(ValueError):
    """A wording that cannot be read or approved now; the message says why, in one sentence."""


@dataclass(frozen=True)
class PaperState:
    """Where one wording of one kind of paper stands, and who put it there."""

    state: str = DRAFTED
    by: str = ""
    at: str = ""


@dataclass(frozen=True)
class OutOfDate:
    """Paper whose record has changed since it was printed last: which fields, and by whom."""

    quilt: int
    title: str
    accession: str
    kind: str
    printed_at: str
    printed_revision: int
    revision: int
    changed: tuple[str, ...]


def state_of(database: Database, quilt: int, kind: str, fingerprint: str) -> PaperState:
    """Return where this wording stands; a wording that has changed is drafted again."""
    rows = database.query(
        """SELECT state, "by", at FROM paper_state
           WHERE quilt = ? AND kind = ? AND fingerprint = ? ORDER BY id DESC LIMIT 1""",
        [quilt, kind, fingerprint],
    )
    return next((PaperState(row["state"], row["by"], row["at"]) for row in rows), PaperState())


def mark_read(database: Database, quilt: int, kind: str, fingerprint: str, by: str) -> None:
    """Remember that a second person has read a wording.

    Raises NotYetError where that person changed the record last and would read their own words.
    """
    changes = history(database, Quilt, quilt)
    if changes and changes[0].by == by:
        raise NotYetError("You changed the record last: a second person has to read it.")
    _mark(database, quilt, kind, fingerprint, READ, by)


def approve(database: Database, quilt: int, kind: str, fingerprint: str, by: str) -> None:
    """Approve a wording. Raises NotYetError where nobody has read it."""
    if state_of(database, quilt, kind, fingerprint).state != READ:
        raise NotYetError("A second person has to read it before it can be approved.")
    _mark(database, quilt, kind, fingerprint, APPROVED, by)


def _mark(database: Database, quilt: int, kind: str, fingerprint: str, state: str, by: str) -> None:
    with writing(database):
        database.execute(
            'INSERT INTO paper_state (quilt, kind, fingerprint, state, "by", at)'
            " VALUES (?, ?, ?, ?, ?, ?)",
            [quilt, kind, fingerprint, state, by, now()],
        )


@dataclass(frozen=True)
class Sheet:
    """One piece of paper as it was printed: of which quilt, at which revision, whether a proof."""

    quilt: int
    revision: int
    fingerprint: str
    proof: bool


def remember_printed(database: Database, kind: str, sheets: Iterable[Sheet], by: str) -> None:
    """Remember what was printed."""
    with writing(database):
        for sheet in sheets:
            database.execute(
                'INSERT INTO printed (quilt, kind, revision, fingerprint, proof, "by", at)'
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                [
                    sheet.quilt,
                    kind,
                    sheet.revision,
                    sheet.fingerprint,
                    int(sheet.proof),
                    by,
                    now(),
                ],
            )


def out_of_date(database: Database) -> list[OutOfDate]:
    """Return the paper printed last of each kind whose record has changed since, oldest first."""
    rows = database.query(
        """SELECT printed.quilt, kind, printed.revision AS printed_revision, at,
                  quilt.revision, title, accession
           FROM printed JOIN quilt ON quilt.id = printed.quilt
           WHERE put_away = '' AND printed.id IN (SELECT max(id) FROM printed GROUP BY quilt, kind)
             AND printed.revision < quilt.revision
           ORDER BY at, printed.id"""
    )
    return [
        OutOfDate(
            row["quilt"],
            row["title"],
            row["accession"],
            row["kind"],
            row["at"],
            row["printed_revision"],
            row["revision"],
            _changed_since(database, row["quilt"], row["printed_revision"]),
        )
        for row in rows
    ]


def _changed_since(database: Database, quilt: int, revision: int) -> tuple[str, ...]:
    """Return the fields that changed after a revision, in the order in which they first did."""
    later = [c for c in reversed(history(database, Quilt, quilt)) if c.revision > revision]
    return tuple(dict.fromkeys(field for change in later for field in change.after))
