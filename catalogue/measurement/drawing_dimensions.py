"""Dimension lines and the key of a drawing, in the unit of the record."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from catalogue.measurement.drawing_quilt import Quilt, border_colour
from catalogue.measurement.drawing_svg import Pen, number, rect, text_safe
from catalogue.measurement.drawing_words import (
    bare_label,
    block_label,
    border_label,
    length_label,
    measured_size,
)
from catalogue.values.lengths import Unit

LETTER = 0.56
"""Width of a letter over the height of the type, on average."""


@dataclass(frozen=True, slots=True)
class Scale:
    """The height of the type in inches of the drawing, and the room that labels have."""

    type_height: float
    across: float
    down: float

    @classmethod
    def of(cls, quilt: Quilt) -> "Scale":
        """A scale at which labels stay legible, on long narrow quilts too."""
        longest = max(quilt.width, quilt.length)
        across, down = max(quilt.width, longest * 0.6), max(quilt.length, longest * 0.35)
        return cls(longest * 0.032, across, down)

    @property
    def line(self) -> float:
        """Width of a dimension line."""
        return self.type_height * 0.06

    @property
    def away(self) -> float:
        """How far a dimension line stands off the quilt."""
        return self.type_height * 1.2


def overall_lines(quilt: Quilt, unit: Unit, pen: Pen, scale: Scale) -> str:
    """The overall width above and the length at the right, measured against predicted."""
    measured, predicted = measured_size(quilt.layout), quilt.layout.predicted
    across = _against(measured.width, predicted.width, unit, scale, scale.across)
    down = _against(measured.length, predicted.length, unit, scale, scale.down)
    turned = f'<g transform="translate({number(quilt.width)} 0) rotate(90)">'
    return (
        _line(0, quilt.width, -scale.away, across, pen, scale)
        + turned
        + _line(0, quilt.length, -scale.away, down, pen, scale)
        + "</g>"
    )


def measured_outline(quilt: Quilt, pen: Pen, scale: Scale) -> str:
    """The measured size as a broken line about the same centre, where it shows."""
    measured = measured_size(quilt.layout)
    over = measured.width - quilt.width, measured.length - quilt.length
    if max(abs(over[0]), abs(over[1])) < max(quilt.width, quilt.length) / 250:
        return ""
    dash = number(scale.type_height * 0.6)
    return rect(
        -over[0] / 2,
        -over[1] / 2,
        measured.width,
        measured.length,
        f'class="drawing-measured" fill="none" stroke="{pen.colour("measured")}"'
        f' stroke-width="{number(scale.line * 1.6)}" stroke-dasharray="{dash}"',
    )


def chain(quilt: Quilt, unit: Unit, pen: Pen, scale: Scale) -> str:
    """The parts along the bottom from the left edge: borders, the first block, its sashing."""
    y = quilt.length + scale.away
    small = replace(scale, type_height=scale.type_height * 0.85)
    return "".join(
        _line(start, end, y, _fitting(end - start, unit, small), pen, small, below=True)
        for start, end in _segments(quilt)
        if end - start > scale.type_height * 0.3
    )


def key(quilt: Quilt, unit: Unit, pen: Pen, scale: Scale) -> tuple[str, float]:
    """The colours with what they stand for and its size, and the height they take."""
    type_height, gap = scale.type_height, scale.type_height * 1.7
    parts: list[str] = []
    left = (quilt.width - scale.across) / 2
    x, y = left, 0.0
    for colour, label in _entries(quilt, unit):
        wide = type_height * (2.6 + LETTER * len(label))
        if x > left and x + wide > left + scale.across:
            x, y = left, y + gap
        swatch = rect(x, y, type_height * 0.9, type_height * 0.9, f'fill="{pen.colour(colour)}"')
        parts.append(swatch + _text(x + type_height * 1.3, y + type_height * 0.8, label, scale))
        x += wide
    return "".join(parts), y + gap


def _against(measured: float, predicted: float, unit: Unit, scale: Scale, room: float) -> list[str]:
    """The measured and the predicted length, on two lines where one has no room."""
    read, summed = length_label(measured, unit), length_label(predicted, unit)
    if read == summed:
        return [f"{read}, as predicted"]
    lines = [f"{read} measured", f"{summed} predicted"]
    fits = LETTER * scale.type_height * len(", ".join(lines)) <= room
    return [", ".join(lines)] if fits else lines


def _segments(quilt: Quilt) -> Iterator[tuple[float, float]]:
    """Where the parts begin and end along the bottom edge."""
    edges = [frame.x for frame in quilt.frames]
    yield from ((a, b) for a, b in pairwise(edges) if b > a)
    blocks = [a for a in quilt.field.arrays if a.kind in ("blocks", "alternate_blocks")]
    if not blocks:
        return
    x = quilt.origin[0]
    first = min(blocks, key=lambda array: min(px for px, _ in array.shape))
    begin, end = (side(px for px, _ in first.shape) + x for side in (min, max))
    sash = quilt.layout.dimensions.sashing
    if quilt.layout.setting != "on point" and begin - x > 1e-6:
        yield x, begin
    yield begin, end
    if sash and quilt.layout.setting != "on point":
        yield end, end + sash


def _fitting(length: float, unit: Unit, scale: Scale) -> list[str]:
    """The bare number, where it fits between its ticks."""
    label = bare_label(length, unit)
    fits = len(label) * LETTER * scale.type_height < length * 0.95
    return [label] if fits else []


def _line(
    start: float,
    end: float,
    y: float,
    labels: list[str],
    pen: Pen,
    scale: Scale,
    *,
    below: bool = False,
) -> str:
    """A dimension line with slanted ticks at both ends and its labels in the middle."""
    tick = scale.type_height * 0.28
    ends = "".join(
        f"M{number(x - tick)} {number(y + tick)}L{number(x + tick)} {number(y - tick)}"
        for x in (start, end)
    )
    line = (
        f'<path d="M{number(start)} {number(y)}H{number(end)}{ends}" fill="none"'
        f' stroke="{pen.colour("ink")}" stroke-width="{number(scale.line)}"/>'
    )
    first = y + scale.type_height * (1.2 if below else -0.45 - 1.2 * (len(labels) - 1))
    return line + "".join(
        caption((start + end) / 2, first + index * scale.type_height * 1.2, label, scale)
        for index, label in enumerate(labels)
    )


def _text(x: float, y: float, label: str, scale: Scale, *, middle: bool = False) -> str:
    anchor = ' text-anchor="middle"' if middle else ""
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-size="{number(scale.type_height)}"{anchor}>'
        f"{text_safe(label)}</text>"
    )


def _entries(quilt: Quilt, unit: Unit) -> Iterator[tuple[str, str]]:
    sizes, pieces = quilt.layout.dimensions, quilt.layout.pieces
    block = block_label(quilt.layout, unit)
    if block:
        yield "block", block
    if pieces.alternate_blocks:
        yield "alternate", "alternate block"
    if pieces.side_triangles or pieces.corner_triangles:
        yield "triangle", "setting triangles"
    if sizes.sashing:
        name = "strips" if quilt.layout.setting == "strippy" else "sashing"
        yield "sash", f"{name} {length_label(sizes.sashing, unit)}"
    if pieces.cornerstones:
        yield "cornerstone", "cornerstones"
    for index, sides in enumerate(sizes.borders):
        yield border_colour(index), f"border {border_label(sides, unit)}"
    if sizes.float_margin:
        yield "triangle", f"float {border_label(sizes.float_margin, unit)}"
    if sizes.binding:
        yield "binding", f"binding {length_label(sizes.binding, unit)}"


def caption(x: float, y: float, text: str, scale: Scale) -> str:
    """A line of text centred under a drawing."""
    return _text(x, y, text, scale, middle=True)
