"""The chain of owners drawn as a timeline in which what is not known stays visible."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from html import escape

from catalogue.provenance.findings import span
from catalogue.provenance.periods import Period
from catalogue.provenance.stretches import Gap, Stretch, gaps, stretches
from catalogue.provenance.transfer_dates import UNKNOWN, Bounds
from catalogue.values.days import year_of

__all__ = ["draw_timeline"]

_COLOURS = {
    "ink": "#3a302b",
    "soft": "#6b5f56",
    "paper": "#fffdf8",
    "grid": "#e4dacd",
    "owner": "#34557c",
    "owner-light": "#b7c6d8",
    "made": "#7d5a2f",
    "gap": "#a3483c",
}
_WIDTH, _LEFT, _RIGHT, _TOP = 760, 220, 28, 34
_OWNER_ROW, _GAP_ROW, _BAR = 42, 28, 16
_LEGEND = 34
_LABEL_SIGNS = 27  # as many of 14 px as the left margin holds
_STEPS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000)
_MOST_TICKS = 9
_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

_Row = tuple[int, Callable[["_Scale | None", int], str]]


@dataclass(frozen=True)
class _Scale:
    """Years across the drawing, and the distance between the ones that are written."""

    first: int
    last: int
    step: int

    def x(self, year: int) -> float:
        """Return where a year stands, in pixels from the left."""
        width = _WIDTH - _LEFT - _RIGHT
        return round(_LEFT + width * (year - self.first) / (self.last - self.first), 1)


def draw_timeline(
    periods: Sequence[Period],
    made: Bounds = UNKNOWN,
    until: int | None = None,
    prefix: str = "timeline",
) -> str:
    """Return an SVG of the periods as rows: sure years dark, possible years light, gaps dashed.

    `made` adds the years of making as the first row; the last owner is drawn until the year
    `until`, or with an open end. Ids begin with `prefix`. Colours are the custom properties
    `--drawing-...` with fallbacks; title and description say in words what is drawn.
    """
    years = stretches(periods, until)
    missing = {gap.after: gap for gap in gaps(periods, years)}
    scale = _scale(years, made)
    drawn: list[str] = []
    top = _TOP
    for height, draw in _rows(periods, years, missing, made):
        drawn.append(draw(scale, top))
        top += height
    described = _description(periods, missing, made)
    body = (_axis(scale, top) if scale else "") + "".join(drawn) + _legend(top + 8)
    return _document(top + _LEGEND, prefix, described, body)


def _scale(years: Sequence[Stretch], made: Bounds) -> _Scale | None:
    """Return a scale that holds every year known, None where none is."""
    known = [year_of(iso) for iso in made if iso is not None]
    for stretch in years:
        known += [y for y in (stretch.possible_from, stretch.possible_to) if y is not None]
    if not known:
        return None
    reach = max(known) - min(known) + 1
    step = next((step for step in _STEPS if reach / step <= _MOST_TICKS - 1), reach)
    first = min(known) // step * step
    last = max(-(-(max(known) + 1) // step) * step, first + step)
    return _Scale(first, last, step)


def _rows(
    periods: Sequence[Period],
    years: Sequence[Stretch],
    missing: Mapping[int, Gap],
    made: Bounds,
) -> Iterator[_Row]:
    """Yield each row's height and the function that draws it at a given height."""
    if made != UNKNOWN:
        yield _OWNER_ROW, partial(_draw_made, made)
    for place, period in enumerate(periods):
        link = years[place + 1] if place + 1 < len(periods) and place not in missing else None
        is_last = place == len(periods) - 1
        yield _OWNER_ROW, partial(_draw_owner, period, years[place], is_last, link)
        if place in missing:
            yield _GAP_ROW, partial(_draw_gap, missing[place])


def _draw_made(made: Bounds, scale: _Scale | None, top: int) -> str:
    marks = ""
    if scale is not None:
        first, last = (year_of(iso) for iso in (made[0] or made[1], made[1] or made[0]) if iso)
        marks = _bar(scale, first, last, top, "made")
    return _labels("Made", span(made), top) + marks


