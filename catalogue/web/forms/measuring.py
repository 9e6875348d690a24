"""What the eye sees of a quilt's construction, beside what the tape says."""

from __future__ import annotations

from typing import Any

from wtforms import SelectMultipleField, widgets
from wtforms.fields.choices import SelectChoice

from catalogue.collection import records, vocabulary
from catalogue.web.forms.fields import ChoiceField, LineField, NumberField
from catalogue.web.forms.rows import RowForm, Rows
from catalogue.web.forms.sections import SectionForm


class SidesField(SelectMultipleField):
    """The sides a border runs along, kept as one text; none ticked means all four."""

    widget = widgets.ListWidget(prefix_label=False)
    option_widget = widgets.CheckboxInput()

    def __init__(self, label: str, **options: Any) -> None:
        choices = [SelectChoice(side, side) for side in vocabulary.SIDES]
        super().__init__(label, choices=choices, **options)

    def process_data(self, value: Any) -> None:
        self.data = [side for side in vocabulary.SIDES if value and side in value]

    @property
    def for_record(self) -> str:
        """The sides as the record keeps them; all four ticked are the same as none."""
        ticked = [side for side in vocabulary.SIDES if side in (self.data or [])]
        return "" if len(ticked) == len(vocabulary.SIDES) else ", ".join(ticked)


class BorderRow(RowForm):
    record = records.Border
    sides = SidesField("Sides")
    note = LineField("Note", description="pieced, plain, appliquéd vine")

    @property
    def is_blank(self) -> bool:
        """A row that is on record stays, though nothing is written in it."""
        return super().is_blank and not self.is_known


class SeenForm(SectionForm):
    setting_seen = ChoiceField("Setting, as you see it", ("", *vocabulary.SETTINGS))
    counted_columns = NumberField("Blocks across, counted", smallest=1, largest=500)
    counted_rows = NumberField("Blocks down, counted", smallest=1, largest=500)
    sashing = ChoiceField("Sashing", vocabulary.UNKNOWN_OR_THERE)
    cornerstones = ChoiceField("Cornerstones", vocabulary.UNKNOWN_OR_THERE)
    borders_seen = ChoiceField("Borders", vocabulary.UNKNOWN_OR_THERE)
    borders = Rows(BorderRow, "Borders, from the inside out")
    binding = ChoiceField("Binding", vocabulary.UNKNOWN_OR_THERE)
    binding_within_border = ChoiceField(
        "Outer border measured with the binding", vocabulary.UNKNOWN_OR_YES
    )
    edge = ChoiceField("Edge", vocabulary.EDGES)
    length_unit = ChoiceField("Numbers without a unit are", vocabulary.LENGTH_UNITS)
