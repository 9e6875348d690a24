"""The quilt itself, drawn to scale: binding, borders, and the field of pieces inside them."""

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.measurement.drawing_fields import lay_out
from catalogue.measurement.drawing_pieces import Field
from catalogue.measurement.drawing_svg import Pen, number, pieces_markup, rect
from catalogue.measurement.layouts import Layout, Sides

_BORDERS = ("border-1", "border-2", "border-3", "border-4")
_WITHOUT_MOTIF = ("bars", "one-patch", "hexagon")


@dataclass(frozen=True, slots=True)
class Frame:
    """An upright rectangle in inches from the quilt's top left corner, and its colour."""

    colour: str
    x: float
    y: float
    width: float
    length: float

    def inside(self, sides: Sides, colour: str) -> "Frame":
        """The rectangle left inside strips of those widths; never less than nothing."""
        return Frame(
            colour,
            self.x + sides.left,
            self.y + sides.top,
            max(0.0, self.width - sides.left - sides.right),
            max(0.0, self.length - sides.top - sides.bottom),
        )


@dataclass(frozen=True, slots=True)
class Quilt:
    """A layout as rectangles from the outside in, the last one holding the field of pieces."""

    layout: Layout
    frames: tuple[Frame, ...]
    field: Field

    @property
    def width(self) -> float:
        """Inches across, edge to edge."""
        return self.frames[0].width

    @property
    def length(self) -> float:
        """Inches from top to bottom, edge to edge."""
        return self.frames[0].length

    @property
    def origin(self) -> tuple[float, float]:
        """Where the field's top left corner lies: it is centred in what the borders leave."""
        inner = self.frames[-1]
        across, down = inner.width - self.field.width, inner.length - self.field.length
        return inner.x + across / 2, inner.y + down / 2


def border_colour(index: int) -> str:
    """The colour of the border of that index, counted from the inside out."""
    return _BORDERS[index % len(_BORDERS)]


def quilt_of(layout: Layout) -> Quilt:
    """The layout's adjusted sizes turned into rectangles and pieces."""
    return Quilt(layout, tuple(_frames(layout)), lay_out(layout))


def quilt_markup(quilt: Quilt, pen: Pen) -> str:
    """The quilt with every piece in its place; seams are drawn no wider than pieces allow."""
    seam = _seam_width(quilt)
    frames = "".join(_frame(frame, index, pen) for index, frame in enumerate(quilt.frames))
    x, y = quilt.origin
    motif = quilt.layout.setting not in _WITHOUT_MOTIF and not pen.line_drawing
    pieces = pieces_markup(quilt.field, pen, motif=motif) or _quilting(quilt, pen)
    clip, clipped = _clip(quilt, pen)
    return (
        f'<g class="drawing-quilt" stroke="{pen.colour("seam")}" stroke-width="{number(seam)}"'
        f' stroke-linejoin="round">{clip}{frames}'
        f'<g transform="translate({number(x)} {number(y)})"{clipped}>{pieces}</g>'
        f"{_seam_allowance(quilt, pen)}</g>"
    )


def _frame(frame: Frame, index: int, pen: Pen) -> str:
    """One border; the outermost edge has no seam, which would hide a narrow binding."""
    bare = ' stroke="none"' if index == 0 and not pen.line_drawing else ""
    attributes = f'class="drawing-frame" fill="{pen.colour(frame.colour)}"{bare}'
    return rect(frame.x, frame.y, frame.width, frame.length, attributes)


def _clip(quilt: Quilt, pen: Pen) -> tuple[str, str]:
    """What keeps half-blocks and strips that run out within the field, where there are any."""
    kinds = {array.kind for array in quilt.field.arrays}
    if not kinds & {"half_blocks", "cut_strips"}:
        return "", ""
    name, edge = pen.id("field"), _seam_width(quilt) / 2
    around = rect(-edge, -edge, quilt.field.width + 2 * edge, quilt.field.length + 2 * edge, "")
    return f'<clipPath id="{name}">{around}</clipPath>', f' clip-path="url(#{name})"'


def _frames(layout: Layout) -> Iterator[Frame]:
    sizes = layout.dimensions
    borders = [*enumerate(sizes.borders)]
    outermost = border_colour(borders[-1][0]) if borders else "ground"
    edge = Frame("binding" if sizes.binding else outermost, 0, 0, *_overall(layout))
    yield edge
    around = sizes.binding + sizes.raw_edge
    current = edge
    for index, sides in reversed(borders):
        current = current.inside(_even(around), border_colour(index))
        around = 0.0
        yield current
        current = current.inside(sides, "ground")
    yield current.inside(_even(around), "ground")


def _overall(layout: Layout) -> tuple[float, float]:
    return layout.dimensions.overall.width, layout.dimensions.overall.length


def _even(width: float) -> Sides:
    return Sides(width, width, width, width)


def _seam_width(quilt: Quilt) -> float:
    """A three-hundredth of the quilt, but no more than a tenth of the smallest piece."""
    widest = max(quilt.width, quilt.length) / 300
    smallest = [
        max(abs(ax - bx) + abs(ay - by) for ax, ay in array.shape for bx, by in array.shape)
        for array in quilt.field.arrays
        if array.kind in ("blocks", "alternate_blocks")
    ]
    return max(0.01, min([widest, *(size / 20 for size in smallest)]))


def _quilting(quilt: Quilt, pen: Pen) -> str:
    """Crossing lines of quilting, for a quilt of which no repeat is recorded."""
    inner = quilt.frames[-1]
    step = max(inner.width, inner.length, 1) / 16
    cell, name = number(step), pen.id("quilting")
    return (
        f'<pattern id="{name}" width="{cell}" height="{cell}" patternUnits="userSpaceOnUse">'
        f'<path d="M0 0L{cell} {cell}M{cell} 0L0 {cell}" stroke="{pen.colour("faint")}"'
        f' stroke-dasharray="{number(step / 8)}" stroke-opacity="0.7"/></pattern>'
        + rect(
            -inner.width / 2, -inner.length / 2, inner.width, inner.length, f'fill="url(#{name})"'
        )
    )


def _seam_allowance(quilt: Quilt, pen: Pen) -> str:
    """The line of the seam to come, where the edge is raw."""
    raw = quilt.layout.dimensions.raw_edge
    if not raw:
        return ""
    line = quilt.frames[0].inside(_even(raw), "ground")
    dash = number(max(quilt.width, quilt.length) / 80)
    attributes = f'class="drawing-raw-edge" fill="none" stroke-dasharray="{dash}"'
    return rect(
        line.x, line.y, line.width, line.length, attributes + f' stroke="{pen.colour("ink")}"'
    )
