"""Markup of drawings: numbers, escaped text, colours by custom property, and repeated pieces."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape
from typing import Final

from catalogue.measurement.drawing_pieces import Field, Kind, PieceArray, Point

PALETTE: Final = {
    "ink": "#3a302b",
    "faint": "#8b7d72",
    "seam": "#fbf7ee",
    "block": "#34557c",
    "block-shade": "#5f7fa3",
    "block-light": "#c9d3dd",
    "alternate": "#f0e6d3",
    "triangle": "#e3d4b8",
    "sash": "#a3483c",
    "cornerstone": "#dcae5c",
    "border-1": "#7d8f6f",
    "border-2": "#cdb68f",
    "border-3": "#8a5f4b",
    "border-4": "#64748b",
    "binding": "#2c3b50",
    "ground": "#f7f0e1",
    "measured": "#c0392b",
    "paper": "#fffdf8",
}
"""Colours by name; each stands as the custom property --drawing-NAME with this as its fallback."""

_FILL_OF: Final[dict[Kind, str]] = {
    "blocks": "block",
    "half_blocks": "block",
    "alternate_blocks": "alternate",
    "side_triangles": "triangle",
    "corner_triangles": "triangle",
    "sash_strips": "sash",
    "cut_strips": "sash",
    "cornerstones": "cornerstone",
    "cut_cornerstones": "cornerstone",
}
_IN_LINES: Final = {"seam": "faint", "ink": "ink", "measured": "measured"}
_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_PREFIX = re.compile(r"[A-Za-z][A-Za-z0-9_-]{0,63}")


class DrawingError(ValueError):
    """The drawing cannot be made; the message says what to change."""


@dataclass(frozen=True, slots=True)
class Pen:
    """How a drawing is written: the prefix of its ids, and its colours.

    `plain_colours` writes the fallback colours alone, for readers that know no custom properties;
    `line_drawing` leaves pieces white between their seams, to write on.
    """

    prefix: str
    plain_colours: bool = False
    line_drawing: bool = False

    def __post_init__(self) -> None:
        if not _PREFIX.fullmatch(self.prefix):
            raise DrawingError(
                f"A prefix of ids is a letter, then letters, digits, - or _, not {self.prefix!r}."
            )

    def colour(self, name: str) -> str:
        """The colour as an attribute value."""
        if self.line_drawing:
            name = _IN_LINES.get(name, "paper")
        fallback = PALETTE[name]
        return fallback if self.plain_colours else f"var(--drawing-{name},{fallback})"

    def id(self, name: str) -> str:
        """An id that no other drawing on the page has."""
        return f"{self.prefix}-{name}"


def text_safe(text: str) -> str:
    """The text with markup escaped and characters that XML forbids left out."""
    return escape(_NOT_IN_XML.sub("", text))


def number(value: float) -> str:
    """A coordinate to a hundredth, as short as it can be written."""
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def path(points: Sequence[Point]) -> str:
    """The data of a closed path through the points."""
    (x, y), *rest = points
    steps = " ".join(f"{number(px)} {number(py)}" for px, py in rest)
    return f"M{number(x)} {number(y)}L{steps}Z"


def rect(x: float, y: float, width: float, length: float, attributes: str) -> str:
    """An upright rectangle."""
    return (
        f'<rect x="{number(x)}" y="{number(y)}" width="{number(width)}"'
        f' height="{number(length)}" {attributes}/>'
    )


def pieces_markup(field: Field, pen: Pen, *, motif: bool) -> str:
    """All pieces of the field, grouped by kind; like ones are drawn once and repeated.

    `motif` marks pieced blocks with a square set in a square, which stands for any patchwork.
    """
    parts: list[str] = []
    for index, array in enumerate(field.arrays):
        name = _FILL_OF[array.kind] + ("-shade" if array.tone else "")
        pieced = motif and array.kind in ("blocks", "half_blocks")
        drawn = _repeated(array, pen, f"a{index}", _piece(array, pen, pieced=pieced))
        parts.append(
            f'<g class="drawing-{array.kind.replace("_", "-")}" fill="{pen.colour(name)}">'
            f"{drawn}</g>"
        )
    return "".join(parts)


def _piece(array: PieceArray, pen: Pen, *, pieced: bool) -> str:
    outer = f'<path d="{path(array.shape)}"/>'
    if not pieced:
        return outer
    outline = _whole(array.shape) if array.kind == "half_blocks" else array.shape
    middle = _shrunk(_midpoints(outline))
    inner = _midpoints(middle)
    return (
        f"{outer}"
        f'<path class="drawing-motif" d="{path(middle)}" fill="{pen.colour("block-light")}"/>'
        f'<path class="drawing-motif" d="{path(inner)}" fill="{pen.colour("block-shade")}"/>'
    )


def _whole(half: Sequence[Point]) -> tuple[Point, ...]:
    """The block on point that the half, two ends of the cut and a point, was cut from."""
    (ax, ay), (bx, by), (px, py) = half
    return (ax, ay), (px, py), (bx, by), (ax + bx - px, ay + by - py)


def _shrunk(shape: Sequence[Point]) -> tuple[Point, ...]:
    """The shape at four fifths of its size, so that the block's own edge stays plain to see."""
    across = sum(x for x, _ in shape) / len(shape)
    down = sum(y for _, y in shape) / len(shape)
    return tuple((across + (x - across) * 0.8, down + (y - down) * 0.8) for x, y in shape)


def _midpoints(shape: Sequence[Point]) -> tuple[Point, ...]:
    following = (*shape[1:], shape[0])
    pairs = zip(shape, following, strict=True)
    return tuple(((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in pairs)


def labelled(pen: Pen, title: str, description: str, view: str, body: str) -> str:
    """The whole document: an image that screen readers name by its title and description."""
    heads = "".join(
        f'<{tag} id="{pen.id(tag)}">{text_safe(text)}</{tag}>'
        for tag, text in (("title", title), ("desc", description))
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="{view}" role="img"'
        f' aria-labelledby="{pen.id("title")} {pen.id("desc")}"'
        f' font-family="system-ui, sans-serif" fill="{pen.colour("ink")}">{heads}{body}</svg>'
    )


def _repeated(array: PieceArray, pen: Pen, name: str, piece: str) -> str:
    """The piece, then its row by reference, then the rows by reference to the first."""
    row = _copies(piece, pen.id(f"{name}p"), array.across, lambda n: (n * array.step[0], 0.0))
    return _copies(row, pen.id(f"{name}r"), array.down, lambda n: (0.0, n * array.step[1]))


def _copies(first: str, ident: str, count: int, place: Callable[[int], Point]) -> str:
    if count == 1:
        return first
    uses = "".join(_use(ident, *place(n)) for n in range(1, count))
    return f'<g id="{ident}">{first}</g>{uses}'


def _use(ident: str, x: float, y: float) -> str:
    at_x = f' x="{number(x)}"' if x else ""
    at_y = f' y="{number(y)}"' if y else ""
    return f'<use href="#{ident}"{at_x}{at_y}/>'
