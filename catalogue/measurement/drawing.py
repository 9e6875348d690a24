"""Layouts drawn to scale as SVG, for pages and print, with words for screen readers.

Every drawing is one well-formed SVG element named by its title and description. Ids begin with a
prefix, so that several drawings can stand on one page. Colours are the custom properties listed in
`drawing_svg.PALETTE`, with fallbacks; `plain_colours` writes the fallbacks alone, for print.
"""

from collections.abc import Sequence

from catalogue.measurement.drawing_dimensions import (
    LETTER,
    Scale,
    caption,
    chain,
    key,
    measured_outline,
    overall_lines,
)
from catalogue.measurement.drawing_quilt import Quilt, quilt_markup, quilt_of
from catalogue.measurement.drawing_svg import DrawingError, Pen, labelled, number
from catalogue.measurement.drawing_words import (
    layout_description,
    layout_title,
    likelihood,
    size_label,
)
from catalogue.measurement.layouts import Layout
from catalogue.values.lengths import Unit

MOST_TIES = 12
TIES_IN_A_ROW = 3


def draw_layout(
    layout: Layout,
    unit: Unit = "in",
    *,
    dimensions: bool = True,
    prefix: str = "layout",
    title: str | None = None,
    plain_colours: bool = False,
) -> str:
    """The layout to scale at its adjusted sizes.

    With `dimensions` it carries dimension lines in `unit`, measured against predicted, the measured
    outline where it shows, and a key; without, it stays legible at 200 pixels. Raises DrawingError
    for a prefix that cannot begin an id.
    """
    pen = Pen(prefix, plain_colours)
    quilt = quilt_of(layout)
    drawn = quilt_markup(quilt, pen)
    view = _bare_view(quilt)
    if dimensions:
        around, view = _dimensioned(quilt, unit, pen)
        drawn += around
    description = layout_description(layout, unit)
    return labelled(pen, title or layout_title(layout), description, _written(view), drawn)


def draw_ties(
    layouts: Sequence[Layout],
    unit: Unit = "in",
    *,
    prefix: str = "ties",
    plain_colours: bool = False,
) -> str:
    """Layouts that the readings cannot tell apart, side by side at one scale, each with its name.

    Raises DrawingError where there is none, or more than twelve.
    """
    if not 0 < len(layouts) <= MOST_TIES:
        raise DrawingError(f"From one to {MOST_TIES} layouts can be drawn together.")
    quilts = [quilt_of(layout) for layout in layouts]
    wide, long = max(q.width for q in quilts), max(q.length for q in quilts)
    scale = Scale(max(wide, long) * 0.04, wide, long)
    captions = [_caption_lines(layout, unit) for layout in layouts]
    room = max(len(line) for lines in captions for line in lines) * LETTER * scale.type_height
    step = max(wide, room) + scale.type_height * 2, long + scale.type_height * 7
    parts: list[str] = []
    for index, (quilt, lines) in enumerate(zip(quilts, captions, strict=True)):
        row, column = divmod(index, TIES_IN_A_ROW)
        x, y = column * step[0] + (step[0] - quilt.width) / 2, row * step[1]
        below = _captions(lines, quilt.width / 2, long, scale)
        drawn = quilt_markup(quilt, Pen(f"{prefix}-{index}", plain_colours)) + below
        parts.append(f'<g transform="translate({number(x)} {number(y)})">{drawn}</g>')
    rows, columns = -(-len(quilts) // TIES_IN_A_ROW), min(len(quilts), TIES_IN_A_ROW)
    view = (0.0, -scale.type_height, columns * step[0], rows * step[1])
    described = " ".join(
        f"{number}: {layout_description(layout, unit)}" for number, layout in enumerate(layouts, 1)
    )
    names = "; ".join(layout_title(layout) for layout in layouts)
    title = f"{len(layouts)} layouts that fit alike: {names}"
    return labelled(Pen(prefix, plain_colours), title, described, _written(view), "".join(parts))


def _dimensioned(
    quilt: Quilt, unit: Unit, pen: Pen
) -> tuple[str, tuple[float, float, float, float]]:
    """Lines, outline and key about the quilt, and the view that holds them."""
    scale = Scale.of(quilt)
    key_at = quilt.length + scale.type_height * 3.6
    entries, height = key(quilt, unit, pen, scale)
    markup = (
        measured_outline(quilt, pen, scale)
        + f'<g class="drawing-dimensions">{overall_lines(quilt, unit, pen, scale)}'
        + chain(quilt, unit, pen, scale)
        + f'<g transform="translate(0 {number(key_at)})">{entries}</g></g>'
    )
    edge, beside = scale.type_height, scale.type_height * 4
    left = edge + (scale.across - quilt.width) / 2
    right = max(beside, left)
    above = max(beside, edge + (scale.down - quilt.length) / 2)
    return markup, (-left, -above, quilt.width + left + right, above + key_at + height)


def _bare_view(quilt: Quilt) -> tuple[float, float, float, float]:
    edge = max(quilt.width, quilt.length) / 60
    return -edge, -edge, quilt.width + 2 * edge, quilt.length + 2 * edge


def _caption_lines(layout: Layout, unit: Unit) -> tuple[str, ...]:
    """What stands under a tie: its name, what it predicts, how likely it is."""
    predicted = f"predicts {size_label(layout.predicted, unit)}"
    return layout_title(layout), predicted, likelihood(layout.probability)


def _captions(lines: Sequence[str], middle: float, below: float, scale: Scale) -> str:
    return "".join(
        caption(middle, below + (1.6 + 1.4 * index) * scale.type_height, line, scale)
        for index, line in enumerate(lines)
    )


def _written(view: tuple[float, float, float, float]) -> str:
    return " ".join(number(value) for value in view)
