"""Fields that read what people write, keep it as typed, and say in one sentence what is wrong."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from fractions import Fraction
from typing import Any

from wtforms import Form, IntegerField, SelectField, StringField, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.utils import unset_value
from wtforms.validators import StopValidation, ValidationError

from catalogue.collection.register import Kind
from catalogue.values.dates import DateError, HistoricDate, WrittenPhase, read_date
from catalogue.values.lengths import LengthError, format_inches, parse_length
from catalogue.web.forms.splitting import phases_in
from catalogue.web.shared import date_policy, register

LONGEST_LINE = 500
LONGEST_TEXT = 40_000


_KEPT = "\n\t\N{ZERO WIDTH JOINER}\N{ZERO WIDTH NON-JOINER}"


class LineField(StringField):
    """One line of text, without blanks at its ends."""

    longest = LONGEST_LINE

    def process_formdata(self, valuelist: list[str]) -> None:
        typed = valuelist[0] if valuelist else ""
        self.data = _clean(typed).strip()
        if len(self.data) > self.longest:
            raise ValueError(
                f"This is {len(self.data):,} characters long: at most {self.longest:,} are kept."
            )


class TextField(LineField):
    """Text of several lines; `markdown` says that it is shown with headings, lists and links."""

    widget = TextAreaField.widget
    longest = LONGEST_TEXT

    def __init__(self, *arguments: Any, markdown: bool = False, **options: Any) -> None:
        super().__init__(*arguments, **options)
        self.markdown = markdown


class NumberField(IntegerField):
    """A whole number within bounds, or nothing."""

    def __init__(self, label: str, *, smallest: int = 0, largest: int = 9999, **options: Any):
        super().__init__(label, **options)
        self.smallest, self.largest = smallest, largest

    def process_formdata(self, valuelist: list[str]) -> None:
        typed = valuelist[0].strip() if valuelist else ""
        self.data = None
        if not typed:
            return
        try:
            number = int(typed) if len(typed) < 10 else None
        except ValueError:
            number = None
        if number is None or not self.smallest <= number <= self.largest:
            raise ValueError(
                f"“{typed[:40]}” is not a whole number from {self.smallest} to {self.largest}."
            )
        self.data = number


class WrittenDateField(StringField):
    """A date with its doubt, typed as people write it: "c. 1935", "before 1940", "May 1921".

    What was understood is shown in words before it is kept: the page sends back, beside the text,
    the EDTF that it showed, and a reading that nobody has seen yet is `unseen`.
    """

    data: HistoricDate | None
    shown_edtf = ""

    @property
    def shown_name(self) -> str:
        """The name under which the page sends back what it showed."""
        return f"{self.name}-shown"

    @property
    def phases(self) -> tuple[WrittenPhase, ...]:
        """The phases of making that the text tells of, where it is not a date but a story."""
        return phases_in(str(self.raw_data[0]), date_policy()) if self.raw_data else ()

    @property
    def unseen(self) -> bool:
        """True for a reading that was not shown and that says more than the text itself."""
        if self.data is None or self.data.edtf == self.shown_edtf:
            return False
        return self.data.says.removeprefix("the ").casefold() != self.data.written.casefold()

    def process(self, formdata: Any, data: Any = unset_value, extra_filters: Any = None) -> None:
        self.shown_edtf = formdata.get(self.shown_name, "") if formdata else ""
        super().process(formdata, data, extra_filters)

    def process_data(self, value: Any) -> None:
        super().process_data(value)
        self.on_record = value

    def process_formdata(self, valuelist: list[str]) -> None:
        typed = valuelist[0].strip() if valuelist else ""
        self.data = None
        if not typed:
            return
        if self.on_record is not None and typed == self.on_record.written:
            self.data = self.on_record  # what was once understood and kept stays so
            self.shown_edtf = self.data.edtf
            return
        try:
            self.data = read_date(typed, date_policy())
        except DateError as error:
            raise ValueError(str(error)) from error

    def _value(self) -> str:
        if self.raw_data:
            return str(self.raw_data[0])
        return self.data.written if self.data is not None else ""


class DayField(StringField):
    """A day of the calendar, as a browser's date field sends it; kept as ISO text."""

    def process_formdata(self, valuelist: list[str]) -> None:
        self.data = valuelist[0].strip() if valuelist else ""
        if not self.data:
            return
        try:
            self.data = date.fromisoformat(self.data).isoformat()
        except ValueError:
            raise ValueError(
                f"“{self.data[:40]}” is not a day: write year-month-day, as in 1987-05-14."
            ) from None


class AmountField(StringField):
    """An amount that need not be whole, within bounds, or nothing."""

    def __init__(self, label: str, *, largest: float, **options: Any) -> None:
        super().__init__(label, **options)
        self.largest = largest

    def process_formdata(self, valuelist: list[str]) -> None:
        typed = valuelist[0].strip() if valuelist else ""
        self.data = None
        if not typed:
            return
        try:
            amount = float(typed) if len(typed) < 20 else -1.0
        except ValueError:
            amount = -1.0
        if not 0 <= amount <= self.largest:
            raise ValueError(f"“{typed[:40]}” is not an amount from 0 to {self.largest:g}.")
        self.data = amount

    def _value(self) -> str:
        if self.raw_data:
            return str(self.raw_data[0])
        return f"{self.data:g}" if self.data is not None else ""


class LengthField(StringField):
    """A length typed as people write it, kept as an exact fraction of an inch."""

    data: Fraction | None

    def process_formdata(self, valuelist: list[str]) -> None:
        typed = valuelist[0].strip() if valuelist else ""
        self.data = None
        if not typed:
            return
        if typed == "0":  # at the floor, or at the end of the wall
            self.data = Fraction(0)
            return
        try:
            self.data = parse_length(typed).inches
        except LengthError as error:
            raise ValueError(str(error)) from error

    def _value(self) -> str:
        if self.raw_data:
            return str(self.raw_data[0])
        return format_inches(self.data) if self.data is not None else ""


class ChoiceField(SelectField):
    """One of a closed list of the record's own words."""

    def __init__(self, label: str, words: Iterable[str], **options: Any) -> None:
        choices = [SelectChoice(word, word if word else "not recorded") for word in words]
        options.setdefault("default", choices[0].value)
        super().__init__(label, choices=choices, **options)

    def pre_validate(self, form: Form) -> None:
        try:
            super().pre_validate(form)
        except ValidationError:
            raise ValidationError(f"“{str(self.data)[:40]}” is not one of the choices.") from None


class ReferenceField(LineField):
    """The name of a person, pattern or publication; an unknown one is added on saving."""

    def __init__(self, label: str, kind: Kind, *, known: bool = False, **options: Any) -> None:
        super().__init__(label, **options)
        self.kind = kind
        self.known = known

    def pre_validate(self, form: Form) -> None:
        """Refuse a name that is not on record, where the record cannot be added in passing."""
        super().pre_validate(form)
        if self.known and self.data and register().find(self.kind, self.data) is None:
            raise ValidationError(f"No {self.kind} of the name “{self.data[:60]}” is on record.")


class Needed:
    """A field that must be filled in, in a row that is not left blank altogether."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence

    def __call__(self, form: Any, field: Any) -> None:
        left_empty = field.data is None or field.data == "" or field.data == []
        if left_empty and not getattr(form, "is_blank", False):
            raise StopValidation(self.sentence)


def _clean(text: str) -> str:
    """Return the text with plain line ends and without control characters."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(
        c for c in lines if c in "\n\t" or c.isprintable() or c == "\N{ZERO WIDTH JOINER}"
    )
