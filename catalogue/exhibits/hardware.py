"""What installers need for every quilt of a plan: lengths to cut, heights and distances to mark.

Two ways of hanging are worked out, because nothing here knows what a quilt weighs or bears:
a rod in a sleeve, and a hook-and-loop strip. Which one is safe, if any, a textile conservator says.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from catalogue.exhibits.walls import HangingPlan, Hung, say
from catalogue.values.lengths import CENTIMETRE, Unit

STRIP_SHORTER = 2 * CENTIMETRE
"""A hook-and-loop strip is 2 cm shorter than the quilt's upper edge (CCI Notes 13/4)."""
STRIP_MARGIN = CENTIMETRE / 2
"""The cotton sleeve that the strip is sewn to is 0.5 cm wider all round (CCI Notes 13/4)."""
STRIP_SOURCE = "Canadian Conservation Institute, CCI Notes 13/4, Velcro Support System for Textiles"

SLEEVE_SHORTER = Fraction(2)
"""A sleeve for a rod ends 1 in inside either edge (common practice of guild shows)."""
SLEEVE_DEPTH = Fraction(4)
"""A sleeve for a rod lies 4 in deep when finished (common practice of guild shows)."""
ROD_LONGER = Fraction(1)
"""The rod is 1 in longer than the finished sleeve (allpeoplequilt.com, hanging sleeve)."""
SPLIT_WIDER_THAN = Fraction(90)
"""Wider quilts have their sleeve in two parts, to hold the rod in the middle (guild shows)."""
SLEEVE_SOURCE = (
    "common practice: Hill Country Quilt Guild, quilt sleeve instructions, 2023;"
    " allpeoplequilt.com, How to Make a Hanging Sleeve"
)


@dataclass(frozen=True)
class Hardware:
    """One quilt's lengths and marks, in inches; `number` is its place in the exhibit's order.

    `upper_edge` and `lower_edge` are heights above the floor, `left_edge` and `right_edge`
    distances from the left end of the wall. `split_sleeve` asks for support in the middle.
    """

    number: int
    quilt: str
    title: str
    wall: str
    left_edge: Fraction
    right_edge: Fraction
    lower_edge: Fraction
    upper_edge: Fraction
    sleeve: Fraction
    rod: Fraction
    split_sleeve: bool
    strip: Fraction
    strip_sleeve: Fraction

    def says(self, unit: Unit = "in") -> tuple[str, ...]:
        """The line in sentences, as it is read out to those on the steps."""
        middle = ", in two parts with a support in the middle" if self.split_sleeve else ""
        return (
            f"Upper edge {say(self.upper_edge, unit)} above the floor, lower edge"
            f" {say(self.lower_edge, unit)}.",
            f"From the left end of the wall {say(self.left_edge, unit)} to"
            f" {say(self.right_edge, unit)}.",
            f"With a rod: sleeve {say(self.sleeve, unit)} long and {say(SLEEVE_DEPTH, unit)}"
            f" deep{middle}, rod {say(self.rod, unit)}.",
            f"With hook and loop: strip {say(self.strip, unit)} long on a cotton sleeve of"
            f" {say(self.strip_sleeve, unit)}.",
        )


def hardware(plan: HangingPlan) -> tuple[Hardware, ...]:
    """A line for every quilt that hangs, wall by wall from left to right."""
    numbers = {quilt.key: number for number, quilt in enumerate(plan.quilts, 1)}
    return tuple(_line(hung, numbers[hung.quilt.key]) for hung in plan.hung)


def _line(hung: Hung, number: int) -> Hardware:
    box = hung.box
    sleeve = max(box.width - SLEEVE_SHORTER, box.width / 2)
    strip = max(box.width - STRIP_SHORTER, box.width / 2)
    return Hardware(
        number,
        hung.quilt.key,
        hung.quilt.title,
        hung.wall.name,
        box.x,
        box.right,
        box.y,
        box.top,
        sleeve,
        sleeve + ROD_LONGER,
        box.width > SPLIT_WIDER_THAN,
        strip,
        strip + 2 * STRIP_MARGIN,
    )
