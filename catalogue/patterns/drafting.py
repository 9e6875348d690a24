"""What a drafting is: patches with exact corners, how they tile the block, and its symmetries."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import pairwise
from math import floor
from typing import Any

Point = tuple[Fraction, Fraction]
Move = Callable[[Any], Any]  # a rigid move of a point, whatever numbers its place is given in

OFFSET = 0.137


class Role(StrEnum):
    """The part a patch plays in the colouring of its block."""

    BACKGROUND = "background"
    LIGHT = "light"
    MEDIUM = "medium"
    DARK = "dark"
    ACCENT = "accent"


class Position(StrEnum):
    """The eight positions of a square: turns are clockwise, mirroring comes first."""

    AS_DRAFTED = "as drafted"
    TURNED_90 = "90"
    TURNED_180 = "180"
    TURNED_270 = "270"
    MIRRORED = "mirrored"
    MIRRORED_90 = "mirrored, 90"
    MIRRORED_180 = "mirrored, 180"
    MIRRORED_270 = "mirrored, 270"


@dataclass(frozen=True)
class Edge:
    """One side of a patch: straight, or a cubic curve drawn by its two handles."""

    start: Point
    end: Point
    handles: tuple[Point, Point] | None = None

    def reversed(self) -> Edge:
        """The same side walked the other way."""
        handles = (self.handles[1], self.handles[0]) if self.handles else None
        return Edge(self.end, self.start, handles)

    def moved(self, move: Move) -> Edge:
        """The side with `move` applied to every point of it."""
        handles = (move(self.handles[0]), move(self.handles[1])) if self.handles else None
        return Edge(move(self.start), move(self.end), handles)

    def swept_area(self) -> Fraction:
        """Exact area between the side and the origin, positive when walked clockwise."""
        first, last = self.start, self.end
        if self.handles is None:
            return _cross(first, last) / 2
        one, two = self.handles
        # Green's theorem over a cubic Bézier curve, exact in its control points.
        return (
            6 * _cross(first, one)
            + 3 * _cross(first, two)
            + _cross(first, last)
            + 3 * _cross(one, two)
            + 3 * _cross(one, last)
            + 6 * _cross(two, last)
        ) / 20

    def points(self, steps: int = 12) -> Iterator[tuple[float, float]]:
        """Points along the side, its end left out: the start alone where it is straight."""
        if self.handles is None:
            yield float(self.start[0]), float(self.start[1])
            return
        controls = [(float(x), float(y)) for x, y in (self.start, *self.handles, self.end)]
        for step in range(steps):
            yield _on_curve(controls, step / steps)


@dataclass(frozen=True)
class Patch:
    """One piece of cloth in its place; `laid` marks a shape laid on top of the pieced ground."""

    role: Role
    edges: tuple[Edge, ...]
    laid: bool = False

    @property
    def corners(self) -> tuple[Point, ...]:
        """The corners in the order in which the edges are walked."""
        return tuple(edge.start for edge in self.edges)

    @property
    def area(self) -> Fraction:
        """Area as a share of the square on the block's width, exact for curves too."""
        return abs(_signed_area(self.edges))

    def moved(self, move: Move) -> Patch:
        """The patch with `move` applied, its edges again clockwise on the page."""
        return Patch(self.role, clockwise(edge.moved(move) for edge in self.edges), self.laid)

    def outline(self, steps: int = 12) -> list[tuple[float, float]]:
        """The outline as a closed run of points, curves in `steps` pieces each."""
        return [point for edge in self.edges for point in edge.points(steps)]


@dataclass(frozen=True)
class Draft:
    """A drafted block: its patches in units of the block's width, `height` to the same unit.

    `divisions` is the number of grid divisions along the top, None where no grid underlies it.
    """

    patches: tuple[Patch, ...]
    height: Fraction = Fraction(1)
    divisions: int | None = None

    @property
    def pieced(self) -> tuple[Patch, ...]:
        """The patches that are sewn edge to edge and cover the block."""
        return tuple(patch for patch in self.patches if not patch.laid)

    @property
    def laid(self) -> tuple[Patch, ...]:
        """The shapes laid on top, in the order in which they are applied."""
        return tuple(patch for patch in self.patches if patch.laid)

    @property
    def roles(self) -> tuple[Role, ...]:
        """The colour roles that the block uses, in the order of `Role`."""
        used = {patch.role for patch in self.patches}
        return tuple(role for role in Role if role in used)


