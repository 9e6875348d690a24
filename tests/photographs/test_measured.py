"""What the reading of photographs is held to, measured on quilts it was not developed on."""

from __future__ import annotations

import pytest
from measured import (
    Outcome,
    false_alarms,
    found_share,
    keeps_places,
    layout_table,
    outcomes,
    share,
    turned_table,
    without_repeat,
)

pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def known() -> list[Outcome]:
    measured = outcomes(240)
    print("", *layout_table(measured), "", *turned_table(measured), sep="\n")
    return measured


def test_the_layout_is_right_in_nineteen_of_twenty(known):
    assert share(each.layout_right for each in known) >= 0.95


def test_a_turned_block_is_told_where_light_and_dark_keep_their_places(known):
    assert found_share(known, keeps_places) >= 0.95


def test_a_turned_block_is_told_in_half_of_the_quilts_whose_values_overlap(known):
    assert found_share(known, lambda each: not keeps_places(each)) >= 0.5


def test_hardly_a_quilt_without_a_turned_block_is_accused_of_one(known):
    assert false_alarms(known) <= 0.03


def test_no_repeat_is_read_from_quilts_that_have_none():
    shares = without_repeat(60)
    print("", *(f"{kind}: {right:.0%} read as without a repeat" for kind, right in shares.items()))
    assert min(shares.values()) >= 0.95