def _draw_owner(
    period: Period,
    years: Stretch,
    is_last: bool,
    link: Stretch | None,
    scale: _Scale | None,
    top: int,
) -> str:
    method = "" if period.is_owner else period.method
    below = ", ".join(filter(None, (method, period.dates.phrase))) or "no dates"
    name = f"possibly {period.party}" if period.possibly else period.party
    marks = ""
    if scale is not None and years.sure_from is not None and years.sure_to is not None:
        marks = _stretch(scale, period, years, top)
        if is_last and years.open_end:
            marks += _arrow(scale, years.possible_to or years.sure_to, top)
        if link is not None and link.sure_from is not None:
            marks += _link(scale, years.sure_to, link.sure_from, top)
    return _labels(name, below, top) + marks


def _stretch(scale: _Scale, period: Period, years: Stretch, top: int) -> str:
    """Draw the possible years light below the sure ones; custody is a thinner bar."""
    sure_from, sure_to = years.sure_from or 0, years.sure_to or 0
    first, last = years.possible_from or sure_from, years.possible_to or sure_to
    thin = 0 if period.is_owner else 4
    light = ""
    if (first, last) != (sure_from, sure_to) or period.possibly:
        light = _bar(scale, first, last, top, "owner-light", thin, dashed=period.possibly)
    dark = "" if period.possibly else _bar(scale, sure_from, sure_to, top, "owner", thin)
    return light + dark


def _draw_gap(gap: Gap, scale: _Scale | None, top: int) -> str:
    years = None if gap.first is None or gap.last is None else gap.last - gap.first
    words = "gap of unknown length" if years is None else _gap_words(years, gap.exact)
    label = (
        f'<text x="{_LEFT - 14}" y="{top + 15}" text-anchor="end" font-size="12" '
        f'font-style="italic" fill="{_paint("gap")}">{words}</text>'
    )
    if scale is None:
        return label
    first = scale.first if gap.first is None else gap.first
    last = scale.last if gap.last is None else gap.last
    left, right = sorted((scale.x(first), scale.x(last)))
    return label + (
        f'<rect x="{left}" y="{top + 4}" width="{max(right - left, 4):.1f}" height="14" rx="2" '
        f'fill="none" stroke="{_paint("gap")}" stroke-width="1.5" stroke-dasharray="5 4"/>'
    )


def _gap_words(years: int, exact: bool) -> str:
    if years < 0:
        return "gap, and dates that overlap"
    if not exact:
        return f"gap within {max(years, 1)} year{'s' * (years > 1)}"
    if years == 0:
        return "gap of less than a year"
    return "gap of 1 year" if years == 1 else f"gap of {years} years"


def _bar(
    scale: _Scale,
    first: int,
    last: int,
    top: int,
    colour: str,
    thin: int = 0,
    dashed: bool = False,
) -> str:
    """Return a bar over whole years, never thinner than one can see."""
    left = scale.x(first)
    width = max(scale.x(last) - left, 4)
    edge = f' stroke="{_paint("owner")}" stroke-dasharray="3 3"' if dashed else ""
    return (
        f'<rect x="{left}" y="{top + 4 + thin}" width="{width:.1f}" height="{_BAR - 2 * thin}" '
        f'rx="2" fill="{_paint(colour)}"{edge}/>'
    )


def _arrow(scale: _Scale, year: int, top: int) -> str:
    """Return the sign that nothing is known of the end."""
    x, y = scale.x(year) + 7, top + 4 + _BAR / 2
    return (
        f'<path d="M{x:.1f} {y} h14 m-5 -4 l5 4 l-5 4" fill="none" '
        f'stroke="{_paint("owner")}" stroke-width="1.5"/>'
    )


