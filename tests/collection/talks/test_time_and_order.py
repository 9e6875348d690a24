"""What the clock says at each item, what they take together, and how they are put in order."""

from __future__ import annotations

import pytest

from catalogue.collection.records import Talk, TalkItem
from catalogue.collection.talks.clock import (
    TimeOfDayError,
    on_the_clock,
    read_time,
    running_time,
)
from catalogue.collection.talks.order import moved, numbered

WRITTEN = [
    ("14:30", "14:30"),
    ("2:30 pm", "14:30"),
    ("2.30 p.m.", "14:30"),
    ("2 pm", "14:00"),
    ("12 pm", "12:00"),
    ("12 am", "00:00"),
    ("9:05", "09:05"),
    ("00:00", "00:00"),
]


@pytest.mark.parametrize(("written", "time"), WRITTEN)
def test_a_time_of_day_is_read_as_people_write_it(written: str, time: str) -> None:
    assert read_time(written) == time


@pytest.mark.parametrize("written", ["2", "24:00", "7:60", "13 pm", "0 am", "noon", "", "7:5"])
def test_what_could_be_two_times_or_none_is_refused(written: str) -> None:
    with pytest.raises(TimeOfDayError, match=r"write 14:30, or 2:30 pm\."):
        read_time(written)


CLOCK = [
    ("14:00", 0, "2:00 pm"),
    ("14:00", 65, "3:05 pm"),
    ("11:50", 10, "12:00 pm"),
    ("23:50", 15, "12:05 am"),
    ("00:00", 0, "12:00 am"),
    ("", 0, "0:00"),
    ("", 75, "1:15"),
]


@pytest.mark.parametrize(("begins", "after", "says"), CLOCK)
def test_the_clock_goes_on_from_the_beginning(begins: str, after: int, says: str) -> None:
    assert on_the_clock(begins, after) == says


TOTALS = [
    ((10, 20), 45, "30 minutes in all, 15 less than the slot of 45."),
    ((25, 20), 45, "45 minutes in all, just as long as the slot of 45."),
    ((25, 21), 45, "46 minutes in all, 1 more than the slot of 45."),
    ((1,), None, "1 minute in all."),
    ((10, None), None, "10 minutes in all; 1 item has no minutes."),
    ((None, None), 30, "0 minutes in all, 30 less than the slot of 30; 2 items have no minutes."),
]


@pytest.mark.parametrize(("minutes", "slot", "says"), TOTALS)
def test_the_total_is_held_against_the_slot(
    minutes: tuple[int | None, ...], slot: int | None, says: str
) -> None:
    items = tuple(TalkItem("A quilt", borrowed=True, minutes=m) for m in minutes)
    assert running_time(Talk("A talk", minutes=slot, items=items)).says == says


def test_a_heading_needs_no_minutes() -> None:
    items = (TalkItem("First"), TalkItem("Lent", borrowed=True, minutes=5))
    assert running_time(Talk("A talk", items=items)).untimed == 0


def talk(*ids: int) -> Talk:
    return Talk("A talk", items=tuple(TalkItem(str(id), id=id) for id in ids))


def order(talk: Talk) -> list[int | None]:
    return [item.id for item in talk.items]


STEPS = [
    (1, 1, [2, 1, 3, 4]),
    (3, -1, [1, 3, 2, 4]),
    (1, -1, [1, 2, 3, 4]),  # it is first already
    (4, 1, [1, 2, 3, 4]),
    (9, 1, [1, 2, 3, 4]),  # somebody has taken it out meanwhile
]


@pytest.mark.parametrize(("item", "steps", "after"), STEPS)
def test_an_item_moves_by_a_step_within_the_ends(item: int, steps: int, after: list[int]) -> None:
    assert order(moved(talk(1, 2, 3, 4), item, steps)) == after


NUMBERS = [
    ({4: 2}, [1, 4, 2, 3]),  # sent up to the second place, it is the second
    ({1: 3}, [2, 3, 1, 4]),  # sent down to the third, it is the third
    ({4: 1, 3: 1}, [3, 4, 1, 2]),
    ({1: 99}, [2, 3, 4, 1]),
    ({1: 4, 2: 3, 3: 2, 4: 1}, [4, 3, 2, 1]),
    ({9: 1}, [1, 2, 3, 4]),
    ({}, [1, 2, 3, 4]),
]


@pytest.mark.parametrize(("wanted", "after"), NUMBERS)
def test_an_item_comes_to_the_place_written_beside_it(
    wanted: dict[int, int], after: list[int]
) -> None:
    assert order(numbered(talk(1, 2, 3, 4), wanted)) == after
