"""Where on a wall a quilt may hang: its height, and the stretches that obstacles leave free."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from catalogue.exhibits.hanging_rules import HangingRules
from catalogue.exhibits.walls import Box, QuiltToHang, Wall

Span = tuple[Fraction, Fraction]
"""From and to, both included, in inches from the left end of the wall."""


def resting_height(quilt: QuiltToHang, wall: Wall, rules: HangingRules) -> Fraction | None:
    """Height of the lower edge above the floor, None where the wall is too low for the quilt.

    The centre stands on the centre line; it rises where the lower edge would come too near the
    floor and sinks where the upper edge would come too near the ceiling or out of reach.
    """
    length = Fraction(quilt.length)
    highest = highest_edge(wall, rules) - length
    if highest < rules.floor_clearance:
        return None
    return min(max(rules.centre_line - length / 2, rules.floor_clearance), highest)


def highest_edge(wall: Wall, rules: HangingRules) -> Fraction:
    """How high above the floor an upper edge may be on this wall."""
    return min(wall.box.top - rules.ceiling_clearance, rules.highest_edge)


@dataclass(frozen=True)
class Bay:
    """A stretch of wall that nothing crosses: its bare ends, and how near quilts may come."""

    wall: Wall
    bare: Span
    usable: Span


def bays_of(wall: Wall, rules: HangingRules) -> Iterator[Bay]:
    """The stretches between the ends of the wall and what is kept free up to the ceiling."""
    first, last = rules.end_gap, wall.box.right - rules.end_gap
    left, nearest = Fraction(0), first
    columns = [o.box for o in wall.obstacles if o.kept_free_to_the_ceiling]
    for box in sorted(columns, key=lambda box: (box.x, box.right)):
        yield Bay(wall, (left, box.x), (nearest, min(box.x - rules.obstacle_gap, last)))
        left = max(left, box.right)
        nearest = max(left + rules.obstacle_gap, first)
    yield Bay(wall, (left, wall.box.right), (nearest, last))


def left_edges(quilt: QuiltToHang, bay: Bay, rules: HangingRules) -> list[Span]:
    """Where the quilt's left edge may be in the bay: closed spans from left to right."""
    height = resting_height(quilt, bay.wall, rules)
    if height is None:
        return []
    width = Fraction(quilt.width)
    spans = [(bay.usable[0], bay.usable[1] - width)]
    for obstacle in bay.wall.obstacles:
        taken = obstacle.box.grown(rules.obstacle_gap)
        band = Box(taken.x, height, taken.width, Fraction(quilt.length))
        if not obstacle.may_be_covered and taken.meets(band):
            spans = [
                part
                for low, high in spans
                for part in ((low, min(high, taken.x - width)), (max(low, taken.right), high))
            ]
        spans = [(low, high) for low, high in spans if low <= high]
    return spans
