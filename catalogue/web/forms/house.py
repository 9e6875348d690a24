"""What the collection says of itself."""

from __future__ import annotations

import re

from flask_wtf import FlaskForm
from wtforms.validators import ValidationError

from catalogue.web.forms.fields import LineField, Needed, TextField

_ADDRESS = re.compile(r"https?://[^\s/?#]+(/[^\s?#]*)?")


class HouseForm(FlaskForm):
    name = LineField("Name", validators=[Needed("Write the name of the guild or collection.")])
    place = LineField("Place")
    about = TextField("About it, on the first page", markdown=True)
    base_address = LineField(
        "Address on the net",
        description="printed as a code on cards; leave empty while it has none",
    )

    def validate_base_address(self, field: LineField) -> None:
        if field.data and not _ADDRESS.fullmatch(field.data):
            raise ValidationError(
                f"“{field.data[:60]}” is not an address: write it as in https://quilts.example.org."
            )
