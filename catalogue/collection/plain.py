"""Records as plain JSON values and back, for the history and for whatever leaves the collection."""

from __future__ import annotations

import dataclasses
from fractions import Fraction
from typing import Any

from catalogue.collection.tables import Field, fields_of
from catalogue.values.dates import HistoricDate


def to_plain(value: Any) -> Any:
    """Return a field's value as JSON has it: lengths as text, dates and records as objects."""
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, tuple):
        return [to_plain(item) for item in value]
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {
            field.name: to_plain(getattr(value, field.name)) for field in dataclasses.fields(value)
        }
    return value


def from_plain(record: type, plain: dict[str, Any]) -> Any:
    """Return the record that `to_plain` wrote; fields that are not named keep their defaults."""
    known = {field.name: field for field in fields_of(record)}
    return record(**{name: field_from_plain(known[name], plain[name]) for name in plain})


def field_from_plain(field: Field, value: Any) -> Any:
    """Return one field's value as the record holds it."""
    if field.rows is not None:
        return tuple(from_plain(field.rows, item) for item in value)
    if value is None:
        return None
    if field.holds is HistoricDate:
        return HistoricDate(**value)
    if field.holds is Fraction:
        return Fraction(value)
    return value
