"""The table of clues: complete, ordered, and honest about what is from memory."""

import pytest

from catalogue.dating.clues import (
    FORCES,
    Clue,
    ClueError,
    ClueReading,
    clue_table,
    inscription,
)
from catalogue.dating.shapes import shapes

CLUES = list(clue_table().values())


@pytest.mark.parametrize("clue", CLUES, ids=lambda clue: clue.key)
def test_every_clue_has_a_force_a_known_kind_and_a_source(clue):
    assert clue.force in FORCES
    assert clue.kind in shapes()
    assert clue.short
    assert clue.source


@pytest.mark.parametrize("clue", CLUES, ids=lambda clue: clue.key)
def test_a_source_that_is_memory_marks_its_figures(clue):
    if clue.source == "from memory":
        assert clue.memory
    else:
        assert clue.memory or clue.address


def test_the_kinds_of_evidence_that_cataloguers_find_are_all_there():
    kinds = {clue.kind for clue in CLUES}
    assert kinds >= {
        *("dye", "print", "colour", "fibre", "fabric", "batting", "technique", "style"),
        *("edge", "pattern", "pattern source", "kit"),
    }


def test_a_floor_is_given_only_where_the_thing_cannot_be_older():
    floors = [clue for clue in CLUES if clue.force == "earliest possible"]
    assert all(clue.earliest for clue in floors if clue.key != "dated-print")


def test_years_out_of_order_are_refused_by_name():
    with pytest.raises(ClueError, match='"Rayon" are not in order'):
        Clue("rayon", "Rayon", "rayon", "fibre", "usual span", 1950, 1911)


@pytest.mark.parametrize("chance", [-0.1, 1.1])
def test_a_chance_outside_0_to_1_is_refused(chance):
    with pytest.raises(ClueError, match="not a chance between 0 and 1"):
        ClueReading(inscription(1876), present=chance)


def test_a_print_that_names_a_year_takes_that_year():
    clue = clue_table()["dated-print"].of_year(1976)
    assert (clue.begins, clue.peak_from, clue.peak_to) == (1976, 1976, 1976)
