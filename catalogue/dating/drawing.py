"""The estimate of a phase drawn: the chance of every year, its spans, and the clues beneath.

Colours are CSS custom properties (--estimate-ink, -line, -half, -ninety, -clue, -grid) with fixed
ones for renderers that know none; no meaning rests on colour alone.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from html import escape

from catalogue.dating.clues import Clue
from catalogue.dating.estimate import DateEstimate
from catalogue.dating.posterior import Span

_WIDTH = 760
_LEFT = 210
_RIGHT = 20
_CURVE_TOP = 16
_CURVE_HEIGHT = 150
_AXIS = _CURVE_TOP + _CURVE_HEIGHT
_ROW = 22
_SPANS_TOP = _AXIS + 34

_COLOURS = {
    "ink": "#1f2933",
    "line": "#22505c",
    "half": "#6f9dab",
    "ninety": "#c9dce2",
    "clue": "#8a5a2b",
    "grid": "#d3d8dd",
}


def draw_estimate(
    estimate: DateEstimate, *, ident: str = "estimate", title: str = "When this phase was made"
) -> str:
    """An SVG drawing of the estimate with a title and a description in words.

    `ident` must be unique on the page: the ids of title and description are made from it.
    """
    clues = [pull.reading.effective for pull in estimate.pulls]
    height = _SPANS_TOP + _ROW * (2 + len(clues)) + 10
    name = escape(ident, quote=True)
    return "".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDTH} {height}" role="img" ',
            f'class="estimate" aria-labelledby="{name}-title {name}-desc" ',
            'font-family="system-ui, sans-serif" font-size="13">',
            f'<title id="{name}-title">{escape(title)}</title>',
            f'<desc id="{name}-desc">{escape(describe_estimate(estimate))}</desc>',
            *_body(estimate, clues, height),
            "</svg>",
        )
    )


def describe_estimate(estimate: DateEstimate) -> str:
    """What the drawing shows, in sentences, for those who cannot see it."""
    if estimate.half is None or estimate.ninety is None:
        return f"No span of years can be shown. {' '.join(estimate.grounds)}"
    best = estimate.first_year + estimate.chances.index(max(estimate.chances))
    return (
        f"The likeliest year is {best}. Half of the probability lies in {estimate.half}, "
        f"nine tenths in {estimate.ninety}. {' '.join(estimate.grounds)}"
    )


def _body(estimate: DateEstimate, clues: list[Clue], height: int) -> Iterator[str]:
    if estimate.half is None or estimate.ninety is None:
        yield _text(_WIDTH / 2, _AXIS / 2, "No span of years can be shown.", "middle")
        return
    scale = _Scale(estimate.ninety, clues)
    yield from _grid(scale, height)
    yield _area(estimate, scale, estimate.ninety, "ninety")
    yield _area(estimate, scale, estimate.half, "half")
    yield _outline(estimate, scale)
    yield from _span_row(scale, _SPANS_TOP, estimate.half, "half", f"half: {estimate.half}")
    yield from _span_row(
        scale, _SPANS_TOP + _ROW, estimate.ninety, "ninety", f"nine tenths: {estimate.ninety}"
    )
    for i, clue in enumerate(clues):
        yield from _clue_row(scale, _SPANS_TOP + _ROW * (2 + i), clue)


class _Scale:
    """Years to pixels, over whole decades round the nine-tenths span and some of every clue."""

    def __init__(self, ninety: Span, clues: list[Clue]) -> None:
        ends = [clue.ends for clue in clues if clue.ends is not None]
        begins = [clue.begins for clue in clues if clue.begins is not None]
        first, last = min([ninety.first, *ends]), max([ninety.last, *begins])
        margin = max(5, (last - first) // 8)
        self.first = (first - margin) // 10 * 10
        self.last = -(-(last + margin) // 10) * 10

    def x(self, year: float) -> float:
        """Where the year begins, kept inside the drawing."""
        inside = min(max(year, self.first), self.last)
        share = (inside - self.first) / (self.last - self.first)
        return round(_LEFT + share * (_WIDTH - _LEFT - _RIGHT), 1)

    def decades(self) -> range:
        """Years to be named on the axis, at most a dozen."""
        step = next(s for s in (5, 10, 20, 50, 100) if (self.last - self.first) / s <= 12)
        return range(-(-self.first // step) * step, self.last + 1, step)


def _grid(scale: _Scale, height: int) -> Iterator[str]:
    for year in scale.decades():
        x = scale.x(year)
        yield f'<path d="M{x} {_CURVE_TOP}V{height - 6}" fill="none" {_paint("stroke", "grid")}/>'
        yield _text(x, _AXIS + 18, str(year), "middle")
    yield (
        f'<path d="M{_LEFT} {_AXIS}H{_WIDTH - _RIGHT}" fill="none" stroke-width="1.5" '
        f"{_paint('stroke', 'ink')}/>"
    )


def _height(estimate: DateEstimate, year: int) -> float:
    """Where the curve stands in that year, from the top of the drawing."""
    index = year - estimate.first_year
    chance = estimate.chances[index] if 0 <= index < len(estimate.chances) else 0.0
    return round(_AXIS - _CURVE_HEIGHT * chance / max(estimate.chances), 1)


def _steps(estimate: DateEstimate, scale: _Scale, first: int, last: int) -> str:
    """One step a year, so that a single likely year has a width that can be seen."""
    years = range(max(first, scale.first), min(last, scale.last - 1) + 1)
    return "".join(f"V{_height(estimate, year)}H{scale.x(year + 1)}" for year in years)


def _area(estimate: DateEstimate, scale: _Scale, span: Span, colour: str) -> str:
    steps = _steps(estimate, scale, span.first, span.last)
    return f'<path d="M{scale.x(span.first)} {_AXIS}{steps}V{_AXIS}Z" {_paint("fill", colour)}/>'


def _outline(estimate: DateEstimate, scale: _Scale) -> str:
    steps = _steps(estimate, scale, scale.first, scale.last)
    return (
        f'<path d="M{_LEFT} {_height(estimate, scale.first)}{steps}" fill="none" '
        f'stroke-width="1.5" {_paint("stroke", "line")}/>'
    )


def _span_row(scale: _Scale, y: int, span: Span, colour: str, words: str) -> Iterator[str]:
    yield _text(_LEFT - 12, y + 13, words, "end")
    yield _bar(scale, y + 3, 12, span.first, span.last + 1, colour)


def _clue_row(scale: _Scale, y: int, clue: Clue) -> Iterator[str]:
    """A thin line for the years of the clue, a thick one for its usual years."""
    yield _text(_LEFT - 12, y + 13, _shortened(clue.short), "end")
    begins = clue.begins if clue.begins is not None else -math.inf
    ends = math.inf if clue.ends is None else clue.ends + 1
    yield _bar(scale, y + 8, 2, begins, ends, "clue")
    if clue.peak_from is not None and not clue.reproduced:
        peak_end = math.inf if clue.peak_to is None else clue.peak_to + 1
        yield _bar(scale, y + 5, 8, clue.peak_from, peak_end, "clue")


def _bar(scale: _Scale, y: int, thick: int, first: float, last: float, colour: str) -> str:
    x, end = scale.x(first), scale.x(last)
    if x >= end:
        return ""
    return (
        f'<rect x="{x}" y="{y}" width="{round(end - x, 1)}" height="{thick}" '
        f"{_paint('fill', colour)}/>"
    )


def _shortened(words: str) -> str:
    return words if len(words) <= 30 else words[:29].rstrip() + "…"


def _text(x: float, y: float, words: str, anchor: str) -> str:
    return (
        f'<text x="{x}" y="{y}" text-anchor="{anchor}" {_paint("fill", "ink")}>'
        f"{escape(words)}</text>"
    )


def _paint(what: str, colour: str) -> str:
    """The fixed colour, and the page's own where its style sheet names one."""
    return f'{what}="var(--estimate-{colour}, {_COLOURS[colour]})"'
