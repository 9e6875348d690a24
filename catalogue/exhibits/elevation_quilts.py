"""The quilts of an elevation: cloth, number, title and size, heights of the edges."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.exhibits.elevation_sheet import Sheet
from catalogue.exhibits.svg import LETTER, Pen, number, wrapped
from catalogue.exhibits.walls import Hung, say


def quilts(sheet: Sheet) -> Iterator[str]:
    """Every quilt of the wall in its place."""
    numbers = {quilt.key: index for index, quilt in enumerate(sheet.plan.quilts, 1)}
    if sheet.hung:
        yield _quilting(sheet.pen)
    for hung in sheet.hung:
        yield "".join(_quilt(sheet, hung, numbers[hung.quilt.key]))


def _quilting(pen: Pen) -> str:
    """The crosshatch that makes a rectangle look like cloth."""
    stroke = f'stroke="{pen.colour("quilt-light")}" stroke-width="0.35" fill="none"'
    return (
        f'<defs><pattern id="{pen.id("quilting")}" width="6" height="6"'
        f' patternUnits="userSpaceOnUse"><path d="M0 0L6 6M6 0L0 6" {stroke}/></pattern></defs>'
    )


def _quilt(sheet: Sheet, hung: Hung, index: int) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    width, length = float(hung.box.width), float(hung.box.height)
    x, y = float(hung.box.x), sheet.y(float(hung.box.top))
    border = min(width, length) * 0.08
    inner = width - 2 * border, length - 2 * border
    yield f'<g class="drawing-quilt" transform="translate({number(x)} {number(y)})">'
    yield pen.rect(0.8, 1.2, width, length, "ink", 'fill-opacity="0.16"')
    yield pen.rect(0, 0, width, length, "quilt")
    yield (
        f'<rect x="{number(border)}" y="{number(border)}" width="{number(inner[0])}"'
        f' height="{number(inner[1])}" fill="url(#{pen.id("quilting")})"'
        f' stroke="{pen.colour("quilt-light")}" stroke-width="0.5"/>'
    )
    yield from _named(sheet, hung, index)
    if hung.quilt.key in sheet.marked:
        yield _mark(sheet, width, length)
    reach = min(2, t * 0.5)
    yield pen.line(-reach, 0, width + reach, 0, "ink", sheet.thin * 1.8)
    yield pen.text(width / 2, -t * 0.45, say(hung.box.top, sheet.unit), t)
    low = float(hung.box.y) < t * 1.5
    below, colour = (-t * 0.4, "on-quilt") if low else (t * 1.1, "ink")
    yield pen.text(width / 2, length + below, say(hung.box.y, sheet.unit), t, colour)
    yield "</g>"


def _mark(sheet: Sheet, width: float, length: float) -> str:
    """A dashed line round a quilt of which something is said."""
    t = sheet.size
    return (
        f'<rect class="drawing-marked" x="{number(-t * 0.4)}" y="{number(-t * 0.4)}"'
        f' width="{number(width + t * 0.8)}" height="{number(length + t * 0.8)}" fill="none"'
        f' stroke="{sheet.pen.colour("line")}" stroke-width="{number(sheet.thin * 3)}"'
        f' stroke-dasharray="{number(t * 0.9)} {number(t * 0.5)}"/>'
    )


def _named(sheet: Sheet, hung: Hung, index: int) -> Iterator[str]:
    """Number, title and size in the middle of the quilt, as much as it holds."""
    pen, t = sheet.pen, sheet.size
    width, length = float(hung.box.width), float(hung.box.height)
    letters = int(width * 0.84 / (LETTER * t))
    size = f"{sheet.bare(width)} × {say(hung.box.height, sheet.unit)}"
    lines = wrapped(hung.quilt.title, letters, 3) if letters >= 8 and hung.quilt.title else []
    small = [size] if len(size) <= letters + 1 else []
    if t * (3 + 1.25 * (len(lines) + len(small))) > length * 0.9:
        small = []
    if t * (3 + 1.25 * len(lines)) > length * 0.9:
        lines = []
    y = length / 2 - t * 1.25 * (len(lines) + len(small)) / 2
    round_ = min(t * 1.15, width * 0.42, length * 0.42)
    middle = y - t * 0.3 if lines or small else length / 2
    yield (
        f'<circle cx="{number(width / 2)}" cy="{number(middle)}" r="{number(round_)}"'
        f' fill="{pen.colour("on-quilt")}"/>'
    )
    digit, weight = round_ * 1.12, 'font-weight="600"'
    yield pen.text(width / 2, middle + digit * 0.36, str(index), digit, "quilt", weight)
    for row, line in enumerate(lines):
        yield pen.text(width / 2, y + t * (2.2 + 1.25 * row), line, t, "on-quilt")
    for line in small:
        yield pen.text(width / 2, y + t * (2.2 + 1.25 * len(lines)), line, t * 0.88, "on-quilt")
