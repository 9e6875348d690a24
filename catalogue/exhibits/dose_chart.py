"""The light of a quilt drawn year by year, with the limit that was chosen.

Ids begin with a prefix; colours are the custom properties of `svg.PALETTE` with fallbacks, and
`plain_colours` writes the fallbacks alone, for print. No meaning rests on colour alone: what is
booked is striped, what is proposed dotted, what passes the limit is said in figures.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalogue.exhibits.light import LightLimit, amount
from catalogue.exhibits.light_account import YearDose
from catalogue.exhibits.svg import DrawingError, Pen, number

_WIDTH, _LEFT, _RIGHT, _TOP, _HEIGHT = 760.0, 78.0, 24.0, 40.0, 230.0
_AXIS = _TOP + _HEIGHT
_TYPE = 13.0
_MOST_YEARS = 120
_WIDEST_BAR = 54.0
_STEPS = (1, 2, 2.5, 5, 10)
_KINDS = (
    ("received", "received"),
    ("booked", "booked"),
    ("proposed", "would be added"),
)


def draw_dose_chart(
    years: Sequence[YearDose],
    limit: LightLimit | None = None,
    *,
    title: str = "Light year by year",
    prefix: str = "light",
    plain_colours: bool = False,
) -> str:
    """Bars of lux hours a year against the limit, as SVG with title and description in words.

    Years whose light was in part not recorded carry a question mark. Raises DrawingError for more
    than 120 years, and for a prefix that cannot begin an id.
    """
    if len(years) > _MOST_YEARS:
        raise DrawingError(f"At most {_MOST_YEARS} years can be drawn, not {len(years)}.")
    chart = _Chart(Pen(prefix, plain_colours), tuple(years), limit)
    body = "".join(part for draw in _PARTS for part in draw(chart))
    view = f"0 0 {number(_WIDTH)} {number(_AXIS + 88)}"
    return chart.pen.document(title, describe_doses(years, limit), view, body)


def describe_doses(years: Sequence[YearDose], limit: LightLimit | None = None) -> str:
    """The chart in sentences, for those who do not see it."""
    sentences = [limit.says] if limit else []
    for dose in years:
        if not dose.total and not dose.unrecorded:
            continue
        parts = [f"{amount(getattr(dose, key))} {words}" for key, words in _KINDS]
        shown = [part for part, (key, _) in zip(parts, _KINDS, strict=True) if getattr(dose, key)]
        over = limit is not None and dose.total > limit.lux_hours
        unknown = " Part of its light was not recorded." if dose.unrecorded else ""
        told = ", ".join(shown) or "no light recorded"
        sentences.append(f"{dose.year}: {told}{', over the limit' if over else ''}.{unknown}")
    if len(sentences) == bool(limit):
        sentences.append("No light is recorded.")
    return " ".join(sentences)


@dataclass(frozen=True)
class _Chart:
    """The years with the scale that holds them and the limit."""

    pen: Pen
    years: tuple[YearDose, ...]
    limit: LightLimit | None

    @property
    def step(self) -> float:
        """Lux hours between the lines of the grid: a round figure, four to eight lines."""
        most = max([dose.total for dose in self.years], default=0.0)
        most = max(most, self.limit.lux_hours if self.limit else 0.0, 1.0) * 1.12
        power = 10.0 ** math.floor(math.log10(most / 5))
        return next(step * power for step in _STEPS if most / (step * power) <= 7)

    @property
    def lines(self) -> int:
        """How many steps the chart is high."""
        most = max([dose.total for dose in self.years], default=0.0)
        most = max(most, self.limit.lux_hours if self.limit else 0.0, 1.0) * 1.12
        return math.ceil(most / self.step)

    @property
    def slot(self) -> float:
        """Room across for one year."""
        return (_WIDTH - _LEFT - _RIGHT) / max(len(self.years), 1)

    def y(self, dose: float) -> float:
        """Where a dose stands."""
        return _AXIS - _HEIGHT * dose / (self.step * self.lines)

    def middle(self, index: int) -> float:
        """Where the bar of a year stands."""
        return _LEFT + self.slot * (index + 0.5)


def _patterns(chart: _Chart) -> Iterator[str]:
    """Stripes and dots, so that the kinds can be told apart without colour."""
    pen = chart.pen
    booked, dots = pen.colour("booked"), pen.colour("proposed")
    ink = pen.colour("ink")
    yield (
        f'<defs><pattern id="{pen.id("booked")}" width="7" height="7"'
        ' patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        f'<rect width="7" height="7" fill="{booked}"/>'
        f'<rect width="2.2" height="7" fill="{pen.colour("received")}"/></pattern>'
        f'<pattern id="{pen.id("proposed")}" width="7" height="7"'
        f' patternUnits="userSpaceOnUse"><rect width="7" height="7" fill="{dots}"/>'
        f'<circle cx="3.5" cy="3.5" r="1.2" fill="{ink}" fill-opacity="0.55"/></pattern></defs>'
    )


def _grid(chart: _Chart) -> Iterator[str]:
    pen = chart.pen
    for index in range(chart.lines + 1):
        y = chart.y(chart.step * index)
        yield pen.line(_LEFT, y, _WIDTH - _RIGHT, y, "ink" if not index else "grid", 1)
        words = f"{chart.step * index:,.1f}".removesuffix(".0")
        yield pen.text(_LEFT - 10, y + 4.5, words, _TYPE, "soft", 'text-anchor="end"')
    start = 'text-anchor="start"'
    yield pen.text(12, _TOP - 20, "lux hours a year", _TYPE, "soft", start)


def _bars(chart: _Chart) -> Iterator[str]:
    pen, wide = chart.pen, min(chart.slot * 0.62, _WIDEST_BAR)
    for index, dose in enumerate(chart.years):
        below, x = 0.0, chart.middle(index) - wide / 2
        for key, _ in _KINDS:
            part: float = getattr(dose, key)
            if part:
                top, high = chart.y(below + part), chart.y(below) - chart.y(below + part)
                yield _bar(pen, key, x, top, wide, high)
                below += part


def _figures(chart: _Chart) -> Iterator[str]:
    for index, dose in enumerate(chart.years):
        yield from _above(chart, index, dose)


def _bar(pen: Pen, key: str, x: float, y: float, wide: float, high: float) -> str:
    fill = pen.colour("received") if key == "received" else f"url(#{pen.id(key)})"
    return (
        f'<rect x="{number(x)}" y="{number(y)}" width="{number(wide)}" height="{number(high)}"'
        f' fill="{fill}" stroke="{pen.colour("ink")}" stroke-width="0.8"/>'
    )


def _above(chart: _Chart, index: int, dose: YearDose) -> Iterator[str]:
    """The figure above the bar, with a question mark where light was not recorded."""
    mark = "?" if dose.unrecorded else ""
    words = f"{dose.total:,.0f}{mark}" if dose.total else mark
    if len(words) * _TYPE * 0.56 > chart.slot:
        words = mark
    if not words:
        return
    over = chart.limit is not None and dose.total > chart.limit.lux_hours
    halo = f'stroke="{chart.pen.colour("paper")}" stroke-width="4" paint-order="stroke"'
    weight = f'{halo} font-weight="700"' if over else halo
    y = chart.y(dose.total) - 7
    yield chart.pen.text(chart.middle(index), y, words, _TYPE, "ink", weight)


def _names(chart: _Chart) -> Iterator[str]:
    """The years under the axis, as many as there is room for."""
    every = max(1, math.ceil(38 / chart.slot))
    for index, dose in enumerate(chart.years):
        if (len(chart.years) - 1 - index) % every == 0:
            yield chart.pen.text(chart.middle(index), _AXIS + 19, str(dose.year), _TYPE)


def _limit_line(chart: _Chart) -> Iterator[str]:
    if chart.limit is None:
        return
    pen, y = chart.pen, chart.y(chart.limit.lux_hours)
    yield pen.line(_LEFT, y, _WIDTH - _RIGHT, y, "limit", 2, 'stroke-dasharray="9 5"')


def _legend(chart: _Chart) -> Iterator[str]:
    pen, y, x = chart.pen, _AXIS + 44, _LEFT
    start = 'text-anchor="start"'
    for key, words in _KINDS:
        if any(getattr(dose, key) for dose in chart.years):
            yield _bar(pen, key, x, y - 11, 14, 12)
            yield pen.text(x + 20, y, words, _TYPE, "ink", start)
            x += 46 + len(words) * _TYPE * 0.54
    if any(dose.unrecorded for dose in chart.years):
        yield pen.text(x, y, "? light in part not recorded", _TYPE, "ink", start)
    if chart.limit is not None:
        below = y + 25
        dashes = 'stroke-dasharray="9 5"'
        yield pen.line(_LEFT, below - 4, _LEFT + 34, below - 4, "limit", 2, dashes)
        words = f"limit {amount(chart.limit.lux_hours)} a year: {chart.limit.name}"
        yield pen.text(_LEFT + 42, below, words, _TYPE, "ink", start)


_PARTS = (_patterns, _grid, _bars, _limit_line, _figures, _names, _legend)
