"""Dates of quilts and printings are held against each other, and only sure conflicts are sure."""

from __future__ import annotations

import pytest

from catalogue.patterns.publishing import PrintedAs, doubts
from catalogue.values.dates import read_date

COLUMN = PrintedAs(
    "The Hearthside Leaf", "newspaper column", read_date("May 1931"), read_date("1928-1941")
)


def followed(printing: PrintedAs, **changes: object) -> PrintedAs:
    from dataclasses import replace

    return replace(printing, followed=True, **changes)  # type: ignore[arg-type]


def test_a_quilt_made_after_its_printing_raises_no_doubt() -> None:
    assert doubts("Star", (1931, 1940), [followed(COLUMN)]) == ()


def test_a_quilt_older_than_the_printing_it_follows_is_a_contradiction() -> None:
    found = doubts("Star", (1920, 1925), [followed(COLUMN)])
    assert found[0].certain
    assert (
        "made by 1925, before The Hearthside Leaf printed the pattern (May 1931)" in found[0].says
    )


def test_a_quilt_older_than_every_printing_known_is_only_a_question() -> None:
    (doubt,) = doubts("Star", (1870, 1875), [], "1889", "a mail-order catalogue")
    assert not doubt.certain
    assert "of 1889 (a mail-order catalogue)" in doubt.says


def test_a_printing_followed_that_is_not_the_first_is_said() -> None:
    (doubt,) = doubts("Star", (1931, 1940), [followed(COLUMN)], "1889", "a catalogue")
    assert not doubt.certain
    assert "in print by 1889" in doubt.says


def test_a_printing_outside_the_years_of_its_publication_is_a_contradiction() -> None:
    late = PrintedAs("The Leaf", "newspaper column", read_date("1950"), read_date("1928-1941"))
    (doubt,) = doubts("Star", (1950, 1960), [late])
    assert doubt.certain
    assert "dated 1950, but The Leaf appeared" in doubt.says


def test_a_kit_begun_after_its_house_closed_is_a_question() -> None:
    kit = PrintedAs("Fell's Kits", "kit", read_date("1930"), read_date("1925-1939"))
    (doubt,) = doubts("Star", (1950, 1955), [followed(kit)])
    assert not doubt.certain
    assert "sold kits until 1939" in doubt.says


@pytest.mark.parametrize("made", [(None, None), (1900, None)])
def test_what_is_not_dated_raises_no_doubt(made: tuple[int | None, int | None]) -> None:
    assert doubts("Star", made, [followed(PrintedAs("The Leaf", "magazine"))]) == ()
