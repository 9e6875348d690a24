"""A wall of a hanging plan drawn to scale: quilts with their heights, obstacles, gaps, labels.

The drawing's unit is the inch. Ids begin with a prefix, so that several walls can stand on one
page; colours are the custom properties of `svg.PALETTE` with fallbacks, `plain_colours` writes the
fallbacks alone, for print.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.exhibits.elevation_fixtures import PERSON_HEIGHT, fixture, person
from catalogue.exhibits.places_for_labels import label_places
from catalogue.exhibits.svg import LETTER, Pen, number, wrapped
from catalogue.exhibits.walls import HangingPlan, Hung, Wall, say
from catalogue.values.lengths import Unit, format_inches

_PERSON_ROOM = 34.0


def draw_elevation(
    wall_name: str,
    plan: HangingPlan,
    unit: Unit = "in",
    *,
    prefix: str = "wall",
    title: str | None = None,
    plain_colours: bool = False,
) -> str:
    """One wall of the plan to scale, as SVG with a title and a description in words.

    Above and below each quilt stand the heights of its edges above the floor, under the floor the
    widths and gaps. Raises PlanError where the plan has no such wall, DrawingError for a prefix
    that cannot begin an id.
    """
    wall = plan.wall(wall_name)
    sheet = _Sheet(Pen(prefix, plain_colours), plan, wall, unit)
    body = "".join(part for draw in _PARTS for part in draw(sheet))
    named = title or f"Elevation of the wall “{wall.name}”"
    return sheet.pen.document(named, describe_elevation(wall.name, plan, unit), sheet.view, body)


def describe_elevation(wall_name: str, plan: HangingPlan, unit: Unit = "in") -> str:
    """The elevation in sentences, for those who do not see it."""
    wall = plan.wall(wall_name)
    size = f"{say(wall.box.width, unit)} long and {say(wall.box.height, unit)} high"
    sentences = [f"The wall is {size}, drawn to scale."]
    for obstacle in wall.obstacles:
        box = obstacle.box
        sentences.append(
            f"{obstacle.called.capitalize()}, {say(box.width, unit)} wide and"
            f" {say(box.height, unit)} high, {say(box.x, unit)} from the left end and"
            f" {say(box.y, unit)} above the floor."
        )
    for hung in plan.on(wall_name):
        box = hung.box
        sentences.append(
            f"{hung.quilt.called}, {say(box.width, unit)} wide and {say(box.height, unit)} long,"
            f" {say(box.x, unit)} from the left end, upper edge {say(box.top, unit)} and lower"
            f" edge {say(box.y, unit)} above the floor."
        )
    if len(sentences) == 1 + len(wall.obstacles):
        sentences.append("No quilt hangs on it.")
    return " ".join(sentences)


@dataclass(frozen=True)
class _Sheet:
    """The wall with the size of type that fits it, and the drawing's own coordinates."""

    pen: Pen
    plan: HangingPlan
    wall: Wall
    unit: Unit

    @property
    def length(self) -> float:
        return float(self.wall.box.width)

    @property
    def height(self) -> float:
        return float(self.wall.box.height)

    @property
    def size(self) -> float:
        """Height of the type in inches: a hundredth of what is drawn, whatever the wall."""
        return max((self.length + 2 * _PERSON_ROOM) * 0.012, self.height * 0.02)

    @property
    def hung(self) -> tuple[Hung, ...]:
        return self.plan.on(self.wall.name)

    @property
    def view(self) -> str:
        t = self.size
        left, right, above = -_PERSON_ROOM - t, self.length + 10.2 * t, -3 * t
        below = self.height + self.chain_depth + 9.4 * t
        return " ".join(number(v) for v in (left, above, right - left, below - above))

    @property
    def stops(self) -> list[float]:
        """The ends of the wall and the sides of every quilt along it."""
        sides = [float(side) for hung in self.hung for side in (hung.box.x, hung.box.right)]
        return sorted({0.0, self.length, *sides})

    @property
    def chain_depth(self) -> float:
        """Room for those lengths of the chain that stand upright in too short a stretch."""
        upright = [len(words) for words, fits in self.chain if not fits]
        return max(upright, default=0) * LETTER * self.size * 0.9

    @property
    def chain(self) -> list[tuple[str, bool]]:
        """The length of every stretch between stops, and whether it fits there lying down."""
        found = []
        for left, right in zip(self.stops, self.stops[1:], strict=False):
            words = self.bare(right - left)
            found.append((words, len(words) * LETTER * self.size * 0.9 <= (right - left) * 0.94))
        return found

    def bare(self, inches: float) -> str:
        """A length without its unit."""
        if self.unit == "in":
            return format_inches(inches, typographic=True)
        return f"{inches * 2.54:.1f}".removesuffix(".0")

    def y(self, above_floor: float) -> float:
        """Where a height above the floor stands in the drawing."""
        return self.height - above_floor


def _wall(sheet: _Sheet) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    edge = f'stroke="{pen.colour("soft")}" stroke-width="0.5"'
    yield pen.rect(0, 0, sheet.length, sheet.height, "paper", edge)
    yield pen.rect(0, 0, sheet.length, sheet.height, "floor", 'fill-opacity="0.22"')
    yield person(pen, -_PERSON_ROOM / 2 - t * 0.4, sheet.height)
    across = sheet.length + _PERSON_ROOM + 2 * t
    yield pen.rect(-_PERSON_ROOM, sheet.height, across, 1.4, "floor")
    yield pen.line(-_PERSON_ROOM, sheet.height, across - _PERSON_ROOM, sheet.height, "ink", 0.6)


def _obstacles(sheet: _Sheet) -> Iterator[str]:
    for obstacle in sheet.wall.obstacles:
        yield fixture(obstacle, sheet.pen, sheet.height)


