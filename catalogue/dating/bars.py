"""Quilts on one axis of years: a bar from earliest to latest year, each phase a segment of it.

The drawings hold classes and no colours, and lie in per cent across, so that a page gives them its
colours and any width without stretching letters. What they show has to stand beside them in words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

_STEPS = (1, 2, 5, 10, 20, 25, 50, *(m * 10**n for n in range(2, 10) for m in (1, 2, 5)))
_MOST_TICKS = 7
_HEIGHT = 26
_GAP = 2

# Kinds of work by the class that colours them.
_CLASSES = {
    **{"designed": "designed", "pieced": "top", "appliquéd": "top", "embroidered": "top"},
    **{"set together": "set", "quilted": "quilted", "bound": "bound", "repaired": "repaired"},
}
_OTHER = "other"
# What each class stands for, in the order of the work.
_LEGEND = (
    ("top", "pieced, appliquéd or embroidered"),
    ("set", "set together"),
    ("quilted", "quilted"),
    ("bound", "bound"),
    ("repaired", "repaired"),
    ("designed", "designed"),
    (_OTHER, "other work"),
)


@dataclass(frozen=True)
class Segment:
    """One phase: its kind, and its first and last year, None where an end is open."""

    kind: str
    first: int | None
    last: int | None


@dataclass(frozen=True)
class Axis:
    """Years from `first` to `last`, both on a tick; `step` years lie between two ticks."""

    first: int
    last: int
    step: int

    def across(self, year: float) -> float:
        """Return where a year begins, in per cent of the width."""
        return round(100 * (year - self.first) / (self.last - self.first), 2)

    @property
    def ticks(self) -> range:
        """The years that are written on the axis."""
        return range(self.first, self.last + 1, self.step)


def legend_of(segments: Iterable[Segment]) -> tuple[tuple[str, str], ...]:
    """Return each class that the segments are drawn in, with what it stands for."""
    drawn = {_CLASSES.get(each.kind, _OTHER) for each in segments}
    return tuple((name, words) for name, words in _LEGEND if name in drawn)


def axis_of(segments: Iterable[Segment]) -> Axis | None:
    """Return an axis that holds every known year of the segments, None where there is none."""
    years = [year for each in segments for year in (each.first, each.last) if year is not None]
    if not years:
        return None
    first, last = min(years), max(years) + 1
    for step in _STEPS:
        begin, end = first // step * step, -(-last // step) * step
        if (end - begin) // step <= _MOST_TICKS:
            break
    return Axis(begin, end, step)


def draw_axis(axis: Axis) -> str:
    """Return the years of the axis as an SVG drawing, hidden from screen readers."""
    written = "".join(_year(axis, year) for year in axis.ticks)
    return f'<svg class="years-axis" aria-hidden="true" width="100%" height="22">{written}</svg>'


def _year(axis: Axis, year: int) -> str:
    anchor = {axis.first: "start", axis.last: "end"}.get(year, "middle")
    return f'<text x="{axis.across(year)}%" y="16" text-anchor="{anchor}">{year}</text>'


def draw_bar(segments: Sequence[Segment], axis: Axis) -> str:
    """Return one quilt's bar as an SVG drawing, hidden from screen readers.

    Each segment has a lane of its own within the bar; an open end goes on to the end of the axis.
    """
    drawn = "".join((*_grid(axis), *_whole(segments, axis), *_lanes(segments, axis)))
    size = f'width="100%" height="{_HEIGHT}"'
    return f'<svg class="years-bar" aria-hidden="true" {size}>{drawn}</svg>'


def _grid(axis: Axis) -> Iterator[str]:
    for year in axis.ticks:
        x = axis.across(year)
        yield f'<line class="tick-line" x1="{x}%" x2="{x}%" y1="0" y2="{_HEIGHT}"/>'


def _whole(segments: Sequence[Segment], axis: Axis) -> Iterator[str]:
    ends = [_ends(segment, axis) for segment in segments]
    if ends:
        first, last = min(end[0] for end in ends), max(end[1] for end in ends)
        yield _rectangle("whole", axis, first, last, _GAP, _HEIGHT - 2 * _GAP)


def _lanes(segments: Sequence[Segment], axis: Axis) -> Iterator[str]:
    room = (_HEIGHT - 2 * _GAP) / max(len(segments), 1)
    for lane, segment in enumerate(segments):
        name = f"phase {_CLASSES.get(segment.kind, _OTHER)}"
        if segment.first is None or segment.last is None:
            name += " open"
        top, height = _GAP + lane * room, min(room, 14)
        yield _rectangle(name, axis, *_ends(segment, axis), top + (room - height) / 2, height)


def _ends(segment: Segment, axis: Axis) -> tuple[int, int]:
    """Return the year in which a segment begins and the one before which it ends."""
    first = axis.first if segment.first is None else segment.first
    return first, axis.last if segment.last is None else segment.last + 1


def _rectangle(name: str, axis: Axis, first: float, last: float, top: float, height: float) -> str:
    x = axis.across(first)
    width = max(round(axis.across(last) - x, 2), 0.4)  # a single year is still seen
    place = f'x="{x}%" y="{top:.1f}" width="{width}%" height="{height:.1f}"'
    return f'<rect class="{name}" {place} rx="1"/>'
