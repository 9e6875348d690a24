"""The rules of a hanging: heights, gaps and limits that a collection may change."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from catalogue.exhibits.rules import Rule, RuleSet, read_rules


@dataclass(frozen=True)
class HangingRules(RuleSet):
    """Heights, gaps and limits in inches; the table says what each is and where it comes from."""

    table: ClassVar[tuple[Rule, ...]] = read_rules("hanging_rules.csv")

    centre_line: Fraction
    centre_tolerance: Fraction
    floor_clearance: Fraction
    ceiling_clearance: Fraction
    highest_edge: Fraction
    least_gap: Fraction
    end_gap: Fraction
    obstacle_gap: Fraction
    label_width: Fraction
    label_height: Fraction
    label_gap: Fraction
    label_centre: Fraction
    label_lowest: Fraction
    label_highest: Fraction
    projection_from: Fraction
    projection_to: Fraction
    most_projection: Fraction
    hardware_projection: Fraction

    @property
    def neighbour_gap(self) -> Fraction:
        """Least room between neighbours: enough for one label with its margins, too."""
        if not self.label_width:
            return self.least_gap
        return max(self.least_gap, self.label_width + 2 * self.label_gap)


DEFAULT_HANGING_RULES = HangingRules.defaults()
"""The table's own figures."""
