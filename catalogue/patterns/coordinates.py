"""Points and sides of a drafting as they are written: exact numbers, and curves drawn from them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import acos, hypot, pi, tan

from catalogue.patterns.drafting import Edge, Point

# Convergents of the two roots: the nearest fractions with three-figure denominators.
ROOTS = {"√2": Fraction(1393, 985), "√3": Fraction(1351, 780)}

_TERM = re.compile(r"([+-]?)(\d+(?:\.\d+)?)?(?:(?<=\d)/(\d+))?(√[23])?(?:(?<=√[23])/(\d+))?")


class DraftError(ValueError):
    """A drafting that cannot be drawn as it is written."""


def read_number(text: str) -> Fraction:
    """The exact value of a number of the notation, roots replaced by their fractions."""
    total, at = Fraction(0), 0
    while at < len(text):
        term = _TERM.match(text, at)
        if not term or term.end() == at or not (term[2] or term[4]) or (at and not term[1]):
            break
        value = Fraction(term[2] or 1) / int(term[3] or 1) * ROOTS.get(term[4], Fraction(1))
        total += (-1 if term[1] == "-" else 1) * value / int(term[5] or 1)
        at = term.end()
    if not text or at < len(text):
        raise DraftError(f'"{text}" is not a number of the drafting notation, such as 3/2 or 1+√2.')
    return total


def read_point(text: str) -> Point:
    across, comma, down = text.partition(",")
    if not comma:
        raise DraftError(f'"{text}" is not a point: write across,down such as 1,3/2.')
    return read_number(across), read_number(down)


def rounded(start: Point, tangent: Point, end: Point) -> Edge:
    """The curve whose end tangents meet in `tangent`: an arc where both are equally long."""
    share = _handle_share(start, tangent, end)

    def towards(point: Point) -> Point:
        return (
            point[0] + (tangent[0] - point[0]) * share,
            point[1] + (tangent[1] - point[1]) * share,
        )

    return Edge(start, end, (towards(start), towards(end)))


def _handle_share(start: Point, tangent: Point, end: Point) -> Fraction:
    """How far the handles reach towards the tangents' meeting point: 4/3 tan(t/4) / tan(t/2).

    That is the usual cubic for an arc of angle t, within 0.03 % of the radius up to a quarter
    circle (common practice in drawing, no source); 2/3 is its limit for a flat arc.
    """
    ux, uy = float(start[0] - tangent[0]), float(start[1] - tangent[1])
    vx, vy = float(end[0] - tangent[0]), float(end[1] - tangent[1])
    lengths = hypot(ux, uy) * hypot(vx, vy)
    if lengths == 0:
        raise DraftError("A rounding needs a tangent point away from both of its corners.")
    arc = pi - acos(max(-1.0, min(1.0, (ux * vx + uy * vy) / lengths)))
    share = 2 / 3 if arc < 1e-6 else 4 / 3 * tan(arc / 4) / tan(arc / 2)
    return Fraction(round(share * 10_000), 10_000)


def circle(middle: Point, radius: Fraction) -> Iterator[Edge]:
    x, y = middle
    corners = [(x, y - radius), (x + radius, y), (x, y + radius), (x - radius, y)]
    tangents = [(1, -1), (1, 1), (-1, 1), (-1, -1)]
    for quarter, (right, down) in enumerate(tangents):
        tangent = (x + right * radius, y + down * radius)
        yield rounded(corners[quarter], tangent, corners[(quarter + 1) % 4])
