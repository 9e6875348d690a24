"""Designs are suggested by family, grid and era, each with its reasons, never as certain."""

from __future__ import annotations

from catalogue.patterns.suggesting import suggest


def test_family_and_grid_decide_and_the_reasons_are_given() -> None:
    found = suggest("seven-patch", 7)
    assert "Bear's Paw" in [each.design.name for each in found]
    for each in found:
        assert each.design.family == "seven-patch"
        assert "it is drafted as a seven-patch" in each.reasons
        assert 0 < each.fit <= 1


def test_a_grid_that_divides_evenly_fits_less_well_than_the_same_grid() -> None:
    by_name = {each.design.slug: each for each in suggest("nine-patch", 3, most=50)}
    assert by_name["nine-patch"].fit > min(each.fit for each in by_name.values())


def test_a_design_first_printed_long_after_the_making_comes_later() -> None:
    early = {s.design.slug: s.fit for s in suggest("nine-patch", 3, (1840, 1850), most=60)}
    late = {s.design.slug: s.fit for s in suggest("nine-patch", 3, (1930, 1940), most=60)}
    assert early["churn-dash"] < late["churn-dash"]


def test_without_any_drafting_nothing_is_suggested() -> None:
    assert suggest(None) == ()
