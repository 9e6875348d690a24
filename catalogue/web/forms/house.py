"""What the collection says of itself."""

from __future__ import annotations

import re

from flask_wtf import FlaskForm
from wtforms import SelectField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import ValidationError

from catalogue.exhibits.light import light_limits
from catalogue.exhibits.rest import rest_norms
from catalogue.web.forms.fields import LineField, Needed, TextField

_ADDRESS = re.compile(r"https?://[^\s/?#]+(/[^\s?#]*)?")


def _limits() -> list[SelectChoice]:
    """Return the limits that museums name; they disagree, and the house chooses one."""
    return [SelectChoice(limit.key, limit.says) for limit in light_limits().values()]


def _norms() -> list[SelectChoice]:
    return [SelectChoice(norm.key, f"{norm.name}: {norm.says}") for norm in rest_norms().values()]


class HouseForm(FlaskForm):
    name = LineField("Name", validators=[Needed("Write the name of the guild or collection.")])
    place = LineField("Place")
    about = TextField("About it, on the first page", markdown=True)
    base_address = LineField(
        "Address on the net",
        description="printed as a code on cards; leave empty while it has none",
    )

    light_limit = SelectField("Light limit", choices=_limits)
    rest_norm = SelectField("Rest after display", choices=_norms)

    def validate_base_address(self, field: LineField) -> None:
        if field.data and not _ADDRESS.fullmatch(field.data):
            raise ValidationError(
                f"“{field.data[:60]}” is not an address: write it as in https://quilts.example.org."
            )
