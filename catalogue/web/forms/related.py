"""Related material, and what it belongs to."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from wtforms import BooleanField
from wtforms.validators import ValidationError

from catalogue.collection import records, vocabulary
from catalogue.collection.register import Kind, Register
from catalogue.web.forms.fields import (
    ChoiceField,
    LineField,
    Needed,
    TextField,
    WrittenDateField,
)
from catalogue.web.forms.rows import RowForm, Rows
from catalogue.web.forms.sections import SectionForm
from catalogue.web.shared import register

_KINDS = {
    "quilt": Kind.QUILT,
    "pattern": Kind.PATTERN,
    "publication": Kind.PUBLICATION,
    "person or group": Kind.PARTY,
}


class LinkRow(RowForm):
    record = records.Link
    what = ChoiceField("A", _KINDS)
    name = LineField(
        "Name or number", description="as on record; a quilt by its accession number or title"
    )
    note = LineField("Note")

    @classmethod
    def data_of(cls, record: records.Link, register: Register) -> dict[str, Any]:
        """Return which of the four a link points to, and what that is called."""
        for what, kind in _KINDS.items():
            id = getattr(record, kind.value)
            if id is not None:
                return {
                    "what": what,
                    "name": register.label_of(kind, id),
                    "note": record.note,
                }
        return {"note": record.note}

    def validate_name(self, field: Any) -> None:
        if not field.data:
            raise ValidationError("Write what it belongs to.")
        kind = _KINDS.get(self.what.data)
        if kind is None or register().find(kind, field.data) is None:
            raise ValidationError(f"No {self.what.data} of the name “{field.data}” is on record.")

    def to_record(self, register: Register) -> records.Link:
        """Return the link to the one record that is named."""
        kind = _KINDS[self.what.data]
        bare = records.Link(note=self.note.data, id=self.base.id if self.base else None)
        target: dict[str, Any] = {kind.value: register.find(kind, self.name.data)}
        return replace(bare, **target)


class RelatedItemForm(SectionForm):
    title = LineField("Title", validators=[Needed("Say in a few words what it is.")])
    kind = ChoiceField("Kind", vocabulary.RELATED_KINDS)
    date = WrittenDateField("Date")
    description = TextField("Description", markdown=True)
    kept = LineField("Where it is kept", description="seen by members only")
    rights = LineField("Rights")
    published = BooleanField("Shown to visitors")
    links = Rows(LinkRow, "Belongs to", spare=2)
