"""Cut sizes from finished ones and back, under the rounding a published table uses.

With a seam of s, a square gains 2 s; a half-square triangle's square gains (2 + √2) s and a
quarter-square triangle's (2 + 2√2) s, which a 1/4 in seam rounds up to the 7/8 in and 1 1/4 in of
every published chart (the exact figures are 0.854 and 1.207 in; geometry).
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, isfinite, sqrt
from typing import Final, Literal

SEAM: Final = 0.25
"""Seam allowance in inches (common practice, no source)."""

ROOT_2: Final = sqrt(2)
STAR_RATIO: Final = 2 + ROOT_2
"""Eight-point star: block side over diamond side; published as 3.41."""

Piece = Literal[
    "square",
    "half-square triangle",
    "quarter-square triangle",
    "side triangle",
    "corner triangle",
    "diamond strip",
]


class CuttingError(ValueError):
    """No piece of that size can be cut; the message says which size and why."""


@dataclass(frozen=True, slots=True)
class Rounding:
    """A way published tables round: up to a `step`, letting go what is over by `let_go` or less.

    A negative `let_go` demands that much to spare; a step of None leaves the size exact. `root_2`
    is the square root of two as the table's maker takes it.
    """

    name: str
    step: float | None
    let_go: float = 0
    root_2: float = ROOT_2

    def of(self, size: float) -> float:
        """The size as such a table prints it."""
        if self.step is None:
            return size
        return self.step * ceil((size - self.let_go) / self.step - 1e-9)


EXACT: Final = Rounding("exact", None)
UP_TO_EIGHTH: Final = Rounding("up to the next eighth", 1 / 8)
TRADE_EIGHTH: Final = Rounding("times 1.414, up to the next eighth", 1 / 8, root_2=1.414)
QUARTER_LESS_A_TWENTIETH: Final = Rounding(
    "up to the next quarter, a twentieth over let go", 1 / 4, let_go=0.05
)
QUARTER_WITH_ROOM: Final = Rounding(
    "up to the next quarter, a thirty-second to spare", 1 / 4, let_go=-1 / 32
)
ROUNDINGS: Final = {
    rounding.name: rounding
    for rounding in (
        EXACT,
        UP_TO_EIGHTH,
        TRADE_EIGHTH,
        QUARTER_LESS_A_TWENTIETH,
        QUARTER_WITH_ROOM,
    )
}
"""The conventions by name. The trade's eighth is stated by two published charts; both quarters are
inferred here from a chart that says only that it rounds up slightly."""


@dataclass(frozen=True, slots=True)
class Cut:
    """What to cut for a finished piece: the square or strip in inches, and what it makes.

    `exact` is the size before rounding, `size` the size to cut.
    """

    piece: Piece
    finished: float
    exact: float
    size: float
    rounding: str
    makes: int
    how: str


def cut_size(
    piece: Piece,
    finished: float,
    *,
    seam: float = SEAM,
    margin: float = 0,
    rounding: Rounding = UP_TO_EIGHTH,
) -> Cut:
    """What to cut, in inches, for a piece that finishes at `finished`.

    `finished` is the side of a square, the short side of a half-square triangle, the long side of
    a quarter-square triangle, the side of a diamond, and for setting triangles the side of the
    block they set. `margin` floats setting triangles: the distance from the blocks' points to the
    outer edge. Squares are never rounded. Raises CuttingError for sizes that are not
    positive, a negative seam or margin, or a margin on a piece that cannot float.
    """
    _require(isfinite(finished) and finished > 0, f"A piece cannot finish at {finished} in.")
    _require(isfinite(seam) and seam >= 0, f"A seam cannot be {seam} in.")
    _require(isfinite(margin) and margin >= 0, f"A float cannot be {margin} in.")
    rule = _RULES[piece]
    _require(margin == 0 or rule.floats, f"A {piece} does not float.")
    added = 2 * margin + rule.allowance(seam)
    convention = EXACT if piece == "square" else rounding
    size = convention.of(convention.root_2**rule.power * finished + added)
    exact = ROOT_2**rule.power * finished + added
    return Cut(piece, finished, exact, size, convention.name, rule.makes, rule.how)


def finished_size(piece: Piece, cut: float, *, seam: float = SEAM, margin: float = 0) -> float:
    """What a piece finishes at, in inches, when cut exactly at `cut`; undoes `cut_size`.

    Raises CuttingError where the seams and the float take up the whole piece.
    """
    rule = _RULES[piece]
    finished = (cut - 2 * margin - rule.allowance(seam)) / ROOT_2**rule.power
    _require(
        isfinite(finished) and finished > 0, f"A {piece} cut {cut:g} in leaves nothing to finish."
    )
    return finished


def geese_four_at_a_time(width: float, height: float) -> tuple[Cut, Cut]:
    """The one large square and the four small ones that make four flying geese.

    A goose 4 x 2 in takes 5 1/4 and 2 7/8, one of 6 x 3 in 7 1/4 and 3 7/8 (published charts).
    Raises CuttingError unless a goose is twice as wide as high.
    """
    _require(abs(width - 2 * height) < 1e-9, f"A goose {width:g} x {height:g} is not 2 to 1.")
    return cut_size("quarter-square triangle", width), cut_size("half-square triangle", height)


def trimmed_pair(finished: float) -> tuple[float, float]:
    """Cut and trimmed size of two squares sewn together for two half-square triangles, then cut.

    Squares are cut an inch larger than finished and the units trimmed to finished + 1/2:
    4 in squares trim to 3 1/2 in (common practice, no source).
    """
    return finished + 1, cut_size("square", finished).size


@dataclass(frozen=True, slots=True)
class StarCuts:
    """The pieces of an eight-point star block: diamonds, corner squares, edge triangles."""

    diamond_side: float
    diamonds: Cut
    corners: Cut
    edges: Cut


def eight_point_star(block: float) -> StarCuts:
    """What to cut for an eight-point star that finishes at `block` inches a side.

    Block side = diamond side x (2 + √2), published as 3.41. Diamonds are cut at 45 degrees from
    a strip, every strip width; corner squares have the diamond's side, and edge triangles have it
    as their short side.
    """
    _require(isfinite(block) and block > 0, f"A star block cannot finish at {block} in.")
    side = block / STAR_RATIO
    return StarCuts(
        side,
        cut_size("diamond strip", side),
        cut_size("square", side),
        cut_size("quarter-square triangle", side * ROOT_2),
    )


def _straight(seam: float) -> float:
    return 2 * seam


def _once_diagonally(seam: float) -> float:
    return _up_to_eighth((2 + ROOT_2) * seam)


def _twice_diagonally(seam: float) -> float:
    return _up_to_eighth((2 + 2 * ROOT_2) * seam)


def _up_to_eighth(allowance: float) -> float:
    return UP_TO_EIGHTH.of(allowance)


@dataclass(frozen=True, slots=True)
class _Rule:
    power: int
    allowance: Callable[[float], float]
    makes: int
    how: str
    floats: bool = False


_RULES: dict[Piece, _Rule] = {
    "square": _Rule(0, _straight, 1, "cut square"),
    "half-square triangle": _Rule(0, _once_diagonally, 2, "a square cut once diagonally"),
    "quarter-square triangle": _Rule(0, _twice_diagonally, 4, "a square cut twice diagonally"),
    "side triangle": _Rule(1, _twice_diagonally, 4, "a square cut twice diagonally", True),
    "corner triangle": _Rule(-1, _once_diagonally, 2, "a square cut once diagonally", True),
    "diamond strip": _Rule(-1, _straight, 1, "a strip cut at 45 degrees, every strip width"),
}


def _require(holds: bool, says: str) -> None:
    if not holds:
        raise CuttingError(says)
