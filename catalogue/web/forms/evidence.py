"""Dating clues ticked on one phase of making."""

from __future__ import annotations

from typing import Any

from wtforms import SelectField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import ValidationError

from catalogue.collection import records, vocabulary
from catalogue.collection.evidence import TOLD_IN_WORDS, needs_years
from catalogue.dating.clues import clue_table
from catalogue.web.forms.fields import ChoiceField, LineField, NumberField
from catalogue.web.forms.rows import RowForm, Rows
from catalogue.web.forms.sections import SectionForm


def _clue_choices() -> list[SelectChoice]:
    """Return every clue, grouped by its kind, those that bring their own years first."""
    told = [SelectChoice(key, words, {}, "told") for key, words in TOLD_IN_WORDS.items()]
    table = sorted(clue_table().values(), key=lambda clue: clue.kind)
    seen = [SelectChoice(clue.key, clue.name, {}, clue.kind) for clue in table]
    return [SelectChoice("", "none"), *told, *seen]


class ClueRow(RowForm):
    record = records.PhaseClue
    clue = SelectField("Clue", choices=_clue_choices, default="")
    first_year = NumberField("Its year", smallest=1600, largest=2100)
    last_year = NumberField("To", smallest=1600, largest=2100, description="if it spans several")
    present = ChoiceField("That it is there", vocabulary.SURENESS)
    original = ChoiceField("That it belongs to this work", vocabulary.SURENESS)
    role = ChoiceField("It sits in", vocabulary.CLUE_ROLES)
    note = LineField("Note")

    @property
    def is_blank(self) -> bool:
        """A clue is there as soon as it is chosen."""
        return not self.clue.data

    def validate_first_year(self, field: Any) -> None:
        clue = records.PhaseClue(self.clue.data or "")
        if field.data is None and needs_years(clue):
            raise ValidationError("Give the year that it names.")

    def validate_last_year(self, field: Any) -> None:
        if field.data is not None and field.data < (self.first_year.data or 0):
            raise ValidationError(f"“{field.data}” comes before the first year.")


class EvidenceForm(SectionForm):
    clues = Rows(ClueRow, "Clues", spare=2)
