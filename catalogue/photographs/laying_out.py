"""The layout that a squared-up photograph shows: setting, sashing, columns, rows, or no repeat."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np

from catalogue.photographs.cells import Seat
from catalogue.photographs.field import Extent, Run, find_extent, fit_run, full_seams
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.pointed import find_plain_squares
from catalogue.photographs.pointed_sashing import with_sashing
from catalogue.photographs.repeat import (
    NoRepeat,
    Repeat,
    boxed,
    certainty_of,
    repeats_every,
    set_on_point,
    set_straight,
)
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
from catalogue.photographs.strips import lies_in_strips
from catalogue.photographs.surface import Surface

Spans = list[tuple[float, float]]

_LEAST_LIKENESS = 0.24  # crazy quilts stay under 0.2, pictures seldom come above, blocks above 0.33
_HALF_A_BLOCK = 0.38  # of a repeat, the strip itself and its neighbours' blur left out
_FEWEST = 4  # blocks; fewer are no repeat
_ANOTHER_CLOTH = 6.0  # colour difference (CIELAB) from which triangles are of a cloth of their own
_IN_STRIPS = 0.8  # certainty that a quilt lies in strips, where it seems so; a guess
_MOVED = 6  # pixels of the surface by which an end of the field may be moved to fit triangles
_FAINTEST = 0.2  # certainty under which hardly a layout was right


def find_repeat(surface: Surface, lattice: Lattice | None) -> Repeat | NoRepeat:
    """The layout of the quilt on the surface, or why it has none to speak of."""
    likeness = lattice.likeness if lattice else 0.0
    if lattice is None or likeness < _LEAST_LIKENESS:
        return NoRepeat(_NOTHING, round(1 - likeness / _LEAST_LIKENESS / 2, 2))
    extent = find_extent(surface, lattice)
    if lies_in_strips(surface, lattice, extent):
        return NoRepeat(_STRIPS, _IN_STRIPS)
    repeat = _laid_out(surface, lattice, extent)
    if repeat.columns * repeat.rows < _FEWEST or repeat.certainty < _FAINTEST:
        return NoRepeat(_SOMETHING, 0.5)
    return with_sashing(surface, repeat) if repeat.setting == "on point" else repeat


_NOTHING = "However far it is moved across or down, the quilt does not come to lie on itself."
_SOMETHING = "Something comes back, but too faintly or too seldom to say how blocks would be set."
_STRIPS = (
    "Strips run the whole length without a break: bars, a strippy or a zigzag set, whose blocks"
    " are not counted here."
)


def _laid_out(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat:
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
        certainty=certainty_of(lattice.likeness, 0.0, sashing.sharpness),
        grounds=(
            f"{repeats_every(lattice, surface)}, and one cloth runs straight between them both ways"
            + (" and round the outside." if framed else ", but not round the outside.")
        ),
        seats=tuple(Seat.upright(*column, *row) for row in down for column in across),
        turns=lattice.turns,
    )


def _between_strips(ends: tuple[float, float], repeat: float, strip: float, width: float) -> Spans:
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


def _cuts_blocks(extent: Extent, lattice: Lattice, across: Spans, down: Spans) -> bool:
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
    seats = pointed_seats(boxed(*runs), runs[0].count, runs[1].count)
    if not seats or plain_share(surface, seats) > 0.92 or seams_upright(surface, seats) > 0.85:
        return None
    whole = replace(lattice, across=across, down=down, turns="")
    return set_on_point(
        surface, whole, runs, squares.sharpness, "between them lie plain squares on their corners"
    )


def _within_triangles(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat | None:
    """Blocks on point among squares of their own ground, None where no triangles frame them."""
    whole = _coarser(lattice)
    runs = _runs(surface, whole, extent)
    if _zigzag(surface, runs) < _ANOTHER_CLOTH:
        return None
    runs = _drawn_to_triangles(surface, runs)
    differ = _zigzag(surface, runs)
    between = "triangles of another cloth run round them in a zigzag"
    return set_on_point(surface, whole, runs, min(1.0, differ / 20), between)


def _zigzag(surface: Surface, runs: tuple[Run, Run]) -> float:
    across, down = runs
    seats = pointed_seats(boxed(across, down), across.count, down.count)
    return outer_triangles(surface, seats, across.count)


def _drawn_to_triangles(surface: Surface, runs: tuple[Run, Run]) -> tuple[Run, Run]:
    """The field with each of its ends moved, one by one, to where the zigzag is sharpest."""
    for _ in range(2):
        for axis, end in product((0, 1), ("start", "end")):
            moved = [
                replace(runs[axis], **{end: getattr(runs[axis], end) + step})
                for step in range(-_MOVED, _MOVED + 1)
            ]
            tried = [(runs[0], run) if axis else (run, runs[1]) for run in moved]
            runs = max(tried, key=lambda both: _zigzag(surface, both))
    return runs


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
        return set_straight(surface, _finer(lattice), finer, 1.0)
    return set_straight(surface, lattice, runs, 1.0)


def _fits_better(finer: tuple[Run, Run], coarse: tuple[Run, Run]) -> bool:
    """Whether the field is a whole number of half repeats, and clearly not of whole ones."""
    exact = all(run.misfit < 0.12 and run.beyond < 0.2 for run in finer)
    return exact and any(run.misfit + run.beyond > 0.3 for run in coarse)


def _taking_turns(surface: Surface, lattice: Lattice, extent: Extent) -> Repeat | None:
    """Blocks of two kinds that take turns; None where the blocks are larger than they seemed."""
    runs = _runs(surface, lattice, extent)
    seats = upright_seats(boxed(*runs), runs[0].count, runs[1].count)
    straight = edge_seams(surface, seats)
    coarse = _runs(surface, _coarser(lattice), extent)
    pointed_grid = pointed_seats(boxed(*coarse), coarse[0].count, coarse[1].count)
    pointed = edge_seams(surface, pointed_grid)
    if pointed > straight and lattice.turns == "chequered":
        return set_on_point(
            surface,
            _coarser(lattice),
            coarse,
            pointed - straight,
            "between them lie others alike",
        )
    if pointed > straight or _seams_alternate(surface, runs):
        return None
    return set_straight(surface, lattice, runs, min(1.0, straight - pointed))


def _seams_alternate(surface: Surface, runs: tuple[Run, Run]) -> bool:
    """Whether every other line between the supposed blocks carries hardly a seam."""
    field = boxed(*runs)
    across = line_strengths(surface, field, runs[0].count)
    down = line_strengths(surface.transposed(), field.transposed(), runs[1].count)
    both = [(lines[::2].mean(), lines[1::2].mean()) for lines in (across, down) if len(lines) > 1]
    return any(min(pair) < 0.5 * max(pair) for pair in both)
