"""A wall of a hanging plan drawn to scale: quilts with their heights, obstacles, gaps, labels.

The drawing's unit is the inch. Ids begin with a prefix, so that several walls can stand on one
page; colours are the custom properties of `svg.PALETTE` with fallbacks, `plain_colours` writes the
fallbacks alone, for print.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from catalogue.exhibits.elevation_fixtures import fixture, person
from catalogue.exhibits.elevation_quilts import quilts
from catalogue.exhibits.elevation_sheet import PERSON_ROOM, Sheet
from catalogue.exhibits.elevation_words import describe_elevation
from catalogue.exhibits.places_for_labels import label_places
from catalogue.exhibits.svg import Pen, number
from catalogue.exhibits.walls import HangingPlan, say
from catalogue.values.lengths import Unit


def draw_elevation(
    wall_name: str,
    plan: HangingPlan,
    unit: Unit = "in",
    *,
    prefix: str = "wall",
    title: str | None = None,
    plain_colours: bool = False,
    marked: Iterable[str] = (),
) -> str:
    """One wall of the plan to scale, as SVG with a title and a description in words.

    Above and below each quilt stand the heights of its edges above the floor, under the floor the
    widths and gaps; quilts whose keys are `marked`, by findings say, have a dashed line round
    them. Raises PlanError where the plan has no such wall, DrawingError for a prefix
    that cannot begin an id.
    """
    wall = plan.wall(wall_name)
    sheet = Sheet(Pen(prefix, plain_colours), plan, wall, unit, frozenset(marked))
    body = "".join(part for draw in _PARTS for part in draw(sheet))
    named = title or f"Elevation of the wall “{wall.name}”"
    return sheet.pen.document(named, describe_elevation(wall.name, plan, unit), sheet.view, body)


def _wall(sheet: Sheet) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    edge = f'stroke="{pen.colour("soft")}" stroke-width="{number(sheet.thin)}"'
    yield pen.rect(0, 0, sheet.length, sheet.height, "paper", edge)
    yield pen.rect(0, 0, sheet.length, sheet.height, "floor", 'fill-opacity="0.22"')
    yield person(pen, -PERSON_ROOM / 2 - t * 0.4, sheet.height)
    across = sheet.length + PERSON_ROOM + 2 * t
    yield pen.rect(-PERSON_ROOM, sheet.height, across, 1.4, "floor")
    yield pen.line(
        -PERSON_ROOM, sheet.height, across - PERSON_ROOM, sheet.height, "ink", sheet.thin * 1.2
    )


def _obstacles(sheet: Sheet) -> Iterator[str]:
    for obstacle in sheet.wall.obstacles:
        yield fixture(obstacle, sheet.pen, sheet.height, sheet.thin * 0.9)


def _centre_line(sheet: Sheet) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    line = sheet.plan.rules.centre_line
    y = sheet.y(float(line))
    dashes = f'stroke-dasharray="{number(t)} {number(t * 0.6)}"'
    yield pen.line(0, y, sheet.length + t, y, "line", sheet.thin, dashes)
    at = sheet.length + t * 1.5
    start = 'text-anchor="start"'
    yield pen.text(at, y - t * 0.15, say(line, sheet.unit), t, "ink", start)
    yield pen.text(at, y + t * 0.9, "centre line", t * 0.85, "soft", start)


def _labels(sheet: Sheet) -> Iterator[str]:
    pen = sheet.pen
    for place in label_places(sheet.plan):
        if place.wall != sheet.wall.name:
            continue
        box = place.box
        x, y, width = float(box.x), sheet.y(float(box.top)), float(box.width)
        edge = f'stroke="{pen.colour("soft")}" stroke-width="{number(sheet.thin * 0.8)}"'
        yield pen.rect(x, y, width, float(box.height), "paper", edge)
        for share, long in ((0.28, 0.55), (0.5, 0.76), (0.72, 0.68)):
            at = y + float(box.height) * share
            yield pen.line(
                x + width * 0.12, at, x + width * (0.12 + long), at, "soft", sheet.thin * 0.8
            )


def _lengths(sheet: Sheet) -> Iterator[str]:
    """The chain of gaps and widths under the floor, and the wall's own length and height."""
    pen, t = sheet.pen, sheet.size
    y = sheet.height + t * 1.6
    if len(sheet.stops) > 2:
        yield from _chain(sheet, y)
    below = y + sheet.chain_depth + t * 2.6 if len(sheet.stops) > 2 else y + t * 0.6
    yield pen.line(0, below, sheet.length, below, "soft", sheet.thin * 0.8)
    yield from (_tick(sheet, x, below) for x in (0.0, sheet.length))
    whole = f"{sheet.wall.name}: {say(sheet.wall.box.width, sheet.unit)} long"
    yield pen.text(sheet.length / 2, below + t * 1.2, whole, t)
    at = sheet.length + t * 7.8
    yield pen.line(at, 0, at, sheet.height, "soft", sheet.thin * 0.8)
    for end in (0.0, sheet.height):
        yield pen.line(at - t * 0.35, end, at + t * 0.35, end, "soft", sheet.thin * 1.2)
    turned = f'transform="rotate(-90 {number(at + t * 1.3)} {number(sheet.height / 2)})"'
    high = f"{say(sheet.wall.box.height, sheet.unit)} high"
    yield pen.text(at + t * 1.3, sheet.height / 2, high, t, "ink", turned)
    yield from _caption(sheet, below + t * 3)


def _chain(sheet: Sheet, y: float) -> Iterator[str]:
    pen, t = sheet.pen, sheet.size
    yield pen.line(0, y, sheet.length, y, "soft", sheet.thin * 0.8)
    yield from (_tick(sheet, stop, y) for stop in sheet.stops)
    for (words, fits), left, right in zip(sheet.chain, sheet.stops, sheet.stops[1:], strict=False):
        middle, size = (left + right) / 2, t * 0.9
        if fits:
            yield pen.text(middle, y + t * 1.15, words, size)
            continue
        x, top = middle + size * 0.35, y + t * 0.5
        turned = f'text-anchor="end" transform="rotate(-90 {number(x)} {number(top)})"'
        yield pen.text(x, top, words, size, "ink", turned)


def _tick(sheet: Sheet, x: float, y: float) -> str:
    reach = sheet.size * 0.35
    return sheet.pen.line(x, y - reach, x, y + reach, "soft", sheet.thin * 1.2)


def _caption(sheet: Sheet, y: float) -> Iterator[str]:
    """How to read the figures; the person's height."""
    t = sheet.size
    for row, line in enumerate(sheet.caption):
        start = 'text-anchor="start"'
        yield sheet.pen.text(sheet.left + t, y + t * 1.2 * row, line, t * 0.82, "soft", start)


_PARTS = (_wall, _centre_line, _obstacles, quilts, _labels, _lengths)
