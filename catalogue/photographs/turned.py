"""The block that was turned: every block compared with its fellows in the square's positions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from catalogue.photographs.cells import Seat
from catalogue.photographs.colour_space import Floats
from catalogue.photographs.consensus import likeness_by_position
from catalogue.photographs.fellows import Fellows, aligned, find_fellows
from catalogue.photographs.positions import COLOURS, MARGIN, NAMES, POSITIONS, cut_blocks, then
from catalogue.photographs.surface import Surface

LEAST_FELLOWS = 5  # fewer make no consensus
STANDS_OUT = 5.0  # spreads of its fellows by which a block has to fit better otherwise
_WOULD_SHOW = 6.0  # spreads by which a turned block would have to stand out, to be counted on
SURE = 9.0  # likewise, from which it is no longer only offered for a look
KEEPS_PLACES = 0.75  # likeness to the consensus from which light and dark keep their places
_FLOOR = 0.001  # likeness that a block may always be off by
_COARSE = 0.002  # likeness more, by which a symmetrical design may seem unlike itself
_PLAIN = 0.35  # of the contrast of the boldest design, below which a block is plain
MOST = 0.1  # share of blocks turned from which it is taken for a design


@dataclass(frozen=True)
class Suspect:
    """A block that fits its fellows better in another position: its number in the grid.

    `depth` counts spreads of its fellows; `clear` whether it can only be this turn, or another
    that looks the same.
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
        comparison = _Comparison(likeness_by_position(aligned(blocks, fellows)))
        found = [
            comparison.suspect(number, position, depth)
            for number, position, depth in comparison.standing_out()
        ]
        if len(found) > max(2, MOST * len(fellows.blocks)):
            cautions.append(_MANY.format(len(found), len(fellows.blocks)))
            continue
        suspects += [_numbered(suspect, fellows) for suspect in found]
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
        spread: Floats = 1.48 * np.median(np.abs(self.better - self.usual), axis=0) + _FLOOR
        return spread

    def keeps_places(self) -> bool:
        return float(np.median(self.likeness[:, 0])) > KEEPS_PLACES

    def standing_out(self) -> Iterator[tuple[int, int, float]]:
        """The blocks that fit better otherwise: number, position, and depth in spreads.

        A block has to stand out from its fellows' spread, and from the tenth of them that come
        nearest to standing out in the same position.
        """
        depths = (self.better - self.usual) / self.spread
        enough = np.maximum(STANDS_OUT, 1.5 * np.quantile(depths, 1 - MOST, axis=0))
        for block, (better, depth) in enumerate(zip(self.better, depths, strict=True)):
            best = int(np.argmax(better))
            alike = [k for k in POSITIONS if NAMES[k] == NAMES[best] and better[k] > 0]
            if any(depth[k] >= enough[k] for k in alike):
                yield block, best, float(max(depth[alike]))

    def suspect(self, block: int, position: int, depth: float) -> Suspect:
        """What is told of a block that stands out, lying in this position or one that looks alike.

        Of those a turn is told before a mirrored block, which has to be cut and sewn otherwise.
        """
        better = self.better[block]
        same = {then(hidden, position) for hidden in (0, *self.hidden())}
        turns = [each for each in same if 0 < each < 4 and better[position] - better[each] < _FLOOR]
        position = turns[0] if turns and position >= 4 else position
        same |= {other for other in POSITIONS if NAMES[other] == NAMES[position]}
        nearest = max((better[k] for k in POSITIONS if k not in same), default=-1.0)
        clear = bool(better[position] - nearest > 2 * self.spread[position])
        return Suspect(block, NAMES[position], depth, clear, self.keeps_places())

    def hidden(self) -> list[int]:
        """The positions in which a block would not stand out, the design being symmetrical."""
        shows = -2 * self.usual / (self.spread + _COARSE) > _WOULD_SHOW
        return [position for position in POSITIONS[1:] if not shows[position]]

    def cautions(self) -> Iterator[str]:
        """What would not show because the design looks the same, or too nearly."""
        hidden = self.hidden()
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
