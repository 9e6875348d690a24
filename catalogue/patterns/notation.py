"""The drafting notation: a few lines of text that draw a block, read exactly or refused.

    grid 4                     divisions along the top (an oblong block: `grid 2 by 1`)
    b    b/d  b\\d  b           cells, a line a row, in colour roles (see `LETTERS`):
                                 b        a square
                                 b/d b\\d  two triangles, the left one first
                                 b-d b|d  two oblongs, the upper or left one first
                                 bdad     four triangles, clockwise from the top;
                                          neighbours of one letter are one patch
                                 .        left to the pieces below
    d: 1,0 3,0 2,1   x4        a piece by its corners in grid units, four times round
    b: box 1,1 3,3             an oblong by two opposite corners
    l: 0,2 ~2,2 2,0 0,0        `~x,y` rounds the side between its neighbours: the
                                 tangents at its ends meet in x,y
    +a: circle 2,2 1/2         `+` lays a shape on top of what stands before it

Repeats: `x2` half turns, `x4` quarter turns, `mirrored` left to right as well; a shape laid on may
be repeated any other number of times round the middle. Several letters before the colon are taken
in turn by the repeats (`+dl: ... x16`). Numbers: `3`, `1/2`, `1.25`, `2+√2`, `3√3/2`; the two roots
are taken as fractions that are right to one part in a million.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import cos, pi, sin

from catalogue.patterns.coordinates import DraftError, circle, read_number, read_point, rounded
from catalogue.patterns.drafting import (
    Draft,
    Edge,
    Move,
    Patch,
    Point,
    Role,
    clockwise,
    first_fault,
)

LETTERS = {
    "b": Role.BACKGROUND,
    "l": Role.LIGHT,
    "m": Role.MEDIUM,
    "d": Role.DARK,
    "a": Role.ACCENT,
}
MOST_REPEATS = 72

_SPLIT_CELL = re.compile(r"([blmda])([/\\|-])([blmda])")
_SQUARE = ((0, 0), (1, 0), (1, 1), (0, 1))
_HALVES: dict[str, tuple[tuple[tuple[float, float], ...], tuple[tuple[float, float], ...]]] = {
    "/": (((0, 0), (1, 0), (0, 1)), ((1, 0), (1, 1), (0, 1))),
    "\\": (((0, 0), (1, 1), (0, 1)), ((0, 0), (1, 0), (1, 1))),
    "-": (((0, 0), (1, 0), (1, 0.5), (0, 0.5)), ((0, 0.5), (1, 0.5), (1, 1), (0, 1))),
    "|": (((0, 0), (0.5, 0), (0.5, 1), (0, 1)), ((0.5, 0), (1, 0), (1, 1), (0.5, 1))),
}


@dataclass(frozen=True)
class _Frame:
    """The ruled paper: divisions across and down, and the unit that makes the block one wide."""

    across: Fraction
    down: Fraction

    @property
    def whole(self) -> bool:
        return self.across.denominator == 1 and self.down.denominator == 1

    @property
    def middle(self) -> Point:
        return self.across / 2, self.down / 2


def parse_draft(text: str) -> Draft:
    """The drafting that `text` writes in the notation, its pieces proved to tile the block exactly.

    Raises DraftError, one sentence with the line that is wrong, for anything else.
    """
    lines = [line for line in (raw.split("#")[0].strip() for raw in text.splitlines()) if line]
    if not lines or not lines[0].startswith("grid "):
        raise DraftError('A drafting starts with a line such as "grid 3".')
    frame = _read_frame(lines[0])
    cell_lines = [line for line in lines[1:] if ":" not in line]
    patches = [*_read_cells(cell_lines, frame)]
    for line in lines[1:]:
        if ":" in line:
            patches.extend(_read_piece(line, frame))
    scale: Move = lambda p: (p[0] / frame.across, p[1] / frame.across)  # noqa: E731
    divisions = int(frame.across) if frame.whole else None
    draft = Draft(tuple(p.moved(scale) for p in patches), frame.down / frame.across, divisions)
    _require_tiling(draft, frame)
    return draft


def _require_tiling(draft: Draft, frame: _Frame) -> None:
    fault = first_fault(draft)
    if fault is None:
        return
    where = ",".join(_plain(value * frame.across) for value in fault)
    raise DraftError(f"The pieces leave a gap or lie over one another at {where} of the grid.")


def _plain(value: Fraction) -> str:
    return str(value) if value.denominator < 1000 else f"{float(value):.3f}"


def _read_frame(line: str) -> _Frame:
    across, _, down = line.removeprefix("grid ").partition(" by ")
    frame = _Frame(read_number(across.strip()), read_number((down or across).strip()))
    if frame.across <= 0 or frame.down <= 0:
        raise DraftError(f'"{line}" rules no paper: both numbers must be above zero.')
    return frame


# --- cells -------------------------------------------------------------------------------------


def _read_cells(lines: list[str], frame: _Frame) -> Iterator[Patch]:
    if not lines:
        return
    if not frame.whole:
        raise DraftError("Cells need a grid of whole divisions; draw this block by pieces.")
    if len(lines) != frame.down:
        raise DraftError(
            f"The grid has {frame.down} rows, but {len(lines)} rows of cells stand here."
        )
    for row, line in enumerate(lines):
        cells = line.split()
        if len(cells) != frame.across:
            raise DraftError(f'The row "{line}" has {len(cells)} cells, not {frame.across}.')
        for column, cell in enumerate(cells):
            yield from _read_cell(cell, column, row)


def _read_cell(cell: str, column: int, row: int) -> Iterator[Patch]:
    if cell == ".":
        return
    split = _SPLIT_CELL.fullmatch(cell)
    if split:
        for letter, corners in zip((split[1], split[3]), _HALVES[split[2]], strict=True):
            yield _cell_patch(letter, corners, column, row)
    elif len(cell) == 1 and cell in LETTERS:
        yield _cell_patch(cell, _SQUARE, column, row)
    elif len(cell) == 4 and all(letter in LETTERS for letter in cell):
        yield from _quartered(cell, column, row)
    else:
        raise DraftError(f'"{cell}" is not a cell: write b, b/d, b\\d, b-d, b|d, bdad or a dot.')


def _cell_patch(
    letter: str, corners: tuple[tuple[float, float], ...], column: int, row: int
) -> Patch:
    points = [(column + Fraction(x), row + Fraction(y)) for x, y in corners]
    return Patch(LETTERS[letter], _closed(points))


def _quartered(cell: str, column: int, row: int) -> Iterator[Patch]:
    """Quarter triangles clockwise from the top; neighbours of one letter become one patch."""
    starts = [side for side in range(4) if cell[side] != cell[side - 1]]
    if not starts:
        raise DraftError(f'"{cell}" has one colour throughout: write a single letter for a square.')
    for start in starts:
        corners: list[tuple[float, float]] = [(0.5, 0.5), _SQUARE[start]]
        side = start
        while cell[side] == cell[start]:
            side = (side + 1) % 4
            corners.append(_SQUARE[side])
        if len(corners) == 4:  # two quarters make a half: its middle corner is no corner
            corners.pop(0)
        yield _cell_patch(cell[start], tuple(corners), column, row)


def _closed(points: list[Point]) -> tuple[Edge, ...]:
    return clockwise(
        Edge(start, end) for start, end in zip(points, points[1:] + points[:1], strict=True)
    )


# --- pieces ------------------------------------------------------------------------------------


def _read_piece(line: str, frame: _Frame) -> Iterator[Patch]:
    head, _, body = line.partition(":")
    laid = head.startswith("+")
    letters = head.removeprefix("+").strip()
    if not letters or any(letter not in LETTERS for letter in letters):
        raise DraftError(f'"{head}:" is no colour role: use b, l, m, d or a, with + to lay it on.')
    words = body.split()
    repeats = [word for word in words if word == "mirrored" or re.fullmatch(r"x\d+", word)]
    shape = [word for word in words if word not in repeats]
    patch = Patch(LETTERS[letters[0]], clockwise(_shape(shape, line)), laid)
    if patch.area == 0:
        raise DraftError(f'"{line}" encloses nothing.')
    for number, copy in enumerate(_repeated(patch, repeats, frame, line)):
        if any(not _on_paper(corner, frame) for corner in copy.corners):
            raise DraftError(f'"{line}" reaches outside the block.')
        yield replace(copy, role=LETTERS[letters[number % len(letters)]])


def _shape(words: list[str], line: str) -> list[Edge]:
    if words[:1] == ["box"] and len(words) == 3:
        (x0, y0), (x1, y1) = read_point(words[1]), read_point(words[2])
        return list(_closed([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]))
    if words[:1] == ["circle"] and len(words) == 3:
        return list(circle(read_point(words[1]), read_number(words[2])))
    corners = [word for word in words if not word.startswith("~")]
    if len(corners) < 2 or len(words) < 3 or words[0].startswith("~"):
        raise DraftError(f'"{line}" is no shape: write at least three corners, a box or a circle.')
    return list(_sides(words, line))


def _sides(words: list[str], line: str) -> Iterator[Edge]:
    at = 0
    while at < len(words):
        start = read_point(words[at])
        tangent = words[at + 1][1:] if words[at + 1 : at + 2] and words[at + 1][0] == "~" else ""
        at += 2 if tangent else 1
        following = words[at] if at < len(words) else words[0]
        if following.startswith("~"):
            raise DraftError(f'"{line}" has two roundings in a row: a corner must stand between.')
        end = read_point(following)
        yield rounded(start, read_point(tangent), end) if tangent else Edge(start, end)


def _repeated(patch: Patch, repeats: list[str], frame: _Frame, line: str) -> Iterator[Patch]:
    copies = [patch]
    for word in repeats:
        if word == "mirrored":
            copies += [copy.moved(lambda p: (frame.across - p[0], p[1])) for copy in copies]
        else:
            times = int(word[1:])
            if not 2 <= times <= MOST_REPEATS or (times not in (2, 4) and not patch.laid):
                raise DraftError(
                    f'"{line}": pieces repeat x2 or x4, only shapes laid on otherwise.'
                )
            copies = [copy.moved(_turn(n, times, frame)) for n in range(times) for copy in copies]
    yield from copies


def _turn(step: int, times: int, frame: _Frame) -> Move:
    """A turn by `step` of `times` round the middle, exact for quarter turns."""
    angle = 2 * pi * step / times
    c, s = (Fraction(round(f(angle) * 10**6), 10**6) for f in (cos, sin))
    mx, my = frame.middle
    return lambda p: (
        mx + c * (p[0] - mx) - s * (p[1] - my),
        my + s * (p[0] - mx) + c * (p[1] - my),
    )


def _on_paper(corner: Point, frame: _Frame) -> bool:
    return 0 <= corner[0] <= frame.across and 0 <= corner[1] <= frame.down
