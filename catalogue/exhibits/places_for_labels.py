"""Where the object labels hang: beside each quilt, on its right where there is room, else left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalogue.exhibits.hanging_rules import HangingRules
from catalogue.exhibits.walls import Box, HangingPlan, Hung, Wall


@dataclass(frozen=True)
class LabelPlace:
    """The label of one quilt on its wall."""

    quilt: str
    wall: str
    box: Box


def label_places(plan: HangingPlan) -> tuple[LabelPlace, ...]:
    """Every label that finds room beside its quilt; a quilt without room has none here."""
    return tuple(
        place for wall in plan.walls for place in _on_wall(wall, plan.on(wall.name), plan.rules)
    )


def _on_wall(wall: Wall, hung: Sequence[Hung], rules: HangingRules) -> Iterator[LabelPlace]:
    if not rules.label_width:
        return
    taken = [one.box for one in hung] + [obstacle.box for obstacle in wall.obstacles]
    for one in hung:
        for box in _beside(one.box, rules):
            inside = box.x >= 0 and box.right <= wall.box.right and box.top <= wall.box.top
            if inside and not any(box.meets(other) for other in taken):
                taken.append(box)
                yield LabelPlace(one.quilt.key, wall.name, box)
                break


def _beside(quilt: Box, rules: HangingRules) -> tuple[Box, Box]:
    """The box of a label to the right of the quilt, and to the left."""
    low = rules.label_centre - rules.label_height / 2
    size = rules.label_width, rules.label_height
    right = Box(quilt.right + rules.label_gap, low, *size)
    return right, Box(quilt.x - rules.label_gap - rules.label_width, low, *size)
