"""What there is to carry: which quilts take two people, and how much cloth it is in all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from catalogue.collection.handling import TWO_PEOPLE_RULE, cloth_of, takes_two
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.remarks import Remark, named

_SQUARE_YARD = 36 * 36  # square inches
_SQUARE_METRE = 1 / 0.0254**2  # square inches: an inch is 25.4 mm exactly


@dataclass(frozen=True)
class Load:
    """The cloth of a talk: square inches of the quilts measured, and how many are not counted."""

    area: Fraction
    measured: int
    unmeasured: int
    borrowed: int

    @property
    def says(self) -> str:
        """The load in one sentence, in square yards and square metres."""
        says = (
            f"{float(self.area) / _SQUARE_YARD:.1f} square yards"
            f" ({float(self.area) / _SQUARE_METRE:.1f} square metres) of cloth in {self.measured}"
            f" {'quilt' if self.measured == 1 else 'quilts'}"
        )
        left_out = [
            f"{number} {words}"
            for number, words in ((self.unmeasured, "not measured"), (self.borrowed, "borrowed"))
            if number
        ]
        return f"{says}; not counted: {', '.join(left_out)}." if left_out else f"{says}."


def load_of(programme: Programme) -> Load:
    """Return how much cloth the quilts of a talk are, as they lie flat."""
    areas = [cloth_of(quilt) for quilt in programme.quilts]
    known = [area for area in areas if area is not None]
    borrowed = sum(turn.kind == "borrowed quilt" for turn in programme.turns)
    return Load(sum(known, Fraction(0)), len(known), len(areas) - len(known), borrowed)


def carrying_remarks(programme: Programme) -> Iterator[Remark]:
    """Yield which quilts take two people, and the cloth there is to carry."""
    large = [quilt.title for quilt in programme.quilts if takes_two(quilt)]
    if large:
        yield Remark("handling", f"Two people each for {named(large)}.", TWO_PEOPLE_RULE)
    load = load_of(programme)
    if load.measured or load.unmeasured or load.borrowed:
        yield Remark("cloth", load.says, "overall size, width times length")
