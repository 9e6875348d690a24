"""The last copies stay, then the newest of each week and month that has any."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from catalogue.collection.safekeeping.rotation import Dated, KeepPolicy, KeepPolicyError, kept

MONDAY = datetime(2026, 3, 2, tzinfo=UTC)


def daily(days: int) -> list[Dated]:
    """One copy a day, numbered from 1."""
    return [Dated(day + 1, MONDAY + timedelta(days=day)) for day in range(days)]


@pytest.mark.parametrize(
    ("days", "policy", "numbers"),
    [
        (3, KeepPolicy(7, 4, 12), {1, 2, 3}),
        (10, KeepPolicy(2, 0, 0), {9, 10}),
        (14, KeepPolicy(1, 2, 0), {7, 14}),
        (28, KeepPolicy(1, 3, 0), {14, 21, 28}),
        (61, KeepPolicy(1, 0, 2), {60, 61}),  # 30 April and 1 May
    ],
)
def test_copies_kept_of_one_a_day(days: int, policy: KeepPolicy, numbers: set[int]) -> None:
    assert kept(daily(days), policy) == numbers


def test_the_usual_policy_keeps_at_most_the_sum_of_its_figures() -> None:
    policy = KeepPolicy()
    assert len(kept(daily(800), policy)) <= policy.last + policy.weeks + policy.months


def test_a_pause_of_years_costs_no_old_copy() -> None:
    copies = [*daily(3), Dated(4, MONDAY + timedelta(days=2000))]
    assert kept(copies, KeepPolicy(1, 2, 0)) == {3, 4}


def test_the_copy_made_last_stays_even_if_the_clock_went_back() -> None:
    copies = [*daily(9), Dated(10, MONDAY - timedelta(days=3000))]
    assert 10 in kept(copies, KeepPolicy(1, 0, 0))


@pytest.mark.parametrize("typed", ["0", "-1", "x", "", "1000", "٣"])
def test_a_figure_that_cannot_be_is_refused(typed: str) -> None:
    with pytest.raises(KeepPolicyError, match="not a number of copies from 1 to 999"):
        KeepPolicy.from_texts({"last": typed, "weeks": "4", "months": "12"})
