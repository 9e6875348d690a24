"""Sizes to work with: of a block and its patches, of a border and the centre it goes round."""

from __future__ import annotations

from fractions import Fraction

from wtforms import Form

from catalogue.values.lengths import LengthError, parse_length
from catalogue.web.forms.fields import ChoiceField, LineField

MOST_SIZES = 12


class SizesField(LineField):
    """One length, or several parted by semicolons, as people write them; kept in inches."""

    sizes: tuple[Fraction, ...] = ()

    def process_formdata(self, valuelist: list[str]) -> None:
        super().process_formdata(valuelist)
        written = [part for part in self.data.split(";") if part.strip()][:MOST_SIZES]
        try:
            self.sizes = tuple(parse_length(part).inches for part in written)
        except LengthError as error:
            raise ValueError(str(error)) from error

    @property
    def first(self) -> float | None:
        """The first length in inches, None where none is given."""
        return float(self.sizes[0]) if self.sizes else None


class WorkingOutForm(Form):
    block = SizesField("Finished block", description="12, or 30.5 cm")
    patches = SizesField("Its patches", description="several parted by semicolons: 3; 4 1/4")
    patches_are = ChoiceField("Patches measured", ("", "finished", "cut"))
    margin = SizesField("Float", description="from the blocks' points to the border, if any")
    centre_width = SizesField("Centre, width")
    centre_length = SizesField("Centre, length")
    unit = SizesField("Unit of a pieced border")
