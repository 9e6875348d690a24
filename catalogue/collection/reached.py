"""Which quilts a change of a record can reach: those whose searchable text has to be made anew."""

from __future__ import annotations

from sqlite_utils import Database

from catalogue.collection.records import (
    Exhibit,
    Party,
    Pattern,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
)

_REACHED: dict[type, str] = {
    Quilt: "SELECT :id",
    Party: """
        SELECT quilt FROM phase JOIN phase_maker ON phase = phase.id WHERE party = :id
        UNION SELECT quilt FROM ownership_period WHERE person = :id
        UNION SELECT id FROM quilt WHERE donor = :id""",
    Pattern: """
        SELECT quilt FROM block_kind WHERE pattern = :id
        UNION SELECT quilt FROM block_kind JOIN printing ON printing = printing.id
        WHERE printing.pattern = :id""",
    Publication: """
        SELECT quilt FROM block_kind JOIN printing ON printing = printing.id
        WHERE publication = :id""",
    Exhibit: """
        SELECT quilt FROM exhibit_quilt WHERE exhibit = :id""",
    Talk: "SELECT NULL WHERE false",  # what a talk says of a quilt is no part of its record
    RelatedItem: """
        SELECT quilt FROM link WHERE related_item = :id AND quilt IS NOT NULL""",
}


def queue_reached(database: Database, kind: type, id: int) -> None:
    """Queue for the index every quilt that a change of this record can reach."""
    database.execute(
        f"INSERT OR IGNORE INTO index_queue SELECT * FROM ({_REACHED[kind]})", {"id": id}
    )
