"""The sections of a quilt's record that are typed into forms; each is saved on its own.

The readings have a page of their own (`measuring`), photographs are uploaded (`photographs`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from flask_wtf import FlaskForm
from wtforms import BooleanField, HiddenField, SelectField
from wtforms.validators import ValidationError

from catalogue.collection import records, vocabulary
from catalogue.collection.ownership import dated
from catalogue.collection.register import Kind, Register
from catalogue.provenance.transfer_dates import read_transfer_dates
from catalogue.values.accession import AccessionError, parse_accession
from catalogue.values.dates import DateError, HistoricDate
from catalogue.web.forms.fields import (
    ChoiceField,
    DayField,
    LineField,
    Needed,
    NumberField,
    ReferenceField,
    TextField,
    WrittenDateField,
)
from catalogue.web.forms.rows import RowForm, Rows


class SectionForm(FlaskForm):
    """A form that knows at which revision of the record it was filled in."""

    revision = HiddenField()

    @property
    def seen_revision(self) -> int:
        """The revision of the record when the form was filled; 0 where the form does not say."""
        text = str(self.revision.data or "")
        return int(text) if text.isascii() and text.isdigit() and len(text) < 16 else 0

    @property
    def own_fields(self) -> list[Any]:
        """The fields that hold the record."""
        return [field for field in self if field.name not in ("revision", "csrf_token")]

    @property
    def unseen_dates(self) -> list[HistoricDate]:
        """Dates whose reading was not shown yet: they are shown before they are kept."""
        if not self.is_submitted() or self.errors:
            return []
        fields = [field for field in _dates_in(self.own_fields) if field.unseen]
        return [field.data for field in fields if field.data is not None]

    def validate(self, extra_validators: Any = None) -> bool:
        """Validate the fields; a form with dates nobody has checked is not ready to be saved."""
        return bool(super().validate(extra_validators)) and not self.unseen_dates


def _dates_in(fields: Iterable[Any]) -> Iterator[WrittenDateField]:
    for field in fields:
        if isinstance(field, WrittenDateField):
            yield field
        elif isinstance(field, Rows):
            for row in field.kept:
                yield from _dates_in(row.form.own_fields)


# --- rows --------------------------------------------------------------------------------------


class EarlierNumberRow(RowForm):
    record = records.EarlierNumber
    number = LineField("Earlier number", validators=[Needed("Write the earlier number.")])
    note = LineField("Where it was used")


class PhaseMakerRow(RowForm):
    record = records.PhaseMaker
    party = ReferenceField("Maker", Kind.PARTY, validators=[Needed("Write who did the work.")])
    certainty = ChoiceField("How sure", vocabulary.CERTAINTIES)
    note = LineField("Why")


class PhaseRow(RowForm):
    record = records.Phase
    kind = ChoiceField("Work", ("", *vocabulary.PHASES))
    date = WrittenDateField("When", description="c. 1935, before 1940, 1890s, May 1921")
    place = LineField("Where")
    makers = Rows(PhaseMakerRow, "Makers")
    note = LineField("Grounds")

    @property
    def is_blank(self) -> bool:
        """A phase is there as soon as the work is named."""
        return super().is_blank and not self.kind.data

    def validate_kind(self, field: Any) -> None:
        if not field.data:
            raise ValidationError("Choose the work that was done.")


class BlockKindRow(RowForm):
    record = records.BlockKind
    label = LineField("Kind of block", description="star block, plain square, centre")
    pattern = ReferenceField("Pattern", Kind.PATTERN)
    printing = SelectField("Published as", coerce=lambda text: int(text) if text else None)
    certainty = ChoiceField("How sure of the pattern", vocabulary.CERTAINTIES)
    counted = NumberField("How many", smallest=1, largest=9999)
    note = LineField("Note")

    @property
    def is_blank(self) -> bool:
        """A choice of printing alone counts as filled in."""
        return super().is_blank and not self.printing.data


class MaterialRow(RowForm):
    record = records.Material
    part = ChoiceField("Part", vocabulary.MATERIAL_PARTS)
    fibre = LineField("Cloth or fibre", validators=[Needed("Write what it is made of.")])
    colours = LineField("Colours")
    note = LineField("Note")


class TechniqueRow(RowForm):
    record = records.Technique
    name = LineField("Technique", validators=[Needed("Name the technique.")])
    worked = ChoiceField("Worked", vocabulary.WORKED)
    note = LineField("Note")


class InscriptionRow(RowForm):
    record = records.Inscription
    text = TextField("Words, exactly as they stand", validators=[Needed("Copy the words.")])
    kind = ChoiceField("Kind", vocabulary.INSCRIPTION_KINDS)
    where = LineField("Where on the quilt")
    how = LineField("How it is made", description="ink, cross stitch, typed on twill tape")
    block = LineField("Block", description="on a signature quilt: column 3, row 2")
    date = WrittenDateField("Date it bears")
    note = LineField("Note")


class OwnershipRow(RowForm):
    record = records.OwnershipPeriod
    party = LineField("Owner", validators=[Needed("Write the owner, or “Unknown party”.")])
    life = LineField("Life dates", description="1880-1955")
    relation = LineField("Relation", description="son of previous")
    method = LineField(
        "How it came", description="created by, by descent to, gift to, purchased by"
    )
    place = LineField("Place")
    dates = LineField("Dates", description="1937 until 1962, by 1995")
    possibly = BooleanField("Possibly")
    direct = BooleanField("Passed straight to the next owner")
    note = LineField("Grounds")
    citation = LineField("Where that is written")

    def validate_dates(self, field: Any) -> None:
        try:
            if field.data:
                read_transfer_dates(field.data)
        except DateError as error:
            raise ValidationError(str(error)) from error

    def to_record(self, register: Register) -> records.OwnershipPeriod:
        """Return the period with its dates understood and its owner linked, if on record."""
        period = dated(super().to_record(register))
        return replace(period, person=register.find(Kind.PARTY, period.party))


class ConditionRow(RowForm):
    record = records.ConditionReport
    grade = ChoiceField("Condition", ("", *vocabulary.CONDITION_GRADES))
    on = DayField("Day")
    by = LineField("Seen by")
    text = LineField("What was seen")
    hazard = ChoiceField("Dyes and pesticides", vocabulary.HAZARD_STATES)
    hazard_note = LineField("By whom, how tested")

    @property
    def is_blank(self) -> bool:
        """A report is there as soon as it has a grade."""
        return super().is_blank and not self.grade.data

    def validate_grade(self, field: Any) -> None:
        if not field.data:
            raise ValidationError("Choose the condition.")


class LocationRow(RowForm):
    record = records.Location
    place = LineField("Place", validators=[Needed("Write where the quilt is kept.")])
    since = DayField("Since")
    by = LineField("Moved by")
    note = LineField("Note")


# --- sections ----------------------------------------------------------------------------------


class IdentityForm(SectionForm):
    title = LineField("Title", validators=[Needed("Give the quilt a title.")])
    accession = LineField(
        "Accession number", description="year.lot.item, as in 1987.4.1; blank until accessioned"
    )
    object_type = ChoiceField("What it is", vocabulary.OBJECT_TYPES)
    status = ChoiceField("Status", vocabulary.STATUSES)
    published = BooleanField("Shown to visitors")
    subject = LineField("What it depicts or commemorates")
    distinguishing_features = TextField("Distinguishing features")
    earlier_numbers = Rows(EarlierNumberRow, "Earlier numbers")

    def validate_accession(self, field: Any) -> None:
        if field.data:
            try:
                parse_accession(field.data)
            except AccessionError as error:
                raise ValidationError(str(error)) from error
        elif self.status.data == "accessioned":
            raise ValidationError("An accessioned quilt needs its accession number.")


class ArrivalForm(SectionForm):
    came_by = ChoiceField("How it came", ("", *vocabulary.CAME_BY))
    donor = ReferenceField("From", Kind.PARTY)
    received = WrittenDateField("Received")
    credit_line = LineField("Credit line", description="as it is printed beside the quilt")
    restrictions = TextField("Restrictions")
    insurance_value = LineField("Value for insurance", description="not an appraisal")
    insurance_note = LineField("Who set it, when, for what")


class MakingForm(SectionForm):
    maker_unknown = BooleanField("Nobody knows who made it; it has been looked into")
    phases = Rows(PhaseRow, "Phases of making")


class BlocksForm(SectionForm):
    blocks = Rows(BlockKindRow, "Kinds of block")


class ClothForm(SectionForm):
    materials = Rows(MaterialRow, "Materials", spare=2)
    techniques = Rows(TechniqueRow, "Techniques", spare=2)
    quilting_design = LineField("Quilting design")
    quilting_worked = ChoiceField("Quilted", vocabulary.QUILTING_WORKED)
    stitches_per_inch = NumberField(
        "Stitches to the inch",
        smallest=1,
        largest=40,
        description="counted on the top side only",
    )
    edge_finish = LineField("Edge finish")


class InscriptionsForm(SectionForm):
    no_inscriptions = BooleanField("Looked for, front and back, and none found")
    inscriptions = Rows(InscriptionRow, "Labels and inscriptions")


class OwnershipForm(SectionForm):
    ownership = Rows(OwnershipRow, "Periods of ownership, from the earliest", spare=2)


class KeepingForm(SectionForm):
    conditions = Rows(ConditionRow, "Condition")
    locations = Rows(LocationRow, "Where it is kept")


class StoryForm(SectionForm):
    description = TextField("Description", markdown=True)
    history = TextField("History", markdown=True)
    related_material = TextField("Related material", markdown=True)


class OwnershipTextForm(SectionForm):
    text = TextField("Every owner, from the earliest")


class ParagraphForm(SectionForm):
    paragraph = TextField(
        "Your own paragraph",
        description="left empty, the composed one is shown and follows the record",
    )


@dataclass(frozen=True)
class Section:
    """One section: its key in addresses, its heading, what it is for, and its form."""

    key: str
    heading: str
    purpose: str
    form: type[SectionForm]


SECTIONS = {
    section.key: section
    for section in (
        Section("identity", "The quilt", "What it is called and where it stands.", IdentityForm),
        Section(
            "arrival", "How it came", "Seen by members only, but for the credit line.", ArrivalForm
        ),
        Section(
            "making",
            "Makers and dates",
            "One phase for each time somebody worked on it: blocks may be set decades later.",
            MakingForm,
        ),
        Section(
            "blocks",
            "Blocks and patterns",
            "Each kind of block, its pattern, and where that pattern was published.",
            BlocksForm,
        ),
        Section("cloth", "Cloth and stitches", "Materials, techniques, quilting, edge.", ClothForm),
        Section(
            "inscriptions",
            "Labels and inscriptions",
            "Word for word, line for line.",
            InscriptionsForm,
        ),
        Section("ownership", "Ownership", "Who had it, from the earliest owner on.", OwnershipForm),
        Section("keeping", "Condition and place", "Seen by members only.", KeepingForm),
        Section("story", "Description and history", "Written in Markdown.", StoryForm),
    )
}
