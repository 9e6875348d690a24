"""Talks: what they are, their items, and when and where one was given."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from wtforms import BooleanField, StringField
from wtforms.validators import ValidationError

from catalogue.collection import records, vocabulary
from catalogue.collection.register import Register
from catalogue.collection.talks.clock import TimeOfDayError, read_time
from catalogue.collection.talks.naming import item_named, name_of
from catalogue.collection.talks.programme import kind_of
from catalogue.web.forms.fields import (
    ChoiceField,
    DayField,
    LineField,
    Needed,
    NumberField,
    TextField,
)
from catalogue.web.forms.rows import RowForm, Rows
from catalogue.web.forms.sections import SectionForm
from catalogue.web.shared import register

_MOST_MINUTES = 600


class ClockField(StringField):
    """A time of day, as a browser's time field sends it or as people write it; kept as HH:MM."""

    def __init__(self, label: str, **options: Any) -> None:
        super().__init__(label, render_kw={"type": "time"}, **options)

    def process_formdata(self, valuelist: list[str]) -> None:
        self.data = valuelist[0].strip() if valuelist else ""
        if self.data:
            try:
                self.data = read_time(self.data)
            except TimeOfDayError as error:
                raise ValueError(str(error)) from error


class TalkItemRow(RowForm):
    record = records.TalkItem
    what = ChoiceField("A", vocabulary.TALK_ITEMS)
    name = LineField(
        "Name, number or words",
        render_kw={"list": "names-of-items", "autocomplete": "off"},
    )
    minutes = NumberField("Minutes", largest=_MOST_MINUTES)
    notes = TextField("Notes")

    @classmethod
    def data_of(cls, record: records.TalkItem, register: Register) -> dict[str, Any]:
        """Return what the item is and what it is called."""
        return {
            "what": kind_of(record),
            "name": name_of(register, record),
            "minutes": record.minutes,
            "notes": record.notes,
        }

    def validate_name(self, field: Any) -> None:
        if not field.data:
            raise ValidationError("Write what this item is.")
        known = self.what.data in vocabulary.TALK_ITEMS
        if known and item_named(register(), self.what.data, field.data) is None:
            raise ValidationError(f"No {self.what.data} of the name “{field.data}” is on record.")

    def to_record(self, register: Register) -> records.TalkItem:
        """Return the item that is named, under the id it had."""
        named = item_named(register, self.what.data, self.name.data)
        assert named is not None  # it was validated
        id = self.base.id if self.base is not None else None
        return replace(named, minutes=self.minutes.data, notes=self.notes.data, id=id)


class TalkForm(SectionForm):
    title = LineField("Title", validators=[Needed("Give the talk a title.")])
    on = DayField("Day")
    begins = ClockField("Begins at")
    minutes = NumberField("Minutes it may take", largest=_MOST_MINUTES)
    place = LineField("Place")
    audience = LineField("Audience")
    speaker = LineField("Speaker")
    notes = TextField("Notes for yourself", markdown=True)
    further_reading = TextField(
        "Further reading", description="Markdown; printed at the end of the handout"
    )
    published = BooleanField("Shown to visitors, without notes")
    items = Rows(TalkItemRow, "Items, in their order", spare=2)


class GivenForm(SectionForm):
    on = DayField("Day", validators=[Needed("Write the day on which it was given.")])
    place = LineField("Place")
    audience = LineField("Audience")
