"""Quilts on one axis of years."""

from __future__ import annotations

import re

import pytest

from catalogue.dating.bars import Segment, axis_of, draw_axis, draw_bar, legend_of

AXES = [
    ([(1931, 1931)], (1931, 1932, 1)),
    ([(1925, 1935)], (1924, 1936, 2)),
    ([(1835, 1845), (None, 1978)], (1825, 2000, 25)),
    ([(1900, None)], (1900, 1901, 1)),
    ([(-50, 1900)], (-500, 2000, 500)),
    ([(1900, 170_000_002)], (0, 200_000_000, 50_000_000)),
]


@pytest.mark.parametrize(("spans", "expected"), AXES)
def test_an_axis_holds_every_year_between_few_ticks(
    spans: list[tuple[int | None, int | None]], expected: tuple[int, int, int]
) -> None:
    axis = axis_of(Segment("pieced", *span) for span in spans)
    assert axis is not None
    assert (axis.first, axis.last, axis.step) == expected
    assert draw_axis(axis).count("<text") == len(axis.ticks)


def test_without_years_there_is_no_axis() -> None:
    assert axis_of([Segment("pieced", None, None)]) is None


def test_each_phase_is_a_segment_of_the_bar() -> None:
    segments = [Segment("pieced", 1890, 1899), Segment("quilted", 1978, None)]
    axis = axis_of([*segments, Segment("bound", 1900, 1999)])
    assert axis is not None
    bar = draw_bar(segments, axis)
    found = re.findall(r'<rect class="([\w ]+)" x="([\d.]+)%" y="[\d.]+" width="([\d.]+)%"', bar)
    assert found == [
        ("whole", "8.33", "91.67"),
        ("phase top", "8.33", "8.34"),
        ("phase quilted open", "81.67", "18.33"),
    ]


def test_a_legend_names_what_is_drawn_in_the_order_of_the_work() -> None:
    drawn = [Segment("quilted", 1, 2), Segment("embroidered", 1, 2), Segment("painted", 1, 2)]
    assert [name for name, _ in legend_of(drawn)] == ["top", "quilted", "other"]
