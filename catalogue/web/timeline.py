"""Quilts on a timeline: for each its bar, and in words what the bar shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from catalogue.collection.records import Quilt
from catalogue.collection.related import Related
from catalogue.collection.summary import Summary, summarise
from catalogue.dating.bars import Segment, axis_of, draw_axis, draw_bar, legend_of


@dataclass(frozen=True)
class Row:
    """One quilt: `bar` is empty where no year is on record."""

    summary: Summary
    bar: Markup
    words: str


@dataclass(frozen=True)
class Timeline:
    """Quilts in their order on one axis; `axis` is empty where none of them has a year."""

    axis: Markup
    rows: tuple[Row, ...]
    legend: tuple[tuple[str, str], ...] = ()
    first: int | None = None
    last: int | None = None


def timeline_of(quilts: Sequence[Quilt], related: Related) -> Timeline:
    """Return the quilts as bars from earliest to latest, with their phases."""
    segments = [_segments(quilt) for quilt in quilts]
    every = [segment for each in segments for segment in each]
    axis = axis_of(every)
    rows = tuple(
        Row(
            summarise(quilt, related),
            Markup(draw_bar(own, axis)) if axis and own else Markup(),
            _words(quilt),
        )
        for quilt, own in zip(quilts, segments, strict=True)
    )
    if axis is None:
        return Timeline(Markup(), rows)
    return Timeline(Markup(draw_axis(axis)), rows, legend_of(every), axis.first, axis.last)


def _segments(quilt: Quilt) -> list[Segment]:
    return [
        Segment(phase.kind, phase.date.earliest_year, phase.date.latest_year)
        for phase in quilt.phases
        if phase.date is not None
        if phase.date.earliest is not None or phase.date.latest is not None
    ]


def _words(quilt: Quilt) -> str:
    """Return each dated phase in words: "pieced about 1890; quilted 1931"."""
    dated = [(phase.kind, phase.date) for phase in quilt.phases if phase.date is not None]
    return "; ".join(f"{kind} {date.says}" for kind, date in dated) or "no date on record"
