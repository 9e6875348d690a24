"""What a sewn quilt top is to the studio: pieces of cloth in their places, in inches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import cos, pi, sin

import numpy as np

from catalogue.patterns import Draft, Role

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Piece:
    """One piece: outline in inches, cloth, how it lies, and the zone of the quilt it is in."""

    outline: np.ndarray
    fabric: str
    zone: str
    turn: float
    shift: tuple[float, float]
    laid: bool = False


@dataclass(frozen=True)
class Thread:
    """A run of visible stitching on top of the cloth: embroidery, ties, ink."""

    points: tuple[tuple[float, float], ...]
    colour: str
    width: float = 0.06


@dataclass
class Scene:
    """A whole quilt top, width across and length down, its pieces in the order they cover."""

    width: float
    length: float
    seed: int
    pieces: list[Piece] = field(default_factory=list)
    threads: list[Thread] = field(default_factory=list)
    field_box: Box = (0.0, 0.0, 0.0, 0.0)
    edge: list[np.ndarray] | None = None

    def __post_init__(self) -> None:
        self.random = np.random.default_rng(self.seed)

    def add(
        self,
        outline: Sequence[tuple[float, float]] | np.ndarray,
        fabric: str,
        zone: str,
        grain: float = 0.0,
        laid: bool = False,
    ) -> None:
        """One more piece, its cloth laid along `grain` (radians) at a place of its own."""
        shift = tuple(self.random.uniform(0, 6, 2))
        across = pi / 2 if self.random.random() < 0.35 else 0.0
        turn = grain + across + self.random.normal(0, 0.012)
        self.pieces.append(Piece(np.asarray(outline, dtype=float), fabric, zone, turn, shift, laid))

    def add_box(self, box: Box, fabric: str, zone: str) -> None:
        """One oblong piece."""
        x0, y0, x1, y1 = box
        self.add([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], fabric, zone)


@dataclass(frozen=True)
class Seat:
    """Where a block sits: centre, finished size, turns of 90 degrees and the slant of the set."""

    centre: tuple[float, float]
    width: float
    length: float
    quarters: int = 0
    mirrored: bool = False
    slant: float = 0.0

    def place(self, points: np.ndarray, height: float) -> np.ndarray:
        """Points of a draft (width 1) in inches on the quilt."""
        local = points - np.array([0.5, height / 2])
        if self.mirrored:
            local = local * np.array([-1.0, 1.0])
        local = _turned(local, self.quarters * pi / 2)
        scale = np.array(
            [self.width, self.length / height if self.quarters % 2 == 0 else self.width]
        )
        return _turned(local * scale, self.slant) + np.array(self.centre)

    def outline(self) -> np.ndarray:
        """The four corners of the seat in inches."""
        w, h = self.width / 2, self.length / 2
        corners = np.array([(-w, -h), (w, -h), (w, h), (-w, h)])
        return _turned(corners, self.slant) + np.array(self.centre)


def _turned(points: np.ndarray, angle: float) -> np.ndarray:
    c, s = cos(angle), sin(angle)
    return points @ np.array([[c, s], [-s, c]])


class Scraps:
    """Chooses cloth for each patch from what the maker had: by quilt, by block or by patch."""

    def __init__(self, by_role: dict[str, list[str]], scrappy: str, seed: int) -> None:
        self.by_role = by_role
        self.scrappy = scrappy
        self.random = np.random.default_rng(seed + 1)
        self.chosen: dict[str, str] = {}

    def new_block(self) -> None:
        """Begin a block: fresh choices where the quilt is scrappy by block."""
        if self.scrappy != "no":
            self.chosen = {}

    def pick(self, role: Role) -> str:
        """The cloth for one patch of this role."""
        choices = self.by_role[role.value]
        if self.scrappy == "no":
            return choices[0]
        if self.scrappy == "patch" or role.value not in self.chosen:
            self.chosen[role.value] = str(self.random.choice(choices))
        return self.chosen[role.value]


def sew_block(scene: Scene, draft: Draft, seat: Seat, scraps: Scraps, zone: str = "block") -> None:
    """One block sewn into its seat; a draft of another shape keeps its figure on a whole ground."""
    scraps.new_block()
    height = float(draft.height)
    wanted = seat.length / seat.width
    upright = abs(wanted - height) > 1e-6
    if upright:
        scene.add(seat.outline(), scraps.pick(Role.BACKGROUND), zone, seat.slant)
        seat = Seat(seat.centre, seat.width, seat.width * height, seat.quarters, seat.mirrored)
    for patch in draft.laid if upright else draft.patches:
        outline = seat.place(np.array(patch.outline(10)), height)
        scene.add(outline, scraps.pick(patch.role), zone, seat.slant, patch.laid)