def _link(scale: _Scale, last: int, first: int, top: int) -> str:
    """Return the line of a direct passage from one row to the next."""
    y = top + 4 + _BAR
    start, end = scale.x(last) + 2, scale.x(first) + 2
    return (
        f'<path d="M{start:.1f} {y} V{y + 13} H{end:.1f} V{top + _OWNER_ROW + 4}" fill="none" '
        f'stroke="{_paint("ink")}" stroke-width="1.2"/>'
    )


def _labels(name: str, below: str, top: int) -> str:
    x = _LEFT - 14
    return (
        f'<text x="{x}" y="{top + 14}" text-anchor="end" font-size="14" font-weight="600" '
        f'fill="{_paint("ink")}">{_short(name)}</text>'
        f'<text x="{x}" y="{top + 30}" text-anchor="end" font-size="12" '
        f'fill="{_paint("soft")}">{_short(below, 4)}</text>'
    )


def _short(text: str, more: int = 0) -> str:
    """Cut the text to the left margin; the description has it whole."""
    limit = _LABEL_SIGNS + more
    return _safe(text if len(text) <= limit else text[: limit - 1].rstrip(" ,") + "…")


def _safe(text: str) -> str:
    return escape(_NOT_IN_XML.sub("\ufffd", text))


def _paint(name: str) -> str:
    return f"var(--drawing-{name}, {_COLOURS[name]})"


def _axis(scale: _Scale, bottom: int) -> str:
    ticks = range(scale.first, scale.last + 1, scale.step)
    return "".join(
        f'<line x1="{scale.x(year)}" x2="{scale.x(year)}" y1="{_TOP - 6}" y2="{bottom}" '
        f'stroke="{_paint("grid")}"/>'
        f'<text x="{scale.x(year)}" y="{_TOP - 14}" text-anchor="middle" font-size="12" '
        f'fill="{_paint("soft")}">{year}</text>'
        for year in ticks
    )


def _legend(top: int) -> str:
    entries = (
        ("owner", "", "surely owned"),
        ("owner-light", "", "possibly owned"),
        ("none", f'stroke="{_paint("gap")}" stroke-dasharray="4 3"', "nothing known"),
    )
    return "".join(
        f'<rect x="{_LEFT + 150 * index}" y="{top}" width="22" height="12" rx="2" '
        f'fill="{"none" if colour == "none" else _paint(colour)}" {edge}/>'
        f'<text x="{_LEFT + 150 * index + 30}" y="{top + 11}" font-size="12" '
        f'fill="{_paint("soft")}">{words}</text>'
        for index, (colour, edge, words) in enumerate(entries)
    )


def _description(periods: Sequence[Period], missing: Mapping[int, Gap], made: Bounds) -> str:
    """Return in sentences what the drawing shows, for those who cannot see it."""
    sentences = [] if made == UNKNOWN else [f"Made in {span(made)}."]
    for place, period in enumerate(periods):
        possibly = "possibly " if period.possibly else ""
        dates = f", {period.dates.phrase}" if period.dates.phrase else ", no dates"
        sentences.append(f"{place + 1}. {possibly}{period.party}{dates}.")
        if place in missing:
            gap = missing[place]
            known = gap.first is not None and gap.last is not None and gap.last >= gap.first
            between = f" from {gap.first} to {gap.last}" if known else ""
            sentences.append(f"Then nothing is known{between}.")
    return " ".join(sentences)


def _document(height: int, prefix: str, described: str, body: str) -> str:
    ids = f"{_safe(prefix)}-title", f"{_safe(prefix)}-desc"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDTH} {height}" '
        f'width="{_WIDTH}" height="{height}" role="img" aria-labelledby="{ids[0]} {ids[1]}" '
        'font-family="inherit, system-ui, sans-serif">'
        f'<title id="{ids[0]}">Timeline of ownership</title>'
        f'<desc id="{ids[1]}">{_safe(described)}</desc>'
        f'<rect width="{_WIDTH}" height="{height}" fill="{_paint("paper")}"/>{body}</svg>'
    )
