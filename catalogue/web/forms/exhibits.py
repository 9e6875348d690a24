"""Exhibits: what they are, their walls, where each quilt hangs, its state out and back."""

from __future__ import annotations

from typing import Any

from wtforms import BooleanField, SelectMultipleField, widgets
from wtforms.fields.choices import SelectChoice
from wtforms.validators import ValidationError

from catalogue.collection import records, vocabulary
from catalogue.collection.register import Kind
from catalogue.web.forms.fields import (
    AmountField,
    ChoiceField,
    DayField,
    LengthField,
    LineField,
    Needed,
    ReferenceField,
    TextField,
)
from catalogue.web.forms.rows import RowForm, Rows
from catalogue.web.forms.sections import SectionForm

_WEEKDAYS = (*("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),)


class DaysField(SelectMultipleField):
    """Days of the week, kept as their numbers with Monday 0, separated by commas."""

    widget = widgets.ListWidget(prefix_label=False)
    option_widget = widgets.CheckboxInput()

    def __init__(self, label: str, **options: Any) -> None:
        choices = [SelectChoice(str(n), day) for n, day in enumerate(_WEEKDAYS)]
        super().__init__(label, choices=choices, **options)

    def process_data(self, value: Any) -> None:
        self.data = [day for day in (value or "").split(",") if day]

    @property
    def for_record(self) -> str:
        """The days as the record keeps them."""
        return ",".join(self.data or [])


class ExhibitQuiltRow(RowForm):
    record = records.ExhibitQuilt
    quilt = ReferenceField(
        "Quilt", Kind.QUILT, known=True, validators=[Needed("Write its number or its title.")]
    )
    label_text = TextField("Text for its label", description="at most 75 words read well")
    loan_papers = LineField("Loan papers", description="agreement, date, insurance, return")


class ExhibitForm(SectionForm):
    title = LineField("Title", validators=[Needed("Give the exhibit a title.")])
    text = TextField("What it tells", markdown=True)
    venue = LineField("Venue")
    begins = DayField("First day")
    ends = DayField("Last day")
    lux = AmountField("Light in lux, as measured", largest=100_000)
    hours_a_day = AmountField("Hours a day with the lights on", largest=24)
    ultraviolet = AmountField("Ultraviolet, microwatts a lumen", largest=10_000)
    dark_days = DaysField("Days without light")
    published = BooleanField("Shown to visitors")
    quilts = Rows(ExhibitQuiltRow, "Quilts, in their order", spare=2)

    def validate_ends(self, field: Any) -> None:
        if field.data and self.begins.data and field.data < self.begins.data:
            raise ValidationError(f"“{field.data}” comes before the first day.")


class ObstacleRow(RowForm):
    record = records.WallObstacle
    kind = ChoiceField("What", vocabulary.OBSTACLES)
    name = LineField("Called")
    x = LengthField("From the left end", validators=[Needed("Measure it.")])
    y = LengthField("Above the floor", validators=[Needed("Measure it.")])
    width = LengthField("Width", validators=[Needed("Measure it.")])
    height = LengthField("Height", validators=[Needed("Measure it.")])
    may_be_covered = BooleanField("A quilt may hang over it")


class WallRow(RowForm):
    record = records.ExhibitWall
    name = LineField("Wall", validators=[Needed("Name the wall.")])
    length = LengthField("Length", validators=[Needed("Measure it.")])
    height = LengthField("Height", validators=[Needed("Measure it.")])
    obstacles = Rows(ObstacleRow, "In the way")


class WallsForm(SectionForm):
    walls = Rows(WallRow, "Walls")


class PlaceRow(RowForm):
    record = records.ExhibitQuilt
    wall = LineField("Wall")
    x = LengthField("Left edge from the left end")
    bottom = LengthField("Lower edge above the floor")

    @property
    def is_blank(self) -> bool:
        """A row is there for every quilt of the exhibit and for no other."""
        return self.base is None


class PlacesForm(SectionForm):
    quilts = Rows(PlaceRow, "Places", spare=0)


class StateRow(RowForm):
    record = records.ExhibitQuilt
    out_on = DayField("Looked at before it left")
    out_by = LineField("By")
    out_grade = ChoiceField("Condition", vocabulary.VENUE_GRADES)
    out_text = TextField("What was seen")
    back_on = DayField("Looked at when it came back")
    back_by = LineField("By")
    back_grade = ChoiceField("Condition on return", vocabulary.VENUE_GRADES)
    back_text = TextField("What was seen on return")

    @property
    def is_blank(self) -> bool:
        """A row is there for every quilt of the exhibit and for no other."""
        return self.base is None


class StatesForm(SectionForm):
    quilts = Rows(StateRow, "Quilts", spare=0)
