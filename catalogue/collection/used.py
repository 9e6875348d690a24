"""How much a collection holds, and which patterns, makers and publications its quilts refer to."""

from __future__ import annotations

from dataclasses import dataclass

from sqlite_utils import Database


@dataclass(frozen=True)
class Holdings:
    """How many records of each kind a collection holds."""

    quilts: int
    parties: int
    patterns: int
    publications: int
    photographs: int
    readings: int


def holdings(database: Database) -> Holdings:
    """Return how much the collection holds."""
    tables = ("quilt", "party", "pattern", "publication", "photograph", "reading")
    counts = ", ".join(f"(SELECT count(*) FROM {table} {_open(table)})" for table in tables)
    return Holdings(*database.execute(f"SELECT {counts}").fetchone())


def _open(table: str) -> str:
    """Leave out of a count what is put away, and what belongs to a quilt that is."""
    if table in ("photograph", "reading"):
        return "WHERE quilt IS NULL OR quilt IN (SELECT id FROM quilt WHERE put_away = '')"
    return "WHERE put_away = ''"


@dataclass(frozen=True)
class Use:
    """A record that quilts refer to, with how many do."""

    id: int
    name: str
    quilts: int


def patterns_in_use(database: Database, *, published_only: bool) -> list[Use]:
    """Return every pattern with the number of quilts that follow it, sorted by name."""
    return _uses(
        database,
        "pattern",
        "SELECT pattern AS of, quilt FROM block_kind WHERE pattern IS NOT NULL",
        published_only,
    )


def makers_in_use(database: Database, *, published_only: bool) -> list[Use]:
    """Return every maker with the number of quilts they worked on, sorted by sorting name."""
    return _uses(
        database,
        "party",
        "SELECT party AS of, quilt FROM phase JOIN phase_maker ON phase = phase.id",
        published_only,
    )


def publications_in_use(database: Database, *, published_only: bool) -> list[Use]:
    """Return every publication with the number of quilts whose pattern it printed."""
    return _uses(
        database,
        "publication",
        "SELECT publication AS of, quilt FROM block_kind JOIN printing ON printing = printing.id",
        published_only,
    )


def _uses(database: Database, table: str, pairs: str, published_only: bool) -> list[Use]:
    """Return the records of a table with their quilts counted; the unused ones for members only."""
    order = "coalesce(nullif(sort_name, ''), name)" if table == "party" else "name"
    rows = database.query(
        f"""SELECT {table}.id, {table}.name, count(DISTINCT quilt.id) AS quilts
            FROM {table} LEFT JOIN ({pairs}) AS pair ON pair.of = {table}.id
            LEFT JOIN quilt ON quilt.id = pair.quilt AND quilt.put_away = ''
                 AND (quilt.published OR :all)
            WHERE {table}.put_away = '' {"AND merged_into IS NULL" if table == "party" else ""}
            GROUP BY {table}.id HAVING quilts > 0 OR :all
            ORDER BY {order} COLLATE NOCASE, {table}.id""",
        {"all": not published_only},
    )
    return [Use(row["id"], row["name"], row["quilts"]) for row in rows]
