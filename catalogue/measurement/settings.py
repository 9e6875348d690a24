"""Settings as geometry: what so many columns and rows of a block measure, in each way of setting.

A block set on point is its side times the square root of two across; pieces and sizes follow.
"""

from dataclasses import dataclass
from enum import Enum
from math import sqrt
from typing import Final

from catalogue.measurement.layouts import (
    CENTRE_ON_POINT,
    COLUMNS_ON_POINT,
    CORNERSTONE_CENTRED,
    FLAT_SIDE_UP,
    FLOATED,
    FRAMED_BLOCKS,
    OUTSIDE_STRIPS,
    POINTS_UP,
    RECTANGULAR_BLOCKS,
    Sashing,
    Setting,
)

ROOT_2: Final = sqrt(2)
ROOT_3: Final = sqrt(3)


class Shape(Enum):
    """The shape of the thing that repeats, and so how its two sizes hang together."""

    SQUARE = "square"
    RECTANGLE = "rectangle"
    HEXAGON = "hexagon"  # length = width x root 3 / 2: flat to flat from point to point
    BAR = "bar"  # as wide as measured, as long as the field


@dataclass(frozen=True, slots=True)
class Axis:
    """The size along one axis: count x (block b + sash s) + end_block b + end_sash s.

    b is the block's own size along that axis (its width for squares and hexagons), s the sashing.
    `single` axes hold exactly one.
    """

    block: float
    sash: float = 0.0
    end_block: float = 0.0
    end_sash: float = 0.0
    single: bool = False

    def blocks(self, count: int) -> float:
        """How many times b lies along the axis."""
        return count * self.block + self.end_block

    def sashes(self, count: int) -> float:
        """How many times s lies along the axis."""
        return count * self.sash + self.end_sash


@dataclass(frozen=True, slots=True)
class Plan:
    """One way of setting blocks: its name in the contract and its geometry along both axes.

    `share` is the prior weight among all plans: judgement (common practice, no source), flat
    enough that the readings decide. `fewest` is the fewest columns and rows that show the setting.
    """

    setting: Setting
    sashing: Sashing
    details: tuple[str, ...]
    shape: Shape
    width: Axis
    length: Axis
    share: float
    fewest: tuple[int, int] = (2, 2)
    floats: bool = False

    @property
    def sashed(self) -> bool:
        """Whether strips stand between the blocks."""
        return self.sashing != "none"


_EDGE = Axis(1)
_BETWEEN = Axis(1, 1, 0, -1)
_FRAMED = Axis(1, 1, 0, 1)
_OWN_FRAMES = Axis(1, 2)
_POINT = Axis(ROOT_2)
_POINT_BETWEEN = Axis(ROOT_2, ROOT_2, 0, -ROOT_2)
_POINT_FRAMED = Axis(ROOT_2, ROOT_2)
_ONE = Axis(1, single=True)
_ONE_ON_POINT = Axis(ROOT_2, single=True)
_HEXAGONS_LEVEL = Axis(ROOT_3 / 2)
_HEXAGONS_NESTED = Axis(0.75, 0, 0.25)


def _straight(sashing: Sashing, axis: Axis, share: float, *details: str) -> list[Plan]:
    """A straight set of square and of rectangular blocks."""
    oblong = (*details, RECTANGULAR_BLOCKS)
    return [
        Plan("straight", sashing, details, Shape.SQUARE, axis, axis, share * 0.8, (1, 1)),
        Plan("straight", sashing, oblong, Shape.RECTANGLE, axis, axis, share * 0.2, (1, 1)),
    ]


def _on_point(sashing: Sashing, axis: Axis, share: float, *details: str) -> list[Plan]:
    """An on-point set, plain and floated."""
    floated = (*details, FLOATED)
    return [
        Plan("on point", sashing, details, Shape.SQUARE, axis, axis, share),
        Plan("on point", sashing, floated, Shape.SQUARE, axis, axis, share / 8, floats=True),
    ]


def _strippy(sashing: Sashing, across: Axis, share: float) -> list[Plan]:
    """A strippy of square blocks, and one of oblong blocks such as flying geese."""
    details = (OUTSIDE_STRIPS,) if sashing == "framed" else ()
    oblong = (*details, RECTANGULAR_BLOCKS)
    return [
        Plan("strippy", sashing, details, Shape.SQUARE, across, _EDGE, share * 0.6, (2, 2)),
        Plan("strippy", sashing, oblong, Shape.RECTANGLE, across, _EDGE, share * 0.4, (2, 2)),
    ]


def _strippy_on_point(sashing: Sashing, across: Axis, share: float) -> Plan:
    details = (COLUMNS_ON_POINT, OUTSIDE_STRIPS) if sashing == "framed" else (COLUMNS_ON_POINT,)
    return Plan("strippy", sashing, details, Shape.SQUARE, across, _POINT, share, (2, 2))


PLANS: Final[tuple[Plan, ...]] = (
    *_straight("none", _EDGE, 0.14),
    *_straight("between", _BETWEEN, 0.09),
    *_straight("framed", _FRAMED, 0.07),
    *_straight("framed", _OWN_FRAMES, 0.03, FRAMED_BLOCKS),
    *_on_point("none", _POINT, 0.09),
    *_on_point("between", _POINT_BETWEEN, 0.04),
    *_on_point("framed", _POINT_FRAMED, 0.04),
    Plan(
        "on point",
        "between",
        (CORNERSTONE_CENTRED,),
        Shape.SQUARE,
        _POINT_FRAMED,
        _POINT_FRAMED,
        0.015,
    ),
    *_strippy("between", _BETWEEN, 0.025),
    *_strippy("framed", _FRAMED, 0.02),
    _strippy_on_point("between", Axis(ROOT_2, 1, 0, -1), 0.025),
    _strippy_on_point("framed", Axis(ROOT_2, 1, 0, 1), 0.02),
    Plan("bars", "none", (), Shape.BAR, _EDGE, _ONE, 0.06, (3, 1)),
    Plan("zigzag", "none", (), Shape.SQUARE, _POINT, _POINT, 0.035),
    Plan("medallion", "none", (), Shape.SQUARE, _ONE, _ONE, 0.04, (1, 1)),
    Plan("medallion", "none", (), Shape.RECTANGLE, _ONE, _ONE, 0.01, (1, 1)),
    Plan(
        "medallion",
        "none",
        (CENTRE_ON_POINT,),
        Shape.SQUARE,
        _ONE_ON_POINT,
        _ONE_ON_POINT,
        0.03,
        (1, 1),
    ),
    Plan("one-patch", "none", (), Shape.SQUARE, _EDGE, _EDGE, 0.06, (3, 3)),
    Plan("one-patch", "none", (RECTANGULAR_BLOCKS,), Shape.RECTANGLE, _EDGE, _EDGE, 0.012, (3, 3)),
    Plan("hexagon", "none", (POINTS_UP,), Shape.HEXAGON, _HEXAGONS_LEVEL, _HEXAGONS_NESTED, 0.04),
    Plan(
        "hexagon", "none", (FLAT_SIDE_UP,), Shape.HEXAGON, _HEXAGONS_NESTED, _HEXAGONS_LEVEL, 0.025
    ),
)
