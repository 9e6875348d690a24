"""What is wrong with a plan that was changed by hand, in sentences with numbers."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

from catalogue.exhibits.bays import resting_height
from catalogue.exhibits.findings import Finding
from catalogue.exhibits.hanging_rules import DEFAULT_HANGING_RULES, HangingRules
from catalogue.exhibits.places_for_labels import label_places
from catalogue.exhibits.walls import HangingPlan, Hung, Obstacle, Wall, say
from catalogue.values.lengths import Unit


def check_plan(plan: HangingPlan, unit: Unit = "in") -> tuple[Finding, ...]:
    """Everything in the plan that breaks its rules, wall by wall; nothing for a proposed plan."""
    found: list[Finding] = []
    for wall in plan.walls:
        hung = plan.on(wall.name)
        for one in hung:
            found += _edges(one, unit)
            found += _heights(one, plan.rules, unit)
            found += _obstacles(one, plan.rules, unit)
        found += _neighbours(wall, hung, plan.rules, unit)
    found += _labels(plan, unit)
    found += _order(plan)
    found += _left_out(plan)
    return tuple(found)


def check_walls(
    walls: tuple[Wall, ...], rules: HangingRules = DEFAULT_HANGING_RULES, unit: Unit = "in"
) -> tuple[Finding, ...]:
    """What stands out from the walls so far that people who use a cane may walk into it."""
    found = [
        finding
        for wall in walls
        for obstacle in wall.obstacles
        for finding in _projecting(obstacle, wall, rules, unit)
    ]
    if rules.hardware_projection > rules.most_projection:
        found.append(
            Finding(
                "stands out",
                f"Rods and brackets stand out {say(rules.hardware_projection, unit)}; below"
                f" {say(rules.projection_to, unit)} at most {say(rules.most_projection, unit)} is"
                " allowed.",
                (),
                rules.rule("most_projection").source,
            )
        )
    return tuple(found)


def _projecting(
    obstacle: Obstacle, wall: Wall, rules: HangingRules, unit: Unit
) -> Iterator[Finding]:
    out = Fraction(obstacle.projection or 0)
    low = obstacle.box.y
    if out > rules.most_projection and rules.projection_from < low < rules.projection_to:
        yield Finding(
            "stands out",
            f"The {obstacle.called} on the wall “{wall.name}” begins {say(low, unit)} above the"
            f" floor and stands out {say(out, unit)}; between {say(rules.projection_from, unit)}"
            f" and {say(rules.projection_to, unit)} at most {say(rules.most_projection, unit)} is"
            " allowed, because a cane does not find it.",
            (wall.name,),
            rules.rule("most_projection").source,
        )


def _edges(hung: Hung, unit: Unit) -> Iterator[Finding]:
    """Parts of the quilt beyond the wall."""
    box, wall = hung.box, hung.wall.box
    beyond = {
        "left end": -box.x,
        "right end": box.right - wall.right,
        "floor": -box.y,
        "top": box.top - wall.top,
    }
    for side, by in beyond.items():
        if by > 0:
            yield _finding(
                "off the wall",
                hung,
                f"{hung.quilt.called} reaches {say(by, unit)} beyond the {side} of the wall"
                f" “{hung.wall.name}”.",
            )


def _heights(hung: Hung, rules: HangingRules, unit: Unit) -> Iterator[Finding]:
    """Heights above the floor, measured against the rules."""
    box, name = hung.box, hung.quilt.called
    ceiling = hung.wall.box.top - rules.ceiling_clearance
    if 0 <= box.y < rules.floor_clearance:
        yield _finding(
            "too low",
            hung,
            f"The lower edge of {name} is {say(box.y, unit)} above the floor; at least"
            f" {say(rules.floor_clearance, unit)} is wanted.",
            rules.rule("floor_clearance").source,
        )
    if ceiling < box.top <= hung.wall.box.top:
        yield _finding(
            "too high",
            hung,
            f"Above {name} there is {say(hung.wall.box.top - box.top, unit)} to the top of the"
            f" wall; at least {say(rules.ceiling_clearance, unit)} is wanted.",
            rules.rule("ceiling_clearance").source,
        )
    if box.top > rules.highest_edge:
        yield _finding(
            "out of reach",
            hung,
            f"The upper edge of {name} is {say(box.top, unit)} above the floor, out of reach of"
            f" those who hang it: the limit is {say(rules.highest_edge, unit)}.",
            rules.rule("highest_edge").source,
        )
    yield from _centre(hung, rules, unit)


def _centre(hung: Hung, rules: HangingRules, unit: Unit) -> Iterator[Finding]:
    wished = resting_height(hung.quilt, hung.wall, rules)
    if wished is None or abs(hung.box.y - wished) <= rules.centre_tolerance:
        return
    centre = wished + hung.box.height / 2
    yield _finding(
        "off the centre line",
        hung,
        f"The centre of {hung.quilt.called} is {say(hung.centre, unit)} above the floor and would"
        f" stand at {say(centre, unit)} with the others.",
        rules.rule("centre_line").source,
    )


def _obstacles(hung: Hung, rules: HangingRules, unit: Unit) -> Iterator[Finding]:
    """Obstacles that the quilt covers, hangs above or comes too near to."""
    for obstacle in hung.wall.obstacles:
        name, quilt = f"the {obstacle.called}", hung.quilt.called
        across, up = hung.box.shared(obstacle.box)
        column = obstacle.kept_free_to_the_ceiling
        distance = -across if column else hung.box.distance(obstacle.box)
        if obstacle.may_be_covered:
            continue
        if min(across, up) > 0:
            over = f"by {say(across, unit)} across and {say(up, unit)} up and down"
            yield _finding(_over(obstacle), hung, f"{quilt} covers {name} {over}.")
        elif column and across > 0:
            yield _finding(_over(obstacle), hung, f"{quilt} hangs above {name}: nothing may.")
        elif distance < rules.obstacle_gap:
            yield _finding(
                "too near",
                hung,
                f"{quilt} comes within {say(distance, unit)} of {name}; at least"
                f" {say(rules.obstacle_gap, unit)} is wanted.",
                rules.rule("obstacle_gap").source,
            )


def _over(obstacle: Obstacle) -> str:
    return "over a door" if obstacle.kind in ("door", "opening") else "over an obstacle"


def _neighbours(
    wall: Wall, hung: tuple[Hung, ...], rules: HangingRules, unit: Unit
) -> Iterator[Finding]:
    """Quilts that lie over one another or hang too close, and those too close to the ends."""
    for one, other in combinations(hung, 2):
        both, keys = (
            f"{one.quilt.called} and {other.quilt.called}",
            (one.quilt.key, other.quilt.key),
        )
        across, up = one.box.shared(other.box)
        distance = one.box.distance(other.box)
        if min(across, up) > 0:
            over = f"by {say(across, unit)} across and {say(up, unit)} up and down"
            yield Finding("overlap", f"{both} overlap {over}.", keys)
        elif distance < wall.gap(rules) and not _parted(wall, one, other):
            yield Finding(
                "gap",
                f"Between {both} there is {say(distance, unit)};"
                f" at least {say(wall.gap(rules), unit)} is wanted.",
                keys,
                rules.rule("least_gap").source,
            )
    for one in hung:
        room = min(one.box.x, wall.box.right - one.box.right)
        if 0 <= room < rules.end_gap:
            yield _finding(
                "gap",
                one,
                f"{one.quilt.called} hangs {say(room, unit)} from the end of the wall"
                f" “{wall.name}”; at least {say(rules.end_gap, unit)} is wanted.",
                rules.rule("end_gap").source,
            )


def _parted(wall: Wall, one: Hung, other: Hung) -> bool:
    """True where a door, an opening or heat stands between the two."""
    return any(
        one.box.right <= obstacle.box.x and obstacle.box.right <= other.box.x
        for obstacle in wall.obstacles
        if obstacle.kept_free_to_the_ceiling
    )


def _labels(plan: HangingPlan, unit: Unit) -> Iterator[Finding]:
    """Labels mounted where people who sit or stand cannot read them."""
    rules = plan.rules
    if label_places(plan) and not rules.label_lowest <= rules.label_centre <= rules.label_highest:
        yield Finding(
            "label height",
            f"The centres of the labels are {say(rules.label_centre, unit)} above the floor;"
            f" {say(rules.label_lowest, unit)} to {say(rules.label_highest, unit)} can be read"
            " sitting and standing.",
            (),
            rules.rule("label_lowest").source,
        )


def _order(plan: HangingPlan) -> Iterator[Finding]:
    """Quilts met before one that the exhibit's order puts first."""
    number = {quilt.key: index for index, quilt in enumerate(plan.quilts, 1)}
    for one, other in pairwise(plan.hung):
        first, then = number[one.quilt.key], number[other.quilt.key]
        if first > then:
            yield Finding(
                "order",
                f"{one.quilt.called}, number {first}, is met before {other.quilt.called}, number"
                f" {then}.",
                (one.quilt.key, other.quilt.key),
            )


def _left_out(plan: HangingPlan) -> Iterator[Finding]:
    """Quilts that hang nowhere, unless the proposal has said so of them."""
    placed = {place.quilt for place in plan.places} | {left.quilt for left in plan.unplaced}
    for quilt in plan.quilts:
        if quilt.key not in placed:
            yield Finding("not hung", f"{quilt.called} hangs nowhere.", (quilt.key,))


def _finding(kind: str, hung: Hung, says: str, source: str = "") -> Finding:
    return Finding(kind, says, (hung.quilt.key, hung.wall.name), source)
