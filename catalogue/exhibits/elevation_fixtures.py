"""Doors, windows and other obstacles as an elevation shows them, and a person for scale.

Everything is drawn in inches inside the fixture's own box, x to the right and y downwards from its
upper left corner.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from catalogue.exhibits.svg import Pen, number
from catalogue.exhibits.walls import Obstacle, ObstacleKind

PERSON_HEIGHT: Final = 66.0
"""Height in inches of the person for scale: 5 ft 6 in."""

_THIN: Final = 0.45

_Drawing = Callable[[Pen, float, float], str]


def fixture(obstacle: Obstacle, pen: Pen, floor: float) -> str:
    """The obstacle where it is; `floor` is the drawing's y of the floor."""
    box = obstacle.box
    width, height = float(box.width), float(box.height)
    drawn = _DRAWINGS.get(obstacle.kind, _other)(pen, width, height)
    at = f"translate({number(float(box.x))} {number(floor - float(box.top))})"
    return f'<g class="drawing-{obstacle.kind}" transform="{at}">{drawn}</g>'


def person(pen: Pen, x: float, floor: float) -> str:
    """Somebody standing on the floor, to show how large the wall is."""
    at = f"translate({number(x)} {number(floor)})"
    return (
        f'<g class="drawing-person" transform="{at}" fill="{pen.colour("figure")}">'
        '<ellipse cx="0" cy="-61.5" rx="3.5" ry="4.5"/>'
        '<path d="M-1.6 -58.6L1.6 -58.6L1.8 -56Q2.2 -54.9 4.6 -54.2Q8 -53.2 8.6 -49.8'
        "L10.4 -38.4Q10.9 -34 9.9 -29.2Q9.3 -27.8 8.6 -29Q8.6 -33.8 7.9 -37.2L6.4 -44.6"
        "L5.5 -38.2Q6.8 -34.6 7.3 -30L8.8 -15.6Q6.6 -14.6 4.6 -14.3L4 -3.2Q4.4 -1.6 6 -.9"
        "Q6.6 0 5.8 0L1.4 0L1 -14L-1 -14L-1.4 0L-5.8 0Q-6.6 0 -6 -.9Q-4.4 -1.6 -4 -3.2"
        "L-4.6 -14.3Q-6.6 -14.6 -8.8 -15.6L-7.3 -30Q-6.8 -34.6 -5.5 -38.2L-6.4 -44.6"
        "L-7.9 -37.2Q-8.6 -33.8 -8.6 -29Q-9.3 -27.8 -9.9 -29.2Q-10.9 -34 -10.4 -38.4"
        'L-8.6 -49.8Q-8 -53.2 -4.6 -54.2Q-2.2 -54.9 -1.8 -56Z"/></g>'
    )


def _frame(pen: Pen, width: float, height: float, more: str = "") -> str:
    outline = f'stroke="{pen.colour("soft")}" stroke-width="{_THIN}"'
    return pen.rect(0, 0, width, height, "paper", f"{outline} {more}".strip())


def _inner(pen: Pen, x: float, y: float, width: float, height: float) -> str:
    return (
        f'<rect x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}"'
        f' fill="none" stroke="{pen.colour("soft")}" stroke-width="{_THIN * 0.7:.2f}"/>'
    )


def _door(pen: Pen, width: float, height: float) -> str:
    side, between = width * 0.14, height * 0.05
    upper, lower = height * 0.5, height * 0.32
    knob = f'<circle cx="{number(width * 0.91)}" cy="{number(height * 0.56)}" r="1.1"'
    return (
        _frame(pen, width, height)
        + _inner(pen, side, height * 0.07, width - 2 * side, upper)
        + _inner(pen, side, height * 0.07 + upper + between, width - 2 * side, lower)
        + f'{knob} fill="{pen.colour("soft")}"/>'
    )


def _opening(pen: Pen, width: float, height: float) -> str:
    return _frame(pen, width, height, 'stroke-dasharray="3 2"')


def _window(pen: Pen, width: float, height: float) -> str:
    edge = min(width, height) * 0.06
    across = max(2, round(width / 16))
    down = max(2, round(height / 18))
    inside = width - 2 * edge, height - 2 * edge
    bars = "".join(
        pen.line(
            edge + inside[0] * n / across,
            edge,
            edge + inside[0] * n / across,
            height - edge,
            "soft",
            _THIN * 0.7,
        )
        for n in range(1, across)
    ) + "".join(
        pen.line(
            edge,
            edge + inside[1] * n / down,
            width - edge,
            edge + inside[1] * n / down,
            "soft",
            _THIN * 0.7,
        )
        for n in range(1, down)
    )
    sill = pen.line(-2, height, width + 2, height, "soft", _THIN * 2.4)
    return _frame(pen, width, height) + _inner(pen, edge, edge, *inside) + bars + sill


def _radiator(pen: Pen, width: float, height: float) -> str:
    fins = max(3, round(width / 3))
    lines = "".join(
        pen.line(width * n / fins, height * 0.08, width * n / fins, height * 0.92, "soft", _THIN)
        for n in range(1, fins)
    )
    return _frame(pen, width, height, 'rx="1.5"') + lines


def _vent(pen: Pen, width: float, height: float) -> str:
    slats = max(3, round(height / 1.5))
    lines = "".join(
        pen.line(width * 0.06, height * n / slats, width * 0.94, height * n / slats, "soft", _THIN)
        for n in range(1, slats)
    )
    return _frame(pen, width, height) + lines


def _plate(pen: Pen, width: float, height: float) -> str:
    """An outlet or a switch: a plate with two marks."""
    marks = "".join(
        pen.line(width * 0.35, height * y, width * 0.65, height * y, "soft", _THIN * 1.6)
        for y in (0.33, 0.67)
    )
    return _frame(pen, width, height, 'rx="0.5"') + marks


def _case(pen: Pen, width: float, height: float) -> str:
    """A case: glass above, a base below."""
    base = height * 0.55
    return (
        _frame(pen, width, height)
        + pen.rect(0, height - base, width, base, "floor", 'fill-opacity="0.5"')
        + pen.line(0, height - base, width, height - base, "soft", _THIN)
        + pen.line(
            width * 0.12,
            (height - base) * 0.75,
            width * 0.3,
            (height - base) * 0.2,
            "soft",
            _THIN * 0.7,
        )
    )


def _other(pen: Pen, width: float, height: float) -> str:
    return _frame(pen, width, height) + pen.line(0, height, width, 0, "soft", _THIN * 0.7)


def _sign(pen: Pen, width: float, height: float) -> str:
    return _frame(pen, width, height, 'rx="0.8"') + "".join(
        pen.line(width * 0.18, height * y, width * 0.82, height * y, "soft", _THIN)
        for y in (0.38, 0.62)
    )


_DRAWINGS: dict[ObstacleKind, _Drawing] = {
    "door": _door,
    "opening": _opening,
    "window": _window,
    "outlet": _plate,
    "switch": _plate,
    "radiator": _radiator,
    "vent": _vent,
    "case": _case,
    "sign": _sign,
}
