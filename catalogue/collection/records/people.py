"""People, groups and organisations: their names, families and how to reach them."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.values.dates import HistoricDate


@dataclass(frozen=True)
class PartyName:
    """Another form of a party's name: birth, married, short, pen or earlier name."""

    name: str
    form: str = "also known as"
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class FamilyTie:
    """What a relative is to the person: parent, child, husband or wife, sibling and so on."""

    relative: int
    relation: str
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Contact:
    """How to reach a party; private, and kept in a table of its own."""

    address: str = ""
    telephone: str = ""
    email: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Party:
    """A person, a group or an organisation; a guild or a church circle can be a maker."""

    name: str
    kind: str = "person"
    sort_name: str = ""
    born: HistoricDate | None = None
    died: HistoricDate | None = None
    living: bool = False
    place: str = ""
    biography: str = ""
    names: tuple[PartyName, ...] = ()
    ties: tuple[FamilyTie, ...] = ()
    contacts: tuple[Contact, ...] = ()
    merged_into: int | None = None
    put_away: str = ""
    id: int | None = None
    revision: int = 0
