"""The block that was turned: every block compared with its fellows in the square's positions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from catalogue.photographs.cells import Seat
from catalogue.photographs.colour_space import Floats
from catalogue.photographs.fellows import Fellows, aligned, find_fellows
from catalogue.photographs.lattice import vertex
from catalogue.photographs.positions import (
    CELLS,
    COLOURS,
    MARGIN,
    NAMES,
    POSITIONS,
    cut_blocks,
    moved,
    shifted,
)
from catalogue.photographs.surface import Surface

LEAST_FELLOWS = 5  # fewer make no consensus
STANDS_OUT = 4.5  # spreads of its fellows by which a block has to fit better otherwise
_WOULD_SHOW = 6.0  # spreads by which a turned block would have to stand out, to be counted on
SURE = 9.0  # likewise, from which it is no longer only offered for a look
KEEPS_PLACES = 0.75  # likeness to the consensus from which light and dark keep their places
_NEARLY = 0.8  # likeness from which the design in another position is nearly the same
_PLAIN = 0.35  # of the contrast of the boldest design, below which a block is plain
MOST = 0.1  # share of blocks turned from which it is taken for a design


@dataclass(frozen=True)
class Suspect:
    """A block that fits its fellows better in another position: its number in the grid.

    `depth` counts spreads of its fellows; `clear` whether it can only be this turn.
    """

    block: int
    turn: str
    depth: float
    clear: bool
    keeps_places: bool

    @property
    def sure(self) -> bool:
        return self.depth >= SURE and self.clear and self.keeps_places

    @property
    def confidence(self) -> float:
        """0 to 1."""
        found = 1 - 0.5 * float(np.exp((STANDS_OUT - self.depth) / 4))
        return round(found * (0.98 if self.clear else 0.6) * (1 if self.keeps_places else 0.9), 2)


@dataclass(frozen=True)
class TurnedReading:
    """The blocks that seem turned, and what has to be known of the others."""

    suspects: tuple[Suspect, ...]
    cautions: tuple[str, ...]


def find_turned(surface: Surface, seats: list[Seat], columns: int) -> TurnedReading:
    """The blocks, row by row in these seats, that were set in otherwise than their fellows."""
    blocks = cut_blocks(surface, seats)
    suspects: list[Suspect] = []
    cautions: list[str] = []
    for fellows in _pieced(blocks, find_fellows(blocks, columns)):
        if len(fellows.blocks) < LEAST_FELLOWS:
            cautions.append("Too few blocks are alike for one among them to be told as turned.")
            continue
        comparison = _compared(aligned(blocks, fellows))
        found = [_numbered(suspect, fellows) for suspect in comparison.suspects()]
        if len(found) > max(2, MOST * len(fellows.blocks)):
            cautions.append(_MANY.format(len(found), len(fellows.blocks)))
            continue
        suspects += found
        cautions += [_ORDERED.format(fellows.order)] if fellows.order else []
        cautions += comparison.cautions()
    return TurnedReading(tuple(suspects), tuple(dict.fromkeys(cautions)))


_MANY = (
    "{} of {} blocks lie otherwise than the rest; that looks like a design, and none of them is"
    " reported as turned."
)
_ORDERED = "The design turns its blocks {}; only a block that breaks this order is told."


def _pieced(blocks: Floats, designs: list[Fellows]) -> list[Fellows]:
    """The designs but for plain blocks between them, which have no position."""
    inner = blocks[:, MARGIN:-MARGIN, MARGIN:-MARGIN, :COLOURS]
    middles = [np.median(inner[list(design.blocks)], axis=0) for design in designs]
    contrast = [float(middle[2:-2, 2:-2].std(axis=(0, 1)).sum()) for middle in middles]
    return [
        design
        for design, shows in zip(designs, contrast, strict=True)
        if shows > _PLAIN * max(contrast)
    ]


def _numbered(suspect: Suspect, fellows: Fellows) -> Suspect:
    return Suspect(**{**vars(suspect), "block": fellows.blocks[suspect.block]})


@dataclass(frozen=True)
class _Comparison:
    """Likeness of every block to the consensus by position, shape (blocks, 8)."""

    likeness: Floats
    fits: Floats

    @property
    def better(self) -> Floats:
        """How much better a block fits in each position than in the usual one."""
        gain: Floats = self.likeness - self.likeness[:, :1]
        return gain

    @property
    def usual(self) -> Floats:
        usual: Floats = np.median(self.better, axis=0)
        return usual

    @property
    def spread(self) -> Floats:
        """Spread among the fellows, from the median distance (1.48: normal distribution)."""
        spread: Floats = 1.48 * np.median(np.abs(self.better - self.usual), axis=0) + 0.003
        return spread

    def keeps_places(self) -> bool:
        return float(np.median(self.likeness[:, 0])) > KEEPS_PLACES

    def suspects(self) -> Iterator[Suspect]:
        depths = (self.better - self.usual) / self.spread
        for block, (better, depth) in enumerate(zip(self.better, depths, strict=True)):
            best = int(np.argmax(better))
            if better[best] <= 0 or depth[best] < STANDS_OUT:
                continue
            others = [k for k in POSITIONS if NAMES[k] != NAMES[best]]
            nearest = max(better[k] for k in others)
            clear = bool(better[best] - nearest > 2 * self.spread[best])
            yield Suspect(block, NAMES[best], float(depth[best]), clear, self.keeps_places())

    def cautions(self) -> Iterator[str]:
        """What would not show because the design looks the same, or too nearly."""
        shows = -2 * self.usual / self.spread > _WOULD_SHOW
        hidden = [position for position in POSITIONS[1:] if not shows[position]]
        if len(hidden) == 7:
            yield (
                "The design looks the same, or nearly, in every position: a turned block would not"
                " show."
            )
        elif hidden:
            yield (
                f"The design looks the same, or nearly, {_listed(hidden)}: a block set in so would"
                " not show."
            )
        if not self.keeps_places():
            yield (
                "Light and dark do not keep their places from block to block: what seems turned is"
                " offered for a look, not as found."
            )


def _listed(hidden: list[int]) -> str:
    turns = [NAMES[k] for k in hidden if k < 4]
    ways = [f"turned by {' or '.join(turns)} degrees"] if turns else []
    mirrored = sum(k >= 4 for k in hidden)
    if mirrored:
        ways.append("mirrored" if mirrored == 4 else "mirrored one way or the other")
    return " or ".join(ways)


def _compared(blocks: Floats) -> _Comparison:
    """Every block against the consensus in the eight positions.

    Where a position changes little of the design, what it changes would drown in how the block is
    best laid on it: then all are laid as they fit in the usual position.
    """
    consensus = np.median(blocks, axis=0)
    weight = _worth(blocks, consensus)
    fits, beside = _laid_on(blocks, consensus, weight)
    laid = np.stack([shifted(block, *by) for block, by in zip(blocks, beside, strict=True)])
    consensus = np.median(laid, axis=0)
    weight = _worth(laid, consensus)
    seen = _directions(laid[:, MARGIN:-MARGIN, MARGIN:-MARGIN], weight)
    likeness = []
    for position in POSITIONS:
        expected = moved(consensus, position)
        nearly, by = _laid_on(consensus[None], expected, weight)
        if nearly[0] < _NEARLY:
            likeness.append(_laid_on(blocks, expected, weight)[0])
            continue
        there = shifted(expected, -by[0][0], -by[0][1])[None, MARGIN:-MARGIN, MARGIN:-MARGIN]
        likeness.append((seen @ _directions(there, weight).T)[:, 0])
    return _Comparison(np.stack(likeness, axis=1), fits)


def _worth(blocks: Floats, consensus: Floats) -> Floats:
    worth: Floats = np.sqrt(_reliability(blocks, consensus))[MARGIN:-MARGIN, MARGIN:-MARGIN]
    return worth


def _laid_on(blocks: Floats, expected: Floats, weight: Floats) -> tuple[Floats, Floats]:
    """How well each block fits what is expected, and the cells right and down it lies beside it."""
    steps = np.arange(2 * MARGIN + 1)
    beside = [expected[y : y + CELLS, x : x + CELLS] for y in steps for x in steps]
    seen = _directions(blocks[:, MARGIN:-MARGIN, MARGIN:-MARGIN], weight)
    fits = (seen @ _directions(np.stack(beside), weight).T).reshape(-1, len(steps), len(steps))
    offsets = [_top(fit) for fit in fits]
    return fits.max(axis=(1, 2)), np.array(offsets)


def _top(fit: Floats) -> tuple[float, float]:
    """Where a block lies, right and down, that fits best there; to a fraction of a cell."""
    row, column = np.unravel_index(int(np.argmax(fit)), fit.shape)
    x = column + vertex(fit[row], int(column))
    y = row + vertex(fit[:, column], int(row))
    return MARGIN - x, MARGIN - y


def _directions(cells: Floats, weight: Floats) -> Floats:
    """Each block as one vector of unit length, less its mean colour, cells weighed."""
    centred = (cells - cells.mean(axis=(1, 2), keepdims=True)) * weight
    flat = centred.reshape(len(cells), -1)
    directions: Floats = flat / (np.linalg.norm(flat, axis=1, keepdims=True) + 1e-6)
    return directions


def _reliability(blocks: Floats, consensus: Floats) -> Floats:
    """What a cell is worth: the inverse of how much it varies from block to block.

    Alike in all eight positions, so that none is favoured.
    """
    off = 1.48 * np.median(np.abs(blocks - consensus), axis=0)
    everywhere = np.mean([moved(off**2, position) for position in POSITIONS], axis=0)
    varying = _neighbourly(everywhere)
    least = 0.3 * varying.mean(axis=(0, 1)) + 1e-4
    worth: Floats = 1 / (varying + least)
    return worth


def _neighbourly(cells: Floats) -> Floats:
    """The mean of each cell and its eight neighbours."""
    padded = np.pad(cells, ((1, 1), (1, 1), (0, 0)), mode="edge")
    high, wide = cells.shape[:2]
    around = [padded[y : y + high, x : x + wide] for y in range(3) for x in range(3)]
    mean: Floats = np.mean(around, axis=0)
    return mean
