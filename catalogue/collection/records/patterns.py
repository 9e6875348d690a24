"""Patterns, and the publications that printed them."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.values.dates import HistoricDate


@dataclass(frozen=True)
class Publication:
    """Where patterns were printed: a newspaper column, a magazine, a catalogue, a book, a kit."""

    name: str
    kind: str = "newspaper column"
    publisher: str = ""
    place: str = ""
    dates: HistoricDate | None = None
    note: str = ""
    put_away: str = ""
    id: int | None = None
    revision: int = 0


@dataclass(frozen=True)
class Printing:
    """One printing of a pattern, with the names as they stood on the page."""

    publication: int
    number: str = ""
    date: HistoricDate | None = None
    page: str = ""
    name_as_printed: str = ""
    designer_as_printed: str = ""
    house_name: str = "unknown"
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class PatternName:
    """Another name of the design, with who uses it."""

    name: str
    source: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Pattern:
    """One design; `design` is its key in the thesaurus of traditional blocks, or empty."""

    name: str
    design: str = ""
    family: str = ""
    note: str = ""
    names: tuple[PatternName, ...] = ()
    printings: tuple[Printing, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0