def clockwise(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    """The closed run of edges, turned round where needed so that it goes clockwise on the page."""
    run = tuple(edges)
    if _signed_area(run) >= 0:
        return run
    return tuple(edge.reversed() for edge in reversed(run))


def first_fault(draft: Draft) -> Point | None:
    """A point at which the pieced patches fail to tile the block, None where they tile it exactly.

    The outlines of patches that cover a block once cancel: on every line that carries edges, as
    many start as end at each point, once the block's own outline is walked the other way. No area
    is compared and nothing is rounded; a curve cancels only with itself walked backwards.
    """
    balance: Counter[tuple[object, Point]] = Counter()
    for edge in _outlines(draft):
        carrier = _carrier(edge)
        balance[carrier, edge.start] += 1
        balance[carrier, edge.end] -= 1
    open_points = [point for (_, point), count in balance.items() if count]
    return min(open_points) if open_points else None


def symmetries(draft: Draft) -> frozenset[Position]:
    """The positions of the square (of the oblong: four of them) that leave the block unchanged."""
    shapes = [(patch.role, patch.laid, _sides(patch)) for patch in draft.patches]
    all_moves = moves(draft.height)
    whole = _canonical(shapes, all_moves[Position.AS_DRAFTED])
    return frozenset(
        position for position, move in all_moves.items() if _canonical(shapes, move) == whole
    )


def moves(height: Fraction = Fraction(1)) -> dict[Position, Move]:
    """The rigid moves that bring a block of this height back onto its own outline, by position."""
    all_eight: dict[Position, Move] = {
        Position.AS_DRAFTED: lambda p: p,
        Position.TURNED_90: lambda p: (1 - p[1], p[0]),
        Position.TURNED_180: lambda p: (1 - p[0], height - p[1]),
        Position.TURNED_270: lambda p: (p[1], 1 - p[0]),
        Position.MIRRORED: lambda p: (1 - p[0], p[1]),
        Position.MIRRORED_90: lambda p: (1 - p[1], 1 - p[0]),
        Position.MIRRORED_180: lambda p: (p[0], height - p[1]),
        Position.MIRRORED_270: lambda p: (p[1], p[0]),
    }
    if height == 1:
        return all_eight
    quarter_turned = {"90", "270", "mirrored, 90", "mirrored, 270"}
    return {
        position: move for position, move in all_eight.items() if position not in quarter_turned
    }


def grid_of_roles(draft: Draft, across: int) -> tuple[tuple[Role, ...], ...]:
    """The colour role at the middle of each cell of a plain grid, `across` cells to the width.

    Shapes laid on top hide what is under them. Raises ValueError where `across` is below 1.
    """
    if across < 1:
        raise ValueError(f"A grid needs at least one cell across, not {across}.")
    down = max(1, round(across * draft.height))
    outlines = [(patch.role, patch.outline()) for patch in reversed(draft.patches)]
    return tuple(
        tuple(
            _role_at(outlines, (column + 0.5) / across, (row + 0.5) * float(draft.height) / down)
            for column in range(across)
        )
        for row in range(down)
    )


def _cross(one: Point, other: Point) -> Fraction:
    return one[0] * other[1] - one[1] * other[0]


def _signed_area(edges: Iterable[Edge]) -> Fraction:
    return sum((edge.swept_area() for edge in edges), Fraction(0))


def _on_curve(controls: list[tuple[float, float]], at: float) -> tuple[float, float]:
    points = controls
    while len(points) > 1:
        points = [
            (a[0] + (b[0] - a[0]) * at, a[1] + (b[1] - a[1]) * at) for a, b in pairwise(points)
        ]
    return points[0]


def _outlines(draft: Draft) -> Iterator[Edge]:
    for patch in draft.pieced:
        yield from patch.edges
    right, bottom, zero = Fraction(1), draft.height, Fraction(0)
    frame = ((zero, zero), (zero, bottom), (right, bottom), (right, zero), (zero, zero))
    yield from (Edge(start, end) for start, end in pairwise(frame))


def _carrier(edge: Edge) -> object:
    """What an edge lies on: its straight line, one for all edges along it, or its own curve."""
    if edge.handles is not None:
        return frozenset(((edge.start, edge.handles[0]), (edge.end, edge.handles[1])))
    (x0, y0), (x1, y1) = edge.start, edge.end
    if x0 == x1:
        return ("upright", x0)
    slope = (y1 - y0) / (x1 - x0)
    return (slope, y0 - slope * x0)


_Shape = tuple[Role, bool, list[list[tuple[float, float]]]]


def _sides(patch: Patch) -> list[list[tuple[float, float]]]:
    """The sides as runs of plain numbers: start, handles if any, end."""
    return [
        [(float(x), float(y)) for x, y in (edge.start, *(edge.handles or ()), edge.end)]
        for edge in patch.edges
    ]


def _canonical(patches: Iterable[_Shape], move: Move) -> Counter[object]:
    """The moved patches as a bag in which no order and no direction matters.

    Points count as the same within a thousandth of the width, because shapes repeated by other
    than quarter turns are not exact. The offset keeps simple fractions off the rounding limit.
    """

    def near(point: tuple[float, float]) -> tuple[int, int]:
        x, y = move(point)
        return floor(x * 1000 + OFFSET), floor(y * 1000 + OFFSET)

    def either_way(side: list[tuple[float, float]]) -> object:
        run = tuple(near(point) for point in side)
        return min(run, run[::-1])

    return Counter(
        (role, laid, frozenset(either_way(side) for side in sides)) for role, laid, sides in patches
    )


def _role_at(outlines: list[tuple[Role, list[tuple[float, float]]]], x: float, y: float) -> Role:
    # A hair off the middle, so that a cell centre on a seam falls to one side of it.
    x, y = x + 1e-7, y + 2e-7
    for role, outline in outlines:
        if _inside(outline, x, y):
            return role
    return Role.BACKGROUND


def _inside(outline: list[tuple[float, float]], x: float, y: float) -> bool:
    crossings = 0
    for (x0, y0), (x1, y1) in pairwise([*outline, outline[0]]):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossings += 1
    return crossings % 2 == 1
