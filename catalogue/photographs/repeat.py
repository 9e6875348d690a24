"""The layout that a squared-up photograph shows: setting, sashing, columns, rows, or no repeat."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from catalogue.photographs.cells import Seat
from catalogue.photographs.field import Extent, Run, find_extent, fit_run, full_seams
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.pointed import find_plain_squares
from catalogue.photographs.sashing import find_sashing, is_framed
from catalogue.photographs.setting import (
    edge_seams,
    line_strengths,
    outer_triangles,
    plain_share,
    pointed_seats,
    seams_upright,
    upright_seats,
)
from catalogue.photographs.surface import Surface

Strips = list[tuple[float, float]]

LEAST_LIKENESS = 0.24  # crazy quilts stay under 0.2, pictures seldom come above, blocks above 0.33
_HALF_A_BLOCK = 0.38  # of a repeat, the strip itself and its neighbours' blur left out
FEWEST = 4  # blocks; fewer are no repeat
_ANOTHER_CLOTH = 6.0  # colour difference (CIELAB) from which triangles are of a cloth of their own
_FAINTEST = 0.2  # certainty under which hardly a layout was right
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
    cautions: tuple[str, ...] = ()


def find_repeat(surface: Surface, lattice: Lattice | None) -> Repeat | None:
    """The layout of the quilt on the surface, None where its lattice is none to speak of."""
    if lattice is None or lattice.likeness < LEAST_LIKENESS:
        return None
    repeat = _laid_out(surface, lattice)
    blocks = repeat.columns * repeat.rows
    return repeat if blocks >= FEWEST and repeat.certainty >= _FAINTEST else None


def _laid_out(surface: Surface, lattice: Lattice) -> Repeat:
    extent = find_extent(surface, lattice)
    sashed = _sashed(surface, lattice, extent)
    if sashed:
        return sashed
    pointed = _with_plain_squares(surface, lattice, extent)
    pointed = pointed or _within_triangles(surface, lattice, extent)
    if pointed:
        return pointed
    if lattice.turns:
        turning = _taking_turns(surface, lattice, extent)
        if turning:
            return turning
        lattice = _coarser(lattice)
    return _plain(surface, lattice, extent)


def _coarser(lattice: Lattice) -> Lattice:
    across, down = lattice.period
    return replace(lattice, across=across, down=down, turns="")


def _finer(lattice: Lattice) -> Lattice:
    return replace(lattice, across=lattice.across / 2, down=lattice.down / 2, turns="both")


def _sashed(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat | None:
    sashing = find_sashing(surface, lattice, extent)
    if sashing is None and lattice.turns:
        lattice = _coarser(lattice)
        sashing = find_sashing(surface, lattice, extent)
    if sashing is None:
        return None
    finer = None if lattice.turns else find_sashing(surface, _finer(lattice), extent)
    if finer and finer.sharpness > 0.8 * sashing.sharpness:
        # Strips at half the repeat as well: blocks that are turned by a pattern of two by two.
        lattice, sashing = _finer(lattice), finer
    across = _between_strips(
        (extent.left, extent.right), lattice.across, sashing.upright, sashing.across
    )
    down = _between_strips((extent.top, extent.bottom), lattice.down, sashing.level, sashing.down)
    if not across or not down or _cuts_blocks(extent, lattice, across, down):
        return None
    blocks = Extent(across[0][0], across[-1][1], down[0][0], down[-1][1])
    framed = is_framed(surface, sashing, blocks)
    return Repeat(
        setting="straight",
        sashing="framed" if framed else "between",
        columns=len(across),
        rows=len(down),
        certainty=_certainty(lattice.likeness, 0.0, sashing.sharpness),
        grounds=(
            f"The blocks repeat every {_share(lattice.across, surface.width)} of the width, and one"
            " cloth runs straight between them both ways"
            + (" and round the outside." if framed else ", but not round the outside.")
        ),
        seats=tuple(Seat.upright(*column, *row) for row in down for column in across),
        turns=lattice.turns,
    )


def _between_strips(ends: tuple[float, float], repeat: float, strip: float, width: float) -> Strips:
    """Where the blocks between strips start and end, as far as they lie within the field."""
    low, high = ends
    first = strip - np.ceil((strip - low) / repeat + 1) * repeat
    blocks = []
    for number in range(int((high - first) / repeat) + 2):
        start = first + number * repeat + width / 2
        end = start + repeat - width
        if min(end, high) - max(start, low) > 0.6 * (end - start):
            blocks.append((float(start), float(end)))
    return blocks


def _cuts_blocks(extent: Extent, lattice: Lattice, across: Strips, down: Strips) -> bool:
    """Whether half a block and more would be left over at all four ends: strips inside the blocks.

    Such is the cross of ground in the middle of many designs.
    """
    left_over = (
        (across[0][0] - extent.left) / lattice.across,
        (extent.right - across[-1][1]) / lattice.across,
        (down[0][0] - extent.top) / lattice.down,
        (extent.bottom - down[-1][1]) / lattice.down,
    )
    return min(left_over) > _HALF_A_BLOCK


def _runs(surface: Surface, lattice: Lattice, extent: Extent) -> tuple[Run, Run]:
    seams = full_seams(surface.colour, extent.top, extent.bottom)
    across = fit_run(extent.left, extent.right, lattice.across, surface.width, seams)
    other = surface.transposed()
    seams = full_seams(other.colour, extent.left, extent.right)
    down = fit_run(extent.top, extent.bottom, lattice.down, other.width, seams)
    return across, down


def _boxed(across: Run, down: Run) -> Extent:
    return Extent(across.start, across.end, down.start, down.end)


def _with_plain_squares(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat | None:
    """Blocks on their corners with plain squares between them, None where there are none such."""
    across, down = lattice.period
    if lattice.turns in ("columns", "rows"):
        across = down = max(across, down)
    squares = find_plain_squares(surface, (across, down), extent)
    if squares is None:
        return None
    runs = (
        _in_step(extent.left, extent.right, squares.x, across),
        _in_step(extent.top, extent.bottom, squares.y, down),
    )
    # The corners of straight blocks may make plain squares on point as well: then what lies inside
    # is of one cloth too, or holds a square that stands straight.
    seats = pointed_seats(_boxed(*runs), runs[0].count, runs[1].count)
    if not seats or plain_share(surface, seats) > 0.92 or seams_upright(surface, seats) > 0.85:
        return None
    whole = replace(lattice, across=across, down=down, turns="")
    return _pointed(
        surface, whole, runs, squares.sharpness, "between them lie plain squares on their corners"
    )


def _within_triangles(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat | None:
    """Blocks on point among squares of their own ground, None where no triangles frame them."""
    whole = _coarser(lattice)
    runs = _runs(surface, whole, extent)
    seats = pointed_seats(_boxed(*runs), runs[0].count, runs[1].count)
    differ = outer_triangles(surface, seats, runs[0].count)
    if differ < _ANOTHER_CLOTH:
        return None
    between = "triangles of another cloth run round them in a zigzag"
    return _pointed(surface, whole, runs, min(1.0, differ / 20), between)


def _in_step(low: float, high: float, place: float, repeat: float) -> Run:
    """The field from a place in step with this one to another, nearest to where it seems to end."""
    start = place - round((place - low) / repeat) * repeat
    count = round((high - start) / repeat)
    end = start + count * repeat
    return Run(start, end, count, abs(start - low) / repeat, abs(end - high) / repeat)


def _plain(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat:
    runs = _runs(surface, lattice, extent)
    finer = _runs(surface, _finer(lattice), extent)
    if _fits_better(finer, runs) and not _seams_alternate(surface, finer):
        return _straight(surface, _finer(lattice), finer, 1.0)
    return _straight(surface, lattice, runs, 1.0)


def _fits_better(finer: tuple[Run, Run], coarse: tuple[Run, Run]) -> bool:
    """Whether the field is a whole number of half repeats, and clearly not of whole ones."""
    exact = all(run.misfit < 0.12 and run.beyond < 0.2 for run in finer)
    return exact and any(run.misfit + run.beyond > 0.3 for run in coarse)


def _taking_turns(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat | None:
    """Blocks of two kinds that take turns; None where the blocks are larger than they seemed."""
    runs = _runs(surface, lattice, extent)
    seats = upright_seats(_boxed(*runs), runs[0].count, runs[1].count)
    straight = edge_seams(surface, seats)
    coarse = _runs(surface, _coarser(lattice), extent)
    pointed_grid = pointed_seats(_boxed(*coarse), coarse[0].count, coarse[1].count)
    pointed = edge_seams(surface, pointed_grid)
    if pointed > straight and lattice.turns == "chequered":
        return _pointed(
            surface,
            _coarser(lattice),
            coarse,
            pointed - straight,
            "between them lie others alike",
        )
    if pointed > straight or _seams_alternate(surface, runs):
        return None
    return _straight(surface, lattice, runs, min(1.0, straight - pointed))


def _seams_alternate(surface: Surface, runs: tuple[Run, Run]) -> bool:
    """Whether every other line between the supposed blocks carries hardly a seam."""
    field = _boxed(*runs)
    across = line_strengths(surface, field, runs[0].count)
    down = line_strengths(surface.transposed(), field.transposed(), runs[1].count)
    both = [(lines[::2].mean(), lines[1::2].mean()) for lines in (across, down) if len(lines) > 1]
    return any(min(pair) < 0.5 * max(pair) for pair in both)


def _straight(surface: Surface, lattice: Lattice, runs: tuple[Run, Run], sure: float) -> Repeat:
    across, down = runs
    return Repeat(
        setting="straight",
        sashing="none",
        columns=across.count,
        rows=down.count,
        certainty=_certainty(lattice.likeness, max(across.misfit, down.misfit), sure),
        grounds=(
            f"The blocks repeat every {_share(lattice.across, surface.width)} of the width and meet"
            " edge to edge."
        ),
        seats=tuple(upright_seats(_boxed(across, down), across.count, down.count)),
        turns=lattice.turns,
    )


def _pointed(
    surface: Surface, lattice: Lattice, runs: tuple[Run, Run], sure: float, between: str
) -> Repeat:
    across, down = runs
    return Repeat(
        setting="on point",
        sashing="none",
        columns=across.count,
        rows=down.count,
        certainty=_certainty(lattice.likeness, max(across.misfit, down.misfit), sure),
        grounds=(
            f"The blocks repeat every {_share(lattice.across, surface.width)} of the width, and"
            f" {between}."
        ),
        seats=tuple(pointed_seats(_boxed(across, down), across.count, down.count)),
        turns="",
    )


def _certainty(likeness: float, misfit: float, setting: float) -> float:
    """How sure, 0 to 1: each of the three questions may be the weak one."""
    repeats = min(1.0, 0.55 + likeness)
    counted = float(np.clip(1.1 - 2.5 * misfit, 0.2, 1))
    settled = float(np.clip(0.6 + 0.5 * setting, 0, 1))
    return round(_SUREST * repeats * counted * settled, 2)


def _share(part: float, whole: float) -> str:
    return f"{100 * part / whole:.0f} %"
