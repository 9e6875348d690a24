"""Walls with what stands in the way, quilts to hang on them, and the plan of what hangs where.

All lengths are exact inches. On a wall, x runs from its left end as one faces it, y from the floor
up. Width is across, length is top to bottom.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, get_args

from catalogue.exhibits.hanging_rules import DEFAULT_HANGING_RULES, HangingRules
from catalogue.values.lengths import Unit, format_length, quoted

Number = Fraction | float | int

ObstacleKind = Literal[
    "door", "opening", "window", "outlet", "switch", "radiator", "vent", "case", "sign", "other"
]
# Nothing hangs over a way through, nor above heat: conservators of the Textile Museum and the
# International Quilt Study Center (Lenkowsky, The care and display of art quilts, SAQA).
KEPT_FREE_TO_THE_CEILING: frozenset[ObstacleKind] = frozenset(
    ("door", "opening", "radiator", "vent")
)


class WallError(ValueError):
    """A wall, an obstacle or a quilt whose measurements cannot be; the message quotes them."""


class PlanError(ValueError):
    """A plan that names a quilt or a wall it does not have, or one of them twice."""


def exact(value: Number, what: str, *, zero: bool = False) -> Fraction:
    """The length as an exact fraction; raises WallError unless positive, or `zero` where it may."""
    if isinstance(value, bool) or not math.isfinite(value):
        raise WallError(f"The {what} is not a length: {quoted(value)}.")
    length = Fraction(value)
    if length < 0 or (length == 0 and not zero):
        raise WallError(f"The {what} cannot be {float(length):g} in.")
    return length


def say(inches: Fraction, unit: Unit) -> str:
    """A length as it stands in a sentence: "12½ in", "31.8 cm"."""
    return format_length(inches, unit, typographic=True)


@dataclass(frozen=True)
class Box:
    """An upright rectangle on a wall, by its left and lower edges and its two sides."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction

    @property
    def right(self) -> Fraction:
        """Its right edge."""
        return self.x + self.width

    @property
    def top(self) -> Fraction:
        """Its upper edge."""
        return self.y + self.height

    def grown(self, by: Fraction) -> Box:
        """The box with `by` added on every side."""
        return Box(self.x - by, self.y - by, self.width + 2 * by, self.height + 2 * by)

    def shared(self, other: Box) -> tuple[Fraction, Fraction]:
        """How far the two overlap across and up; negative is the distance that parts them."""
        across = min(self.right, other.right) - max(self.x, other.x)
        return across, min(self.top, other.top) - max(self.y, other.y)

    def meets(self, other: Box) -> bool:
        """True where the two share more than an edge."""
        return min(self.shared(other)) > 0

    def distance(self, other: Box) -> Fraction:
        """The larger of the distances that part the two across and up; 0 where they meet."""
        return max(-min(self.shared(other)), Fraction(0))


@dataclass(frozen=True)
class Obstacle:
    """Something on or in the wall that quilts keep clear of.

    `projection` is how far it stands out, None where that was not measured; `may_be_covered` lets
    quilts hang over it (a disused outlet). Raises WallError for measurements that cannot be.
    """

    kind: ObstacleKind
    x: Number
    y: Number
    width: Number
    height: Number
    name: str = ""
    projection: Number | None = None
    may_be_covered: bool = False

    def __post_init__(self) -> None:
        if self.kind not in get_args(ObstacleKind):
            raise WallError(f"{quoted(self.kind)} is not a kind of obstacle.")
        exact(self.x, f"distance of the {self.called}", zero=True)
        exact(self.y, f"height of the {self.called} above the floor", zero=True)
        exact(self.width, f"width of the {self.called}")
        exact(self.height, f"height of the {self.called}")
        if self.projection is not None:
            exact(self.projection, f"projection of the {self.called}", zero=True)

    @property
    def box(self) -> Box:
        """Where it is on the wall."""
        return Box(Fraction(self.x), Fraction(self.y), Fraction(self.width), Fraction(self.height))

    @property
    def called(self) -> str:
        """Its own name, or its kind."""
        return self.name or ("obstacle" if self.kind == "other" else self.kind)

    @property
    def kept_free_to_the_ceiling(self) -> bool:
        """True where nothing may hang above it either."""
        return self.kind in KEPT_FREE_TO_THE_CEILING and not self.may_be_covered


