"""Rows that repeat: as many as there are, blank ones after them, in an order people choose."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields as record_fields
from dataclasses import replace
from typing import Any

from wtforms import BooleanField, FieldList, Form, FormField, HiddenField

from catalogue.collection.register import Register
from catalogue.web.forms.fields import ChoiceField, NumberField, ReferenceField

MOST_ROWS = 400


class RowForm(Form):
    """One row; `record` is the class of the record it fills in, field by field of the same name."""

    record: type
    base: Any = None  # what stands on record, for the fields that the row does not show

    id = HiddenField()
    order = NumberField("Order", largest=MOST_ROWS)
    remove = BooleanField("Remove")

    @classmethod
    def data_of(cls, record: Any, register: Register) -> dict[str, Any]:
        """Return a record as the data of its row: names for ids, rows for tuples."""
        known = {field.name for field in record_fields(record)}
        return {
            name: shown(getattr(record, name), unbound, register)
            for name, unbound in vars(cls).items()
            if name in known and hasattr(unbound, "field_class")
        }

    @property
    def own_fields(self) -> list[Any]:
        """The fields that hold the record, without those that only manage the row."""
        return [field for field in self if field.short_name not in ("id", "order", "remove")]

    @property
    def is_blank(self) -> bool:
        """True where nothing has been filled in; choices don't count, having no blank state."""
        return not any(_filled(field) for field in self.own_fields)

    @property
    def record_id(self) -> int | None:
        """The id of the row's record, None for a row that is not yet on record."""
        text = str(self.id.data or "")
        return int(text) if text.isascii() and text.isdigit() and len(text) < 16 else None

    @property
    def is_known(self) -> bool:
        """True for a row that is already on record."""
        return self.record_id is not None

    def to_record(self, register: Register) -> Any:
        """Return the record of this row; names are looked up in the register or added to it.

        What the row does not show stays as it stands on record.
        """
        fields = read_fields(self.own_fields, register)
        return self.record(**fields) if self.base is None else replace(self.base, **fields)


def _filled(field: Any) -> bool:
    if isinstance(field, Rows):
        return any(not row.form.is_blank for row in field)
    if isinstance(field, ChoiceField):
        return False
    return bool(field.raw_data[0].strip() if field.raw_data else field.data)


def read_fields(fields: list[Any], register: Register) -> dict[str, Any]:
    """Return what the fields hold as the record takes it."""
    return {field.short_name: _value(field, register) for field in fields}


def _value(field: Any, register: Register) -> Any:
    if isinstance(field, Rows):
        return field.to_records(register)
    if isinstance(field, ReferenceField):
        return register.id_of(field.kind, field.data) if field.data else None
    return field.for_record if hasattr(field, "for_record") else field.data


class Rows(FieldList):
    """A list of rows of one form, shown with `spare` blank rows at its end."""

    def __init__(self, row: type[RowForm], label: str, *, spare: int = 1, **options: Any) -> None:
        super().__init__(FormField(row), label, max_entries=MOST_ROWS, **options)
        self.spare = spare

    def process(self, *arguments: Any, **options: Any) -> None:
        super().process(*arguments, **options)
        blank = sum(1 for row in self.entries if row.form.is_blank)
        for _ in range(min(self.spare - blank, MOST_ROWS - len(self.entries))):
            self.append_entry()

    def remember(self, records: tuple[Any, ...]) -> None:
        """Tell each row which record it shows; a row that names any other is a new one."""
        known = {record.id: record for record in records}
        for row in self.entries:
            row.form.base = known.get(row.form.record_id)
            for inner in row.form.own_fields:
                if isinstance(inner, Rows) and row.form.base is not None:
                    inner.remember(getattr(row.form.base, inner.short_name))

    def validate(self, form: Any, *_: Any) -> bool:
        """Validate the rows that will be kept; what is blank or to be removed cannot be wrong."""
        self.errors = [row.errors for row in self.kept if not row.validate(form)]
        return not self.errors

    def to_records(self, register: Register) -> tuple[Any, ...]:
        """Return the records of the rows that are kept, in the order people gave them."""
        ordered = sorted(
            enumerate(self.kept), key=lambda each: (_order(each[1].form, each[0]), each[0])
        )
        return tuple(row.form.to_record(register) for _, row in ordered)

    @property
    def kept(self) -> Iterator[Any]:
        """The rows that will be kept: those that are neither blank nor to be removed."""
        return (row for row in self.entries if not row.form.remove.data and not row.form.is_blank)


def _order(row: RowForm, position: int) -> float:
    return row.order.data if row.order.data is not None else position + 1


def shown(value: Any, unbound: Any, register: Register) -> Any:
    """Return a record's value as its field takes it."""
    if unbound.field_class is Rows:
        row = unbound.args[0]
        return [{"id": each.id} | row.data_of(each, register) for each in value]
    if unbound.field_class is ReferenceField and value is not None:
        return register.label_of(unbound.args[1], value)
    return value
