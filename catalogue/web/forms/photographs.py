"""What is written about photographs."""

from __future__ import annotations

import dataclasses

from catalogue.collection import records, vocabulary
from catalogue.collection.register import Register
from catalogue.web.forms.fields import ChoiceField, LineField, TextField
from catalogue.web.forms.rows import RowForm, Rows, read_fields
from catalogue.web.forms.sections import SectionForm


class PhotographRow(RowForm):
    record = records.Photograph
    view = ChoiceField("View", vocabulary.PHOTOGRAPH_VIEWS)
    caption = LineField("Caption")
    alternative_text = TextField("What is to be seen, for those who cannot see it")
    photographer = LineField("Photographer")
    rights = LineField("Rights")

    @property
    def is_blank(self) -> bool:
        """A row is there for every photograph, whether anything is written about it or not."""
        return not self.is_known

    def to_record(self, register: Register) -> records.Photograph:
        """Return what is written, with the picture itself still to be filled in."""
        empty = records.Photograph("", "", 0, 0, id=self.record_id)
        return dataclasses.replace(empty, **read_fields(self.own_fields, register))


class PhotographsForm(SectionForm):
    photographs = Rows(PhotographRow, "Photographs", spare=0)
