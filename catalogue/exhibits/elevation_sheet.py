"""The sheet an elevation is drawn on: the size of its type, its margins, its chain of lengths."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.exhibits.elevation_fixtures import PERSON_HEIGHT
from catalogue.exhibits.svg import LETTER, Pen, number, wrapped
from catalogue.exhibits.walls import HangingPlan, Hung, Wall
from catalogue.values.lengths import Unit, format_inches

PERSON_ROOM = 34.0
"""Inches to the left of the wall, where a person stands for scale."""


@dataclass(frozen=True)
class Sheet:
    """The wall with the size of type that fits it, and the drawing's own coordinates."""

    pen: Pen
    plan: HangingPlan
    wall: Wall
    unit: Unit
    marked: frozenset[str]

    @property
    def length(self) -> float:
        """Length of the wall in inches."""
        return float(self.wall.box.width)

    @property
    def height(self) -> float:
        """Height of the wall in inches."""
        return float(self.wall.box.height)

    @property
    def size(self) -> float:
        """Height of the type in inches: a hundredth of what is drawn, whatever the wall."""
        return max((self.length + 2 * PERSON_ROOM) * 0.012, self.height * 0.02)

    @property
    def thin(self) -> float:
        """Width of a thin line."""
        return self.size * 0.1

    @property
    def hung(self) -> tuple[Hung, ...]:
        """The wall's quilts from left to right."""
        return self.plan.on(self.wall.name)

    @property
    def view(self) -> str:
        """The view box that holds all of it."""
        t = self.size
        above, below = -3 * t, self.height + self.chain_depth + (7 + 1.2 * len(self.caption)) * t
        return " ".join(number(v) for v in (self.left, above, self.across, below - above))

    @property
    def left(self) -> float:
        """Where the drawing begins, left of the wall."""
        return -PERSON_ROOM - self.size

    @property
    def across(self) -> float:
        """How wide the drawing is."""
        return self.length + 10.2 * self.size - self.left

    @property
    def caption(self) -> list[str]:
        """How to read the figures, in lines that fit under the drawing."""
        inches = self.unit == "in"
        unit, tall = (
            ("inches", f"{PERSON_HEIGHT:g} in")
            if inches
            else ("centimetres", f"{PERSON_HEIGHT * 2.54:.0f} cm")
        )
        words = (
            "Above and below each quilt: its edges' heights above the floor. In each: width ×"
            f" length. Under the floor: gaps and widths in {unit}. The person is {tall} tall."
        )
        return wrapped(words, int((self.across / self.size - 2) / (LETTER * 0.82)), 9)

    @property
    def stops(self) -> list[float]:
        """The ends of the wall and the sides of every quilt along it."""
        sides = [float(side) for hung in self.hung for side in (hung.box.x, hung.box.right)]
        return sorted({0.0, self.length, *sides})

    @property
    def chain_depth(self) -> float:
        """Room for those lengths of the chain that stand upright in too short a stretch."""
        upright = [len(words) for words, fits in self.chain if not fits]
        return max(upright, default=0) * LETTER * self.size * 0.9

    @property
    def chain(self) -> list[tuple[str, bool]]:
        """The length of every stretch between stops, and whether it fits there lying down."""
        found = []
        for left, right in zip(self.stops, self.stops[1:], strict=False):
            words = self.bare(right - left)
            found.append((words, len(words) * LETTER * self.size * 0.9 <= (right - left) * 0.94))
        return found

    def bare(self, inches: float) -> str:
        """A length without its unit."""
        if self.unit == "in":
            return format_inches(inches, typographic=True)
        return f"{inches * 2.54:.1f}".removesuffix(".0")

    def y(self, above_floor: float) -> float:
        """Where a height above the floor stands in the drawing."""
        return self.height - above_floor
