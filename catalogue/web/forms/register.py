"""Forms of the people, patterns and publications that quilts refer to."""

from __future__ import annotations

from wtforms import BooleanField

from catalogue.collection import records, vocabulary
from catalogue.collection.register import Kind
from catalogue.web.forms.fields import (
    ChoiceField,
    LineField,
    Needed,
    ReferenceField,
    TextField,
    WrittenDateField,
)
from catalogue.web.forms.rows import RowForm, Rows
from catalogue.web.forms.sections import SectionForm


class PartyNameRow(RowForm):
    record = records.PartyName
    name = LineField("Name", validators=[Needed("Write the name.")])
    form = ChoiceField("Form", vocabulary.NAME_FORMS)
    note = LineField("Note")


class FamilyTieRow(RowForm):
    record = records.FamilyTie
    relative = ReferenceField("Relative", Kind.PARTY, validators=[Needed("Write the name.")])
    relation = ChoiceField("Is this person's", vocabulary.RELATIONS)
    note = LineField("Note")


class ContactRow(RowForm):
    record = records.Contact
    address = TextField("Address")
    telephone = LineField("Telephone")
    email = LineField("E-mail")
    note = LineField("Note")


class PartyForm(SectionForm):
    name = LineField("Name, as usually written", validators=[Needed("Write the name.")])
    kind = ChoiceField("A", vocabulary.PARTY_KINDS)
    sort_name = LineField("Name for sorting", description="Ellis, Mary Ann")
    born = WrittenDateField("Born, or founded")
    died = WrittenDateField("Died, or dissolved")
    living = BooleanField("Living: details are shown to members only")
    place = LineField("Place")
    biography = TextField("Life", markdown=True)
    names = Rows(PartyNameRow, "Other forms of the name")
    ties = Rows(FamilyTieRow, "Family")
    contacts = Rows(ContactRow, "Contact, never shown to visitors")


class PublicationForm(SectionForm):
    name = LineField("Name", validators=[Needed("Write the name of the publication.")])
    kind = ChoiceField("Kind", vocabulary.PUBLICATION_KINDS)
    publisher = LineField("Publisher")
    place = LineField("Place")
    dates = WrittenDateField("Years in which it appeared")
    note = TextField("Note")


class PatternNameRow(RowForm):
    record = records.PatternName
    name = LineField("Other name", validators=[Needed("Write the other name.")])
    source = LineField("Who calls it so")


class PrintingRow(RowForm):
    record = records.Printing
    publication = ReferenceField(
        "Publication", Kind.PUBLICATION, validators=[Needed("Write where it was published.")]
    )
    number = LineField("Number")
    date = WrittenDateField("Date")
    page = LineField("Page")
    name_as_printed = LineField("Name as printed")
    designer_as_printed = LineField("Designer as printed")
    house_name = ChoiceField("A house name, not a person", vocabulary.UNKNOWN_OR_YES)
    note = LineField("Note")


class PatternForm(SectionForm):
    name = LineField("Name", validators=[Needed("Write the name of the pattern.")])
    design = ChoiceField("Traditional design", ("",))
    family = LineField("Drafting family", description="four-patch, nine-patch, eight-pointed star")
    note = TextField("Note")
    names = Rows(PatternNameRow, "Other names")
    printings = Rows(PrintingRow, "Where it was published")
