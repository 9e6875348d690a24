"""What belongs to a quilt's story without being a quilt, and what it belongs to."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.collection.records.photographs import Photograph
from catalogue.values.dates import HistoricDate


@dataclass(frozen=True)
class Link:
    """What a piece of related material belongs to; just one of the four is filled in."""

    quilt: int | None = None
    pattern: int | None = None
    publication: int | None = None
    party: int | None = None
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class RelatedItem:
    """What belongs to a quilt's story without being a quilt: a letter, a leaflet, a photograph."""

    title: str
    kind: str = "letter"
    description: str = ""
    date: HistoricDate | None = None
    kept: str = ""
    rights: str = ""
    published: bool = False
    links: tuple[Link, ...] = ()
    photographs: tuple[Photograph, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0
