"""What a photograph of a whole quilt tells of its layout, and of the block that was turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image

from catalogue.photographs.cells import Seat
from catalogue.photographs.homography import (
    Corners,
    CornersError,
    Matrix,
    carried,
    checked_corners,
    homography,
    proportion,
)
from catalogue.photographs.lattice import find_lattice
from catalogue.photographs.laying_out import find_repeat
from catalogue.photographs.repeat import NoRepeat, Repeat
from catalogue.photographs.straightening import frame_of, straightened
from catalogue.photographs.surface import LONGEST, Surface, read_surface
from catalogue.photographs.turned import Suspect, TurnedReading, find_turned

_MIDDLING = 2 * LONGEST  # pixels on the longer side of the squared-up picture before it is reduced
_COUNTED = 0.35  # certainty of the layout below which blocks are not compared
_UNCERTAIN = (
    "The blocks are too uncertainly counted for one among them to be told as turned: look at every"
    " block."
)


@dataclass(frozen=True)
class TurnedBlock:
    """A block that fits its fellows only when turned or mirrored; a person confirms it.

    `column` and `row` count from 1 at the top left; `turn` is "90", "180" or "270" degrees
    clockwise against the majority as seen from the front, or "mirrored" for every reflection.
    `confidence` runs from 0 to 1, and `offered` says how it is to be shown: "sure" or "have a
    look". `quad` is the block's outline in pixels of the picture, clockwise from its own top left.
    """

    column: int
    row: int
    turn: str
    confidence: float
    offered: str
    quad: Corners


@dataclass(frozen=True)
class PhotographReading:
    """The layout that a photograph shows, how sure, and on what grounds.

    `setting` is "straight" or "on point", `sashing` "none", "between" or "framed". Where nothing
    repeats, these and the counts are None, and `confidence` is that of there being no repeat. On
    point, columns and rows count the pieced blocks of the main grid. `blocks` are the outlines of
    the grid's blocks, row by row, in pixels of the picture.
    """

    setting: str | None
    sashing: str | None
    columns: int | None
    rows: int | None
    confidence: float
    turned: tuple[TurnedBlock, ...]
    cautions: tuple[str, ...]
    grounds: str
    blocks: tuple[Corners, ...] = ()


def read_photograph(
    picture: Image.Image,
    corners: Sequence[Sequence[float]],
    *,
    width: float | None = None,
    length: float | None = None,
) -> PhotographReading:
    """The layout of the quilt whose corners these are, in pixels, clockwise from the top left.

    `width` and `length`, inches by the tape, give the picture its proportion; without both it is
    judged from the perspective. Raises CornersError where the corners do not go round a quilt.
    """
    checked = checked_corners(corners)
    if width and length:
        shape = width / length
    else:
        shape = proportion(checked, (picture.width / 2, picture.height / 2))
    surface = read_surface(_squared_up(picture, checked, shape))
    repeat = find_repeat(surface, find_lattice(surface))
    if isinstance(repeat, NoRepeat):
        return _without_repeat(repeat)
    onto_picture = homography(frame_of(surface.width, surface.height), checked)
    return _with_repeat(surface, repeat, onto_picture)


def _squared_up(picture: Image.Image, corners: Corners, shape: float) -> Image.Image:
    """The quilt edge to edge, in proportion, as large as it is looked at."""
    wide = round(_MIDDLING * min(1.0, shape))
    high = round(_MIDDLING * min(1.0, 1 / shape))
    small, box, factor = _reduced(picture, corners)
    moved = [((x - box[0]) / factor, (y - box[1]) / factor) for x, y in corners]
    return straightened(small, checked_corners(moved), (wide, high), Image.Resampling.BILINEAR)


def _reduced(
    picture: Image.Image, corners: Corners
) -> tuple[Image.Image, tuple[int, int, int, int], int]:
    """The part that shows the quilt, reduced by a whole factor to no less than is looked at."""
    xs, ys = zip(*corners, strict=True)
    box = (
        max(0, int(min(xs)) - 2),
        max(0, int(min(ys)) - 2),
        min(picture.width, int(max(xs)) + 3),
        min(picture.height, int(max(ys)) + 3),
    )
    if box[0] >= box[2] or box[1] >= box[3]:
        raise CornersError("The corners lie outside the picture.")
    factor = max(1, int(max(box[2] - box[0], box[3] - box[1]) / _MIDDLING))
    whole = picture if picture.mode in ("RGB", "L") else picture.convert("RGB")
    return whole.reduce(factor, box).convert("RGB"), box, factor


def _without_repeat(none: NoRepeat) -> PhotographReading:
    return PhotographReading(
        setting=None,
        sashing=None,
        columns=None,
        rows=None,
        confidence=none.certainty,
        turned=(),
        cautions=(),
        grounds=none.grounds,
    )


def _with_repeat(surface: Surface, repeat: Repeat, onto_picture: Matrix) -> PhotographReading:
    if repeat.certainty < _COUNTED:
        turned = TurnedReading((), (_UNCERTAIN,))
    else:
        turned = find_turned(surface, list(repeat.seats), repeat.columns)
    return PhotographReading(
        setting=repeat.setting,
        sashing=repeat.sashing,
        columns=repeat.columns,
        rows=repeat.rows,
        confidence=repeat.certainty,
        turned=tuple(_placed(suspect, repeat, onto_picture) for suspect in turned.suspects),
        cautions=turned.cautions,
        grounds=repeat.grounds,
        blocks=tuple(_quad(seat, onto_picture) for seat in repeat.seats),
    )


def _placed(suspect: Suspect, repeat: Repeat, onto_picture: Matrix) -> TurnedBlock:
    row, column = divmod(suspect.block, repeat.columns)
    return TurnedBlock(
        column=column + 1,
        row=row + 1,
        turn=suspect.turn,
        confidence=suspect.confidence,
        offered="sure" if suspect.sure else "have a look",
        quad=_quad(repeat.seats[suspect.block], onto_picture),
    )


def _quad(seat: Seat, onto_picture: Matrix) -> Corners:
    """The outline of a block in pixels of the picture."""
    middle, right, down = np.array([seat.x, seat.y]), np.array(seat.right), np.array(seat.down)
    around = [middle - right - down, middle + right - down, middle + right + down]
    points = carried(onto_picture, np.array([*around, middle - right + down]))
    return checked_corners(points.tolist())
