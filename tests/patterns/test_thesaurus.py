"""The thesaurus: enough designs, each named, sourced and in its family."""

import re

import pytest

from catalogue.patterns import (
    FAMILIES,
    GRID_FAMILIES,
    DraftError,
    UnknownDesignError,
    design,
    designs,
)
from catalogue.patterns.thesaurus import read_designs

ALL = designs()


def test_there_are_at_least_eighty_designs_of_every_family():
    assert len(ALL) >= 80
    assert {each.family for each in ALL} == set(FAMILIES)


def test_no_two_designs_share_a_slug_a_name_or_a_drawing():
    for attribute in ("slug", "name", "draft"):
        values = [getattr(each, attribute) for each in ALL]
        assert len(values) == len(set(values))


@pytest.mark.parametrize("each", ALL, ids=lambda each: each.slug)
def test_every_name_and_date_has_its_source(each):
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", each.slug)
    assert all(other.name and other.source for other in each.also_named)
    assert len(set(each.names)) == len(each.names)
    if each.earliest:
        assert re.search(r"\d{4}", each.earliest.date)
        assert each.earliest.where
        assert each.earliest.source


@pytest.mark.parametrize("each", ALL, ids=lambda each: each.slug)
def test_divisions_are_those_of_the_family(each):
    if each.family in GRID_FAMILIES:
        assert each.divisions in GRID_FAMILIES[each.family]
    else:
        assert each.divisions is None


# Divisions a side of well-known blocks, the trade's own way of naming the families (common
# practice, no single source): judged by divisions, never by the number of pieces.
@pytest.mark.parametrize(
    ("slug", "family", "divisions"),
    [
        ("four-patch", "four-patch", 2),
        ("puss-in-the-corner", "four-patch", 4),
        ("sawtooth-star", "four-patch", 4),
        ("nine-patch", "nine-patch", 3),
        ("ohio-star", "nine-patch", 3),
        ("jacobs-ladder", "nine-patch", 6),
        ("double-irish-chain", "five-patch", 5),
        ("bears-paw", "seven-patch", 7),
        ("lemoyne-star", "eight-point star", None),
    ],
)
def test_known_blocks_stand_in_their_family(slug, family, divisions):
    assert (design(slug).family, design(slug).divisions) == (family, divisions)


# Pieces counted on paper from the drawing of each block.
@pytest.mark.parametrize(
    ("slug", "pieces"),
    [
        ("nine-patch", 9),
        ("churn-dash", 17),
        ("ohio-star", 21),
        ("shoo-fly", 13),
        ("sawtooth-star", 17),
        ("bears-paw", 45),
        ("jacobs-ladder", 28),
        ("dutchmans-puzzle", 24),
        ("lemoyne-star", 16),
        ("log-cabin", 13),
        ("star-of-bethlehem", 136),
    ],
)
def test_known_blocks_have_their_number_of_pieces(slug, pieces):
    assert len(design(slug).draft.pieced) == pieces


def test_an_unknown_slug_is_named_in_the_error():
    with pytest.raises(UnknownDesignError, match="'no-such-block'"):
        design("no-such-block")


def test_a_bad_drafting_names_its_design():
    text = (
        'family = "four-patch"\n[[design]]\nslug = "x"\nname = "Odd Patch"\n'
        'draft = "grid 3\\nd d d"'
    )
    with pytest.raises(DraftError, match="Odd Patch: The grid has 3 rows"):
        read_designs(text)


def test_a_drafting_off_its_family_is_refused():
    text = (
        'family = "five-patch"\n[[design]]\nslug = "x"\nname = "Odd Patch"\n'
        'draft = "grid 2\\nd b\\nb d"'
    )
    with pytest.raises(DraftError, match="2 divisions a side do not make a five-patch"):
        read_designs(text)


def test_no_name_carries_a_reference_number_of_an_encyclopaedia():
    written = [text for each in ALL for text in (*each.names, each.note)]
    assert not [
        text for text in written if re.search(r"(#|\bno\.?|number)\s*\d", text, re.IGNORECASE)
    ]
