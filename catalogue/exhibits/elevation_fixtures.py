"""Doors, windows and other obstacles as an elevation shows them, and a person for scale.

Everything is drawn in inches inside the fixture's own box, x to the right and y downwards from its
upper left corner.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from catalogue.exhibits.svg import Pen, number
from catalogue.exhibits.walls import Obstacle, ObstacleKind

PERSON_HEIGHT: Final = 66.0
"""Height in inches of the person for scale: 5 ft 6 in."""


@dataclass(frozen=True)
class _Box:
    """The pen, how thick it writes, and the size of the fixture."""

    pen: Pen
    thin: float
    width: float
    height: float

    def line(self, x1: float, y1: float, x2: float, y2: float, times: float = 1) -> str:
        """A line between two points given as parts of width and height."""
        w, h = self.width, self.height
        return self.pen.line(x1 * w, y1 * h, x2 * w, y2 * h, "soft", self.thin * times)

    def frame(self, more: str = "") -> str:
        """The outline, filled."""
        outline = f'stroke="{self.pen.colour("soft")}" stroke-width="{number(self.thin)}"'
        return self.pen.rect(0, 0, self.width, self.height, "paper", f"{outline} {more}".strip())

    def inner(self, x: float, y: float, width: float, height: float) -> str:
        """A thinner outline inside, in parts of width and height."""
        w, h = self.width, self.height
        return (
            f'<rect x="{number(x * w)}" y="{number(y * h)}" width="{number(width * w)}"'
            f' height="{number(height * h)}" fill="none" stroke="{self.pen.colour("soft")}"'
            f' stroke-width="{number(self.thin * 0.7)}"/>'
        )


_Drawing = Callable[[_Box], str]


def fixture(obstacle: Obstacle, pen: Pen, floor: float, thin: float) -> str:
    """The obstacle where it is; `floor` is the drawing's y of the floor, `thin` a line's width."""
    box = obstacle.box
    drawn = _DRAWINGS.get(obstacle.kind, _other)(
        _Box(pen, thin, float(box.width), float(box.height))
    )
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


def _door(box: _Box) -> str:
    knob = (
        f'<circle cx="{number(box.width * 0.91)}" cy="{number(box.height * 0.56)}"'
        f' r="{number(box.width * 0.03)}" fill="{box.pen.colour("soft")}"/>'
    )
    panels = box.inner(0.14, 0.07, 0.72, 0.5) + box.inner(0.14, 0.62, 0.72, 0.32)
    return box.frame() + panels + knob


def _opening(box: _Box) -> str:
    return box.frame('stroke-dasharray="3 2"')


def _window(box: _Box) -> str:
    across, down = max(2, round(box.width / 16)), max(2, round(box.height / 18))
    bars = [
        box.line(0.06 + 0.88 * n / across, 0.06, 0.06 + 0.88 * n / across, 0.94, 0.7)
        for n in range(1, across)
    ] + [
        box.line(0.06, 0.06 + 0.88 * n / down, 0.94, 0.06 + 0.88 * n / down, 0.7)
        for n in range(1, down)
    ]
    sill = box.line(-0.04, 1, 1.04, 1, 2.4)
    return box.frame() + box.inner(0.06, 0.06, 0.88, 0.88) + "".join(bars) + sill


def _radiator(box: _Box) -> str:
    fins = max(3, round(box.width / 3))
    lines = (box.line(n / fins, 0.08, n / fins, 0.92) for n in range(1, fins))
    return box.frame('rx="1.5"') + "".join(lines)


def _vent(box: _Box) -> str:
    slats = max(3, round(box.height / 1.5))
    lines = (box.line(0.06, n / slats, 0.94, n / slats) for n in range(1, slats))
    return box.frame() + "".join(lines)


def _plate(box: _Box) -> str:
    """An outlet or a switch: a plate with two marks."""
    marks = "".join(box.line(0.35, y, 0.65, y, 1.6) for y in (0.33, 0.67))
    return box.frame('rx="0.5"') + marks


def _case(box: _Box) -> str:
    """A case: glass above, a base below."""
    base = box.height * 0.55
    return (
        box.frame()
        + box.pen.rect(0, box.height - base, box.width, base, "floor", 'fill-opacity="0.5"')
        + box.line(0, 0.45, 1, 0.45)
        + box.line(0.12, 0.34, 0.3, 0.09, 0.7)
    )


def _other(box: _Box) -> str:
    return box.frame() + box.line(0, 1, 1, 0, 0.7)


def _sign(box: _Box) -> str:
    return (
        box.frame('rx="0.8"') + box.line(0.18, 0.38, 0.82, 0.38) + box.line(0.18, 0.62, 0.82, 0.62)
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
