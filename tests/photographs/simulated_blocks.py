"""The blocks that the simulator sews: every square design of the thesaurus, and invented ones."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from PIL import Image, ImageDraw

from catalogue.patterns import Draft, Position, designs, parse_draft, symmetries

# Drawn whole or not a block of their own: a quilt of them shows no repeat of a square block.
LEFT_OUT = {
    *("bars", "center-diamond", "crazy-patch", "trip-around-the-world", "star-of-bethlehem"),
    *("brickwork", "postage-stamp", "clamshell"),
}

HARDLY = 0.02  # share of a block that may change without anybody seeing it


@dataclass(frozen=True)
class Block:
    """A square block: outlines in units of its side with the role of each, and its symmetries.

    `keeps` are the moves after which light and dark lie as before, up to a fiftieth of the block.
    The logs of a log cabin end otherwise in a mirror, but between logs of one cloth nobody sees it.
    """

    name: str
    pieces: tuple[tuple[str, np.ndarray], ...]
    keeps: frozenset[Position]
    plain_repeat: bool

    @property
    def roles(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(role for role, _ in self.pieces))

    def hides(self, move: Position) -> bool:
        """Whether the block looks the same after this move."""
        return move in self.keeps


MOVES: dict[Position, np.ndarray] = {
    # On points (x right, y down) from the middle of the block; turns are clockwise.
    Position.AS_DRAFTED: np.array([[1, 0], [0, 1]]),
    Position.TURNED_90: np.array([[0, -1], [1, 0]]),
    Position.TURNED_180: np.array([[-1, 0], [0, -1]]),
    Position.TURNED_270: np.array([[0, 1], [-1, 0]]),
    Position.MIRRORED: np.array([[-1, 0], [0, 1]]),
    Position.MIRRORED_90: np.array([[0, -1], [-1, 0]]),
    Position.MIRRORED_180: np.array([[1, 0], [0, -1]]),
    Position.MIRRORED_270: np.array([[0, 1], [1, 0]]),
}


def moved(points: np.ndarray, move: Position) -> np.ndarray:
    """Points of the unit square after a move."""
    return (points - 0.5) @ MOVES[move].T + 0.5


def then(first: Position, second: Position) -> Position:
    """The position that two moves lead to, one after the other."""
    whole = MOVES[second] @ MOVES[first]
    return next(position for position, move in MOVES.items() if (move == whole).all())


def share_moved(block: Block, move: Position) -> float:
    """Share of the block's area that changes its role of light or dark by a move."""
    drawn, turned = (_drawn(block, position) for position in (Position.AS_DRAFTED, move))
    return float((drawn != turned).mean())


def answers(block: Block, move: Position) -> frozenset[str]:
    """The answers that are right for a block moved so, given what its symmetries hide."""
    found = set()
    for hidden in block.keeps:
        name = then(hidden, move)
        found.add("mirrored" if name.startswith("mirrored") else name.value)
    return frozenset(found)


@cache
def blocks() -> tuple[Block, ...]:
    """Every square design of the thesaurus that makes a block."""
    return tuple(
        _block(each.slug, each.draft)
        for each in designs()
        if each.draft.height == 1 and each.slug not in LEFT_OUT
    )


def invented(random: np.random.Generator) -> Block:
    """A block of squares and triangle-squares on a grid, with or without a symmetry."""
    side = int(random.integers(3, 6))
    kinds = ["b", "d", "b", "d", "b/d", "d/b", "b\\d", "d\\b", "l", "a"]
    cells = [[str(random.choice(kinds)) for _ in range(side)] for _ in range(side)]
    text = "\n".join([f"grid {side}", *("  ".join(row) for row in cells)])
    return _block("invented", parse_draft(text))


def _block(name: str, draft: Draft) -> Block:
    pieces = tuple((p.role.value, np.array(p.outline(8), float)) for p in draft.patches)
    whole = Block(name, pieces, symmetries(draft), False)
    alike = frozenset(move for move in Position if share_moved(whole, move) < HARDLY)
    return replace(whole, keeps=whole.keeps | alike, plain_repeat=_repeats_within(whole))


def _drawn(block: Block, position: Position, side: int = 60) -> np.ndarray:
    """The roles of the block's patches as a picture."""
    picture = Image.new("L", (side, side))
    draw = ImageDraw.Draw(picture)
    for role, outline in block.pieces:
        corners = [tuple(p) for p in moved(outline, position) * side]
        draw.polygon(corners, fill=block.roles.index(role))
    return np.asarray(picture)


def _repeats_within(block: Block) -> bool:
    """Whether blocks sewn edge to edge repeat at less than a block: then nobody can count them."""
    cells = _drawn(block, Position.AS_DRAFTED)
    return any(
        (np.roll(cells, (dy, dx), (0, 1)) == cells).mean() > 0.93
        for dx, dy in ((30, 0), (0, 30), (30, 30), (20, 0), (0, 20), (20, 20), (20, 40))
    )