def _centre_line(sheet: _Sheet) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    line = sheet.plan.rules.centre_line
    y = sheet.y(float(line))
    dashes = f'stroke-dasharray="{number(t)} {number(t * 0.6)}"'
    yield pen.line(0, y, sheet.length + t, y, "line", 0.5, dashes)
    at = sheet.length + t * 1.5
    start = 'text-anchor="start"'
    yield pen.text(at, y - t * 0.15, say(line, sheet.unit), t, "ink", start)
    yield pen.text(at, y + t * 0.9, "centre line", t * 0.85, "soft", start)


def _quilts(sheet: _Sheet) -> Iterator[str]:
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


def _quilt(sheet: _Sheet, hung: Hung, index: int) -> Iterator[str]:
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
    yield pen.line(-2, 0, width + 2, 0, "ink", 0.9)
    yield pen.text(width / 2, -t * 0.45, say(hung.box.top, sheet.unit), t)
    low = float(hung.box.y) < t * 1.5
    below, colour = (-t * 0.4, "on-quilt") if low else (t * 1.1, "ink")
    yield pen.text(width / 2, length + below, say(hung.box.y, sheet.unit), t, colour)
    yield "</g>"


def _named(sheet: _Sheet, hung: Hung, index: int) -> Iterator[str]:
    """Number, title and size in the middle of the quilt, as much as it holds."""
    pen, t = sheet.pen, sheet.size
    width, length = float(hung.box.width), float(hung.box.height)
    letters = int(width * 0.84 / (LETTER * t))
    size = f"{sheet.bare(width)} × {say(hung.box.height, sheet.unit)}"
    lines = wrapped(hung.quilt.title, letters, 3) if letters >= 8 and hung.quilt.title else []
    small = [size] if len(size) <= letters + 1 else []
    if t * (3 + 1.25 * (len(lines) + len(small))) > length * 0.9:
        lines, small = [], []
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


def _labels(sheet: _Sheet) -> Iterator[str]:
    pen = sheet.pen
    for place in label_places(sheet.plan):
        if place.wall != sheet.wall.name:
            continue
        box = place.box
        x, y, width = float(box.x), sheet.y(float(box.top)), float(box.width)
        edge = f'stroke="{pen.colour("soft")}" stroke-width="0.4"'
        yield pen.rect(x, y, width, float(box.height), "paper", edge)
        for share, long in ((0.28, 0.55), (0.5, 0.76), (0.72, 0.68)):
            at = y + float(box.height) * share
            yield pen.line(x + width * 0.12, at, x + width * (0.12 + long), at, "soft", 0.4)


def _lengths(sheet: _Sheet) -> Iterator[str]:
    """The chain of gaps and widths under the floor, and the wall's own length and height."""
    pen, t = sheet.pen, sheet.size
    y = sheet.height + t * 1.6
    if len(sheet.stops) > 2:
        yield from _chain(sheet, y)
    below = y + sheet.chain_depth + t * 2.6 if len(sheet.stops) > 2 else y + t * 0.6
    yield pen.line(0, below, sheet.length, below, "soft", 0.4)
    yield from (_tick(sheet, x, below) for x in (0.0, sheet.length))
    whole = f"{sheet.wall.name}: {say(sheet.wall.box.width, sheet.unit)} long"
    yield pen.text(sheet.length / 2, below + t * 1.2, whole, t)
    at = sheet.length + t * 7.8
    yield pen.line(at, 0, at, sheet.height, "soft", 0.4)
    for end in (0.0, sheet.height):
        yield pen.line(at - t * 0.35, end, at + t * 0.35, end, "soft", 0.6)
    turned = f'transform="rotate(-90 {number(at + t * 1.3)} {number(sheet.height / 2)})"'
    high = f"{say(sheet.wall.box.height, sheet.unit)} high"
    yield pen.text(at + t * 1.3, sheet.height / 2, high, t, "ink", turned)
    yield from _caption(sheet, below + t * 3)


def _chain(sheet: _Sheet, y: float) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    yield pen.line(0, y, sheet.length, y, "soft", 0.4)
    yield from (_tick(sheet, stop, y) for stop in sheet.stops)
    for (words, fits), left, right in zip(sheet.chain, sheet.stops, sheet.stops[1:], strict=False):
        middle, size = (left + right) / 2, t * 0.9
        if fits:
            yield pen.text(middle, y + t * 1.15, words, size)
            continue
        x, top = middle + size * 0.35, y + t * 0.5
        turned = f'text-anchor="end" transform="rotate(-90 {number(x)} {number(top)})"'
        yield pen.text(x, top, words, size, "ink", turned)


def _tick(sheet: _Sheet, x: float, y: float) -> str:
    reach = sheet.size * 0.35
    return sheet.pen.line(x, y - reach, x, y + reach, "soft", 0.6)


def _caption(sheet: _Sheet, y: float) -> Iterator[str]:
    """How to read the figures; the person's height."""
    t = sheet.size
    unit = "inches" if sheet.unit == "in" else "centimetres"
    tall = f"{PERSON_HEIGHT:g} in" if sheet.unit == "in" else f"{PERSON_HEIGHT * 2.54:.0f} cm"
    lines = (
        "Above and below each quilt: its edges' heights above the floor. In each: width × length.",
        f"Under the floor: gaps and widths in {unit}. The person is {tall} tall.",
    )
    for row, line in enumerate(lines):
        start = 'text-anchor="start"'
        yield sheet.pen.text(0, y + t * 1.2 * row, line, t * 0.82, "soft", start)


_PARTS = (_wall, _centre_line, _obstacles, _quilts, _labels, _lengths)
