"""What is written about photographs."""

from __future__ import annotations

from catalogue.collection import records, vocabulary
from catalogue.web.forms.fields import ChoiceField, LineField, TextField
from catalogue.web.forms.rows import RowForm, Rows
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
        """A row is there for every photograph on record, whatever is written, and for no other."""
        return self.base is None


class PhotographsForm(SectionForm):
    photographs = Rows(PhotographRow, "Photographs", spare=0)
