"""The blocks that the simulator sews: every square design of the thesaurus, and invented ones."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from catalogue.patterns import Draft, Position, designs, parse_draft, symmetries

# Drawn whole or not a block of their own: a quilt of them shows no repeat of a square block.
LEFT_OUT = {
    *("bars", "center-diamond", "crazy-patch", "trip-around-the-world", "star-of-bethlehem"),
    *("brickwork", "postage-stamp", "clamshell"),
}


@dataclass(frozen=True)
class Block:
    """A square block: outlines in units of its side with the role of each, and its symmetries."""

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


def answers(block: Block, move: Position) -> frozenset[str]:
    """The answers that are right for a block moved so, given what its symmetries hide."""
    found = set()
    for hidden in block.keeps:
        whole = MOVES[move] @ MOVES[hidden]
        name = next(p for p, m in MOVES.items() if (m == whole).all())
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
    return Block(name, pieces, symmetries(draft), _repeats_within(pieces))


def _repeats_within(pieces: tuple[tuple[str, np.ndarray], ...]) -> bool:
    """Whether blocks sewn edge to edge repeat at less than a block: then nobody can count them."""
    from PIL import Image, ImageDraw

    side = 60
    roles = list(dict.fromkeys(role for role, _ in pieces))
    picture = Image.new("L", (side, side))
    draw = ImageDraw.Draw(picture)
    for role, outline in pieces:
        draw.polygon([tuple(p) for p in outline * side], fill=roles.index(role))
    cells = np.asarray(picture)
    return any(
        (np.roll(cells, (dy, dx), (0, 1)) == cells).mean() > 0.93
        for dx, dy in ((30, 0), (0, 30), (30, 30), (20, 0), (0, 20), (20, 20), (20, 40))
    )
