"""The layout that a photograph shows, or that it shows none, and how sure either is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from catalogue.photographs.cells import Seat
from catalogue.photographs.field import Extent, Run
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.setting import pointed_seats, upright_seats
from catalogue.photographs.surface import Surface

_SUREST = 0.97  # about as many of the surest layouts were right in the simulator


@dataclass(frozen=True)
class Repeat:
    """What repeats: `seats` holds the blocks of the grid row by row, plain ones too.

    `turns` says how blocks of two kinds take turns: "" (they do not), "chequered", "columns",
    "rows", or "both" where four kinds make up a larger square.
    """

    setting: str
    sashing: str
    columns: int
    rows: int
    certainty: float
    grounds: str
    seats: tuple[Seat, ...]
    turns: str


@dataclass(frozen=True)
class NoRepeat:
    """Nothing repeats as blocks do: why that is said, and how sure it is, 0 to 1."""

    grounds: str
    certainty: float


def boxed(across: Run, down: Run) -> Extent:
    """The field between the ends of both axes."""
    return Extent(across.start, across.end, down.start, down.end)


def set_straight(surface: Surface, lattice: Lattice, runs: tuple[Run, Run], sure: float) -> Repeat:
    """Blocks edge to edge; `sure`, 0 to 1, is how plainly they are set so."""
    across, down = runs
    return Repeat(
        setting="straight",
        sashing="none",
        columns=across.count,
        rows=down.count,
        certainty=certainty_of(lattice.likeness, max(across.misfit, down.misfit), sure),
        grounds=(f"{repeats_every(lattice, surface)} and meet edge to edge."),
        seats=tuple(upright_seats(boxed(across, down), across.count, down.count)),
        turns=lattice.turns,
    )


def set_on_point(
    surface: Surface, lattice: Lattice, runs: tuple[Run, Run], sure: float, between: str
) -> Repeat:
    """Blocks on their corners, and what lies between them; `sure` as for a straight set."""
    across, down = runs
    return Repeat(
        setting="on point",
        sashing="none",
        columns=across.count,
        rows=down.count,
        certainty=certainty_of(lattice.likeness, max(across.misfit, down.misfit), sure),
        grounds=(f"{repeats_every(lattice, surface)}, and {between}."),
        seats=tuple(pointed_seats(boxed(across, down), across.count, down.count)),
        turns="",
    )


def certainty_of(likeness: float, misfit: float, setting: float) -> float:
    """How sure, 0 to 1: each of the three questions may be the weak one."""
    repeats = min(1.0, 0.55 + likeness)
    counted = float(np.clip(1.1 - 2.5 * misfit, 0.2, 1))
    settled = float(np.clip(0.6 + 0.5 * setting, 0, 1))
    return round(_SUREST * repeats * counted * settled, 2)


def repeats_every(lattice: Lattice, surface: Surface) -> str:
    """The first words of the grounds: how far it is from block to block."""
    return f"The blocks repeat every {100 * lattice.across / surface.width:.0f} % of the width"
