"""Pieces as they lie in a drawing: one shape repeated over a grid of places.

Coordinates are inches from the field's top left corner, x across and y down.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

Kind = Literal[
    "blocks",
    "alternate_blocks",
    "side_triangles",
    "corner_triangles",
    "half_blocks",
    "sash_strips",
    "cornerstones",
    "cut_strips",
    "cut_cornerstones",
]
"""The fields of `Pieces`, and what `Pieces` leaves out: cornerstones the edge cuts through, and the
ground of joints that strips running through cover."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class PieceArray:
    """One shape at every place of a grid: `across` x `down` places, `step` apart.

    `tone` tells apart neighbours of one kind (bars, patches) by a second shade.
    """

    kind: Kind
    shape: tuple[Point, ...]
    across: int = 1
    down: int = 1
    step: Point = (0.0, 0.0)
    tone: int = 0

    @property
    def count(self) -> int:
        """How many pieces the array holds."""
        return self.across * self.down

    def moved(self, x: float, y: float) -> "PieceArray":
        """The same array, shifted."""
        return replace(self, shape=tuple((px + x, py + y) for px, py in self.shape))


@dataclass(frozen=True, slots=True)
class Field:
    """All that lies inside the borders: its size in inches and its pieces, undermost first."""

    width: float
    length: float
    arrays: tuple[PieceArray, ...]

    def count(self, kind: Kind) -> int:
        """How many pieces of the kind are drawn."""
        return sum(array.count for array in self.arrays if array.kind == kind)


def rectangle(x: float, y: float, width: float, length: float) -> tuple[Point, ...]:
    """The corners of an upright rectangle from its top left corner, clockwise."""
    return ((x, y), (x + width, y), (x + width, y + length), (x, y + length))


def checkered(
    even: PieceArray, odd: PieceArray | None, across: int, down: int, step: Point
) -> Iterator[PieceArray]:
    """Two pieces by turns over a grid, `even` at the top left; None leaves its places empty."""
    for row, column in ((0, 0), (1, 1), (0, 1), (1, 0)):
        piece = even if row == column else odd
        many = (across - column + 1) // 2, (down - row + 1) // 2
        if piece is not None and min(many) > 0:
            start = piece.moved(column * step[0], row * step[1])
            yield replace(start, across=many[0], down=many[1], step=(2 * step[0], 2 * step[1]))


def present(arrays: Iterable[PieceArray]) -> tuple[PieceArray, ...]:
    """The arrays that hold anything."""
    return tuple(array for array in arrays if array.across > 0 and array.down > 0)
