"""What all forms of records have in common: filled from the record, saved, conflicts told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeVar

from flask import flash, request
from werkzeug.datastructures import MultiDict

from catalogue.collection.register import Kind, Register
from catalogue.collection.store import Conflict, Record, add, load, save
from catalogue.web.forms.rows import Rows, read_fields, shown
from catalogue.web.forms.sections import SectionForm
from catalogue.web.shared import (
    database,
    may,
    reader,
    refresh_index,
    signed_name,
)

Form = TypeVar("Form", bound=SectionForm)


def filled(
    form: type[Form],
    record: Any,
    names: Register,
    revision: int | None = None,
    sent: MultiDict[str, str] | None = None,
) -> Form:
    """Return the form, filled from the record and then from what was sent.

    The revision is the record's own, unless the record is a part of another that has one; `sent`
    takes the place of what the request brings.
    """
    data = {
        name: shown(getattr(record, name), unbound, names)
        for name, unbound in vars(form).items()
        if record is not None and hasattr(record, name) and hasattr(unbound, "field_class")
    }
    if revision is None:
        revision = record.revision if record is not None else 0
    instead = {} if sent is None else {"formdata": sent}
    made = form(data=data | {"revision": revision}, **instead)
    _withhold(made, record)
    for field in made.own_fields:
        if isinstance(field, Rows) and record is not None:
            field.remember(getattr(record, field.name))
    return made


def _withhold(form: SectionForm, record: Any) -> None:
    """Take out of a form what the person asking may not see, and publishing where not theirs.

    What is put away is not published before it is taken out again.

    A private field that is still empty stays: whoever takes a quilt in may write down the donor.
    """
    hidden = reader().hidden_fields(record) if record is not None else frozenset()
    for name in hidden:
        if name in form and getattr(record, name) not in (None, "", ()):
            del form[name]
    put_away = bool(getattr(record, "put_away", ""))
    if "published" in form and (put_away or not may("historian")):
        del form["published"]


@dataclass(frozen=True)
class Saved:
    """What came of saving: the record as it now stands, or somebody's change in the way."""

    record: Any
    conflict: Conflict | None = None


def save_form(
    form: SectionForm, record: Record, names: Register, more: dict[str, Any] | None = None
) -> Saved:
    """Save what a validated form holds, with `more` fields."""
    return save_fields(form, record, read_fields(form.own_fields, names) | (more or {}))


def save_fields(form: SectionForm, record: Record, fields: dict[str, Any]) -> Saved:
    """Save fields that a validated form led to; then bring the index up to date.

    After a conflict the form carries the newest revision: saving it again is then a decision.
    """
    assert record.id is not None
    kind: type[Any] = type(record)
    try:
        saved = save(
            database(), kind, record.id, fields, by=signed_name(), expecting=form.seen_revision
        )
    except Conflict as conflict:
        form.revision.data = str(load(database(), kind, record.id).revision)
        return Saved(record, conflict)
    refresh_index()
    _forget_typing()
    return Saved(saved)


def add_form(kind: type[Any], form: SectionForm, names: Register) -> Any:
    """Add a new record from a form that has been validated."""
    added = add(database(), kind(**read_fields(form.own_fields, names)), signed_name())
    refresh_index()
    _forget_typing()
    return added


def _forget_typing() -> None:
    """Let the browser forget what it kept of the form that has now been saved."""
    flash(request.path, "kept")


def name_lists(form: SectionForm, names: Register) -> dict[Kind, list[str]]:
    """Return the names to offer for each kind of reference on this form."""
    return {kind: names.labels(kind) for kind in sorted(_kinds(form.own_fields))}


def _kinds(fields: list[Any]) -> set[Kind]:
    kinds: set[Kind] = set()
    for field in fields:
        if isinstance(field, Rows):
            kinds |= {kind for row in field for kind in _kinds(row.form.own_fields)}
        elif isinstance(getattr(field, "kind", None), Kind):
            kinds.add(field.kind)
    return kinds
