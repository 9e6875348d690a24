"""Which table holds which record, and how a record becomes a row and a row a record."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from catalogue.collection import records
from catalogue.values.accession import AccessionError, parse_accession
from catalogue.values.dates import HistoricDate

Row = Mapping[str, Any]
DATE_PARTS = ("written", "edtf", "earliest", "latest", "says")

TABLE_OF: dict[type, str] = {
    records.Quilt: "quilt",
    records.EarlierNumber: "earlier_number",
    records.BlockKind: "block_kind",
    records.Border: "border",
    records.Reading: "reading",
    records.Phase: "phase",
    records.PhaseMaker: "phase_maker",
    records.PhaseClue: "phase_clue",
    records.Material: "material",
    records.Technique: "technique",
    records.Inscription: "inscription",
    records.OwnershipPeriod: "ownership_period",
    records.ConditionReport: "condition_report",
    records.Location: "location",
    records.Photograph: "photograph",
    records.PhotographColour: "photograph_colour",
    records.TurnedBlock: "turned_block",
    records.LayoutDecision: "layout_decision",
    records.RelatedItem: "related_item",
    records.Exhibit: "exhibit",
    records.ExhibitWall: "exhibit_wall",
    records.WallObstacle: "wall_obstacle",
    records.ExhibitQuilt: "exhibit_quilt",
    records.Talk: "talk",
    records.TalkItem: "talk_item",
    records.TalkGiven: "talk_given",
    records.GivenItem: "given_item",
    records.Link: "link",
    records.Party: "party",
    records.PartyName: "party_name",
    records.FamilyTie: "family_tie",
    records.Contact: "contact",
    records.Publication: "publication",
    records.Pattern: "pattern",
    records.PatternName: "pattern_name",
    records.Printing: "printing",
}


def accession_key(accession: str) -> str:
    """Return a text that sorts accession numbers part by part; an irregular one sorts last."""
    if not accession:
        return ""
    try:
        return parse_accession(accession).sort_text
    except AccessionError:
        return f"~{accession.casefold()}"


# Columns that are worked out from the record whenever it is written.
_DERIVED: dict[type, Callable[[Any], dict[str, Any]]] = {
    records.Quilt: lambda quilt: {"accession_key": accession_key(quilt.accession)},
}


@dataclass(frozen=True)
class Field:
    """One field of a record: its name, what it holds, and the record type of its rows if many."""

    name: str
    holds: Any
    rows: type | None = None

    @property
    def columns(self) -> tuple[str, ...]:
        """The columns of this field, none for rows in a table of their own."""
        if self.rows is not None:
            return ()
        if self.holds is HistoricDate:
            return tuple(f"{self.name}_{part}" for part in DATE_PARTS)
        return (self.name,)


def fields_of(record: type) -> tuple[Field, ...]:
    """Return the fields of a record type, read from its annotations."""
    return _FIELDS[record]


def children_of(record: type) -> tuple[Field, ...]:
    """Return those fields of a record type whose rows lie in tables of their own."""
    return tuple(field for field in _FIELDS[record] if field.rows is not None)


def _fields(record: type[Any]) -> tuple[Field, ...]:
    hints = typing.get_type_hints(record)
    return tuple(_field(field.name, hints[field.name]) for field in dataclasses.fields(record))


def _field(name: str, hint: Any) -> Field:
    if typing.get_origin(hint) is tuple:
        return Field(name, tuple, typing.get_args(hint)[0])
    if isinstance(hint, types.UnionType):
        hint = next(part for part in typing.get_args(hint) if part is not type(None))
    return Field(name, hint)


_FIELDS: dict[type, tuple[Field, ...]] = {record: _fields(record) for record in TABLE_OF}


PARENTS_OF: dict[str, tuple[str, ...]] = {
    table: tuple(
        TABLE_OF[kind]
        for kind in TABLE_OF
        if any(field.rows and TABLE_OF[field.rows] == table for field in children_of(kind))
    )
    for table in TABLE_OF.values()
}
"""By table, the tables whose rows one of its rows can hang on; none for a record of its own."""

KINDS: tuple[type[Any], ...] = tuple(
    kind for kind, table in TABLE_OF.items() if not PARENTS_OF[table]
)
"""The kinds of record that stand by themselves, with a history each."""


def to_row(record: Any) -> dict[str, Any]:
    """Return the columns of a record itself, without its id and without its children's rows."""
    row: dict[str, Any] = {}
    for field in fields_of(type(record)):
        if field.rows is None and field.name != "id":
            row.update(_to_columns(field, getattr(record, field.name)))
    return row | _DERIVED.get(type(record), lambda _: {})(record)


def _to_columns(field: Field, value: Any) -> dict[str, Any]:
    if field.holds is HistoricDate:
        return {
            f"{field.name}_{part}": getattr(value, part) if value is not None else None
            for part in DATE_PARTS
        }
    if isinstance(value, Fraction):
        return {field.name: str(value)}
    if isinstance(value, bool):
        return {field.name: int(value)}
    return {field.name: value}


def from_row(record: type, row: Row, children: Mapping[str, tuple[Any, ...]]) -> Any:
    """Return the record that a row and the rows of its children make."""
    values = {
        field.name: children.get(field.name, ())
        if field.rows is not None
        else _from_columns(field, row)
        for field in fields_of(record)
    }
    return record(**values)


def _from_columns(field: Field, row: Row) -> Any:
    if field.holds is HistoricDate:
        parts = {part: row[f"{field.name}_{part}"] for part in DATE_PARTS}
        return HistoricDate(**parts) if parts["written"] is not None else None
    value = row[field.name]
    if field.holds is Fraction:
        return Fraction(value) if value is not None else None
    if field.holds is bool:
        return bool(value)
    return value
