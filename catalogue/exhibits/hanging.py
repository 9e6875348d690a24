"""A simple plan of a hanging: in the exhibit's order, with even gaps, clear of every obstacle.

Walls are cut into bays by whatever must stay free up to the ceiling. The quilts go into the bays
in order, each as far left as it may; that finds a place for all of them wherever any plan in this
order has one, because a quilt further left never takes room from those after it. The gap is then
widened for as long as everything still fits, and the quilts of each bay are spaced evenly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from catalogue.exhibits.bays import Bay, bays_of, highest_edge, left_edges, resting_height
from catalogue.exhibits.hanging_rules import DEFAULT_HANGING_RULES, HangingRules
from catalogue.exhibits.places_for_labels import label_places
from catalogue.exhibits.spacing import Row
from catalogue.exhibits.walls import HangingPlan, Place, QuiltToHang, Unplaced, Wall, say
from catalogue.values.lengths import Unit

_EIGHTHS_TRIED = 8 * 240  # no gap grows by more than 20 ft


def plan_hanging(
    walls: Sequence[Wall],
    quilts: Sequence[QuiltToHang],
    rules: HangingRules = DEFAULT_HANGING_RULES,
    unit: Unit = "in",
) -> HangingPlan:
    """The proposed plan; quilts for which there is no place are named in `unplaced`, with why.

    Walls are filled in the order given, quilts in the exhibit's. `check_plan` finds nothing in the
    result. Raises PlanError where two walls or two quilts have the same name.
    """
    bays = [bay for wall in walls for bay in bays_of(wall, rules)]
    packing = _Packing(tuple(bays), tuple(quilts), rules)
    found = packing.widest()
    places: list[Place] = []
    for number, members in groupby((i for i in range(len(quilts)) if i in found), found.get):
        if number is not None:
            places += packing.spaced(number, tuple(members))
    unplaced = tuple(
        Unplaced(quilt.key, _why_not(quilt, walls, bays, rules, unit))
        for index, quilt in enumerate(quilts)
        if index not in found
    )
    plan = HangingPlan(tuple(walls), tuple(quilts), rules, tuple(places), unplaced)
    return replace(plan, remarks=tuple(_remarks(plan, unit)))


@dataclass(frozen=True)
class _Packing:
    """Bays in walking order and quilts in the exhibit's."""

    bays: tuple[Bay, ...]
    quilts: tuple[QuiltToHang, ...]
    rules: HangingRules

    def widest(self) -> dict[int, int]:
        """The bay of each quilt that has a place, with the gaps as wide as they all allow."""
        found = self.packed(Fraction(0))
        low, high = 0, _EIGHTHS_TRIED
        while low < high:
            eighths = (low + high + 1) // 2
            wider = self.packed(Fraction(eighths, 8))
            if wider.keys() == found.keys():
                low, found = eighths, wider
            else:
                high = eighths - 1
        return found

    def packed(self, extra: Fraction) -> dict[int, int]:
        """The bay of each quilt, each as far left as it may be with `extra` added to every gap."""
        found: dict[int, int] = {}
        bay, free = 0, None
        for index, quilt in enumerate(self.quilts):
            spot = self._first_spot(quilt, bay, free)
            if spot is None:
                continue
            bay, x = spot
            found[index] = bay
            free = x + Fraction(quilt.width) + self.bays[bay].wall.gap(self.rules) + extra
        return found

    def _first_spot(
        self, quilt: QuiltToHang, bay: int, free: Fraction | None
    ) -> tuple[int, Fraction] | None:
        """The first bay from `bay` on that takes the quilt, and how far left it may hang there."""
        for number in range(bay, len(self.bays)):
            least = free if number == bay else None
            for low, high in left_edges(quilt, self.bays[number], self.rules):
                x = low if least is None else max(low, least)
                if x <= high:
                    return number, x
        return None

    def spaced(self, number: int, members: Sequence[int]) -> list[Place]:
        """The quilts of one bay as evenly as its obstacles allow."""
        bay, quilts = self.bays[number], [self.quilts[index] for index in members]
        return [
            Place(quilt.key, bay.wall.name, x, height)
            for quilt, x in zip(quilts, Row(bay, quilts, self.rules).spaced(), strict=True)
            if (height := resting_height(quilt, bay.wall, self.rules)) is not None
        ]


def _why_not(
    quilt: QuiltToHang,
    walls: Sequence[Wall],
    bays: Sequence[Bay],
    rules: HangingRules,
    unit: Unit,
) -> str:
    """Why the quilt has no place: too long, too wide, or no room left in this order."""
    if not walls:
        return f"There is no wall for {quilt.called}."
    room = max(highest_edge(wall, rules) for wall in walls) - rules.floor_clearance
    if room < Fraction(quilt.length):
        return (
            f"{quilt.called} is {say(Fraction(quilt.length), unit)} long and fits nowhere:"
            f" between floor and ceiling the walls leave {say(max(room, Fraction(0)), unit)}."
        )
    if not any(left_edges(quilt, bay, rules) for bay in bays):
        return (
            f"{quilt.called} is {say(Fraction(quilt.width), unit)} wide and fits nowhere: no wall"
            " has so wide a stretch free of obstacles at its height."
            + _kept_away_by(quilt, bays, rules)
        )
    return (
        f"{quilt.called}, {say(Fraction(quilt.width), unit)} wide, would fit on an empty wall, but"
        " the quilts before it leave no room for it in the exhibit's order."
    )


def _kept_away_by(quilt: QuiltToHang, bays: Sequence[Bay], rules: HangingRules) -> str:
    """The one obstacle that alone keeps the quilt from some wall, as a sentence; "" if none."""
    for bay in bays:
        for obstacle in bay.wall.obstacles:
            if obstacle.kept_free_to_the_ceiling:
                continue
            others = tuple(other for other in bay.wall.obstacles if other is not obstacle)
            if left_edges(quilt, replace(bay, wall=replace(bay.wall, obstacles=others)), rules):
                return f" Only the {obstacle.called} keeps it from the wall “{bay.wall.name}”."
    return ""


def _remarks(plan: HangingPlan, unit: Unit) -> Iterator[str]:
    """What a person should know of the proposal although nothing is wrong with it."""
    rules = plan.rules
    for hung in plan.hung:
        off = hung.centre - rules.centre_line
        if off:
            bound = (
                f"keep its lower edge {say(rules.floor_clearance, unit)} above the floor"
                if off > 0
                else f"keep its upper edge at {say(hung.box.top, unit)}"
            )
            yield (
                f"{hung.quilt.called} hangs with its centre {say(hung.centre, unit)} above the"
                f" floor, {say(abs(off), unit)} {'above' if off > 0 else 'below'} the line, to"
                f" {bound}."
            )
    labelled = {label.quilt for label in label_places(plan)}
    for hung in plan.hung:
        if rules.label_width and hung.quilt.key not in labelled:
            yield f"Beside {hung.quilt.called} there is no room for its label."