@dataclass(frozen=True)
class Wall:
    """One stretch of wall between two corners.

    `least_gap` overrules the rules' least room between neighbours on this wall. Raises WallError
    where an obstacle lies outside the wall.
    """

    name: str
    length: Number
    height: Number
    obstacles: tuple[Obstacle, ...] = ()
    least_gap: Number | None = None

    def __post_init__(self) -> None:
        length = exact(self.length, f"length of the wall {quoted(self.name)}")
        height = exact(self.height, f"height of the wall {quoted(self.name)}")
        if self.least_gap is not None:
            exact(self.least_gap, f"gap on the wall {quoted(self.name)}", zero=True)
        for obstacle in self.obstacles:
            if obstacle.box.right > length or obstacle.box.top > height:
                raise WallError(
                    f"The {obstacle.called} reaches {float(obstacle.box.right):g} in along and"
                    f" {float(obstacle.box.top):g} in up, beyond the wall {quoted(self.name)} of"
                    f" {float(length):g} by {float(height):g} in."
                )

    @property
    def box(self) -> Box:
        """The whole wall."""
        return Box(Fraction(0), Fraction(0), Fraction(self.length), Fraction(self.height))

    def gap(self, rules: HangingRules) -> Fraction:
        """Least room between neighbours here."""
        return rules.neighbour_gap if self.least_gap is None else Fraction(self.least_gap)


@dataclass(frozen=True)
class QuiltToHang:
    """A quilt as the wall sees it; its weight is unknown, so people judge what holds it."""

    key: str
    title: str
    width: Number
    length: Number

    def __post_init__(self) -> None:
        called = quoted(self.title or self.key)
        exact(self.width, f"width of {called}")
        exact(self.length, f"length of {called}")

    @property
    def called(self) -> str:
        """Its title in quotation marks, or its key."""
        return f"“{self.title}”" if self.title else self.key


@dataclass(frozen=True)
class Place:
    """Where one quilt hangs: its left edge along the wall and its lower edge above the floor."""

    quilt: str
    wall: str
    x: Number
    bottom: Number


@dataclass(frozen=True)
class Hung:
    """A quilt in its place."""

    quilt: QuiltToHang
    wall: Wall
    box: Box

    @property
    def centre(self) -> Fraction:
        """Height of its centre above the floor."""
        return self.box.y + self.box.height / 2


@dataclass(frozen=True)
class Unplaced:
    """A quilt for which the proposal found no place, and why, in a sentence."""

    quilt: str
    says: str


@dataclass(frozen=True)
class HangingPlan:
    """What hangs where, with the walls, the quilts in the exhibit's order and the rules it heeds.

    `remarks` are sentences on the proposal that need no action. Raises PlanError where a place
    names what is not there, or a name stands twice.
    """

    walls: tuple[Wall, ...]
    quilts: tuple[QuiltToHang, ...]
    rules: HangingRules = DEFAULT_HANGING_RULES
    places: tuple[Place, ...] = ()
    unplaced: tuple[Unplaced, ...] = ()
    remarks: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        _refuse_twice("wall", (wall.name for wall in self.walls))
        _refuse_twice("quilt", (quilt.key for quilt in self.quilts))
        _refuse_twice("place of the quilt", (place.quilt for place in self.places))
        known = {quilt.key for quilt in self.quilts}, {wall.name for wall in self.walls}
        for place in self.places:
            if place.quilt not in known[0] or place.wall not in known[1]:
                raise PlanError(
                    f"The plan hangs {quoted(place.quilt)} on {quoted(place.wall)},"
                    " and does not have both."
                )

    def wall(self, name: str) -> Wall:
        """The wall of that name; raises PlanError where there is none."""
        for wall in self.walls:
            if wall.name == name:
                return wall
        raise PlanError(f"The plan has no wall {quoted(name)}.")

    @property
    def hung(self) -> tuple[Hung, ...]:
        """Every quilt that has a place, as one walks along the walls from left to right."""
        return tuple(hung for wall in self.walls for hung in self.on(wall.name))

    def on(self, wall_name: str) -> tuple[Hung, ...]:
        """The quilts of one wall from left to right."""
        wall = self.wall(wall_name)
        quilts = {quilt.key: quilt for quilt in self.quilts}
        found = [
            _hung(quilts[place.quilt], wall, place)
            for place in self.places
            if place.wall == wall_name
        ]
        return tuple(sorted(found, key=lambda hung: (hung.box.x, hung.box.y)))

    def moved(self, quilt: str, wall: str, x: Number, bottom: Number) -> HangingPlan:
        """The plan with one quilt put elsewhere; what the proposal said of it is dropped."""
        others = tuple(place for place in self.places if place.quilt != quilt)
        unplaced = tuple(left for left in self.unplaced if left.quilt != quilt)
        return replace(
            self, places=(*others, Place(quilt, wall, x, bottom)), unplaced=unplaced, remarks=()
        )

    def without(self, quilt: str) -> HangingPlan:
        """The plan with one quilt taken down."""
        return replace(self, places=tuple(p for p in self.places if p.quilt != quilt), remarks=())


def _hung(quilt: QuiltToHang, wall: Wall, place: Place) -> Hung:
    size = Fraction(quilt.width), Fraction(quilt.length)
    return Hung(quilt, wall, Box(Fraction(place.x), Fraction(place.bottom), *size))


def _refuse_twice(what: str, names: Iterable[str]) -> None:
    for name, count in Counter(names).items():
        if count > 1:
            raise PlanError(f"The {what} {quoted(name)} stands in the plan {count} times.")
