"""Handling a quilt: how many people it takes, and how much cloth that is."""

from __future__ import annotations

from fractions import Fraction

from catalogue.collection.measuring import overall_size
from catalogue.collection.records import Quilt

# Square inches from which a quilt takes two people (common practice, no source).
TWO_PEOPLE_FROM = 60 * 72
TWO_PEOPLE_RULE = (
    "A quilt of 60 x 72 inches (152 x 183 cm) or as much cloth in another shape takes two people;"
    " where one side alone was measured it is taken for square (common practice, no source)."
)


def cloth_of(quilt: Quilt) -> Fraction | None:
    """Return the area of the quilt in square inches, None where it was not measured both ways."""
    size = overall_size(quilt)
    return size.width * size.length if size is not None else None


def takes_two(quilt: Quilt) -> bool:
    """True where the quilt is so large that two people carry and show it; see TWO_PEOPLE_RULE."""
    area = cloth_of(quilt)
    if area is None:
        sides = [reading.inches for reading in quilt.readings if reading.part == "overall"]
        area = max(sides, default=Fraction(0)) ** 2
    return area >= TWO_PEOPLE_FROM
