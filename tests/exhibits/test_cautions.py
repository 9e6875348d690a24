"""Cautions in plain words, wherever somebody could come to harm."""

import pytest

from catalogue.exhibits.cautions import CautionError, cautions, cautions_for, places


def words(caution):
    return " ".join((caution.says, *caution.do)).lower()


def test_each_caution_of_the_house_is_there_with_what_to_do_and_a_source():
    assert [caution.key for caution in cautions()] == [
        "hanging-strength",
        "light",
        "ladders-and-lifting",
        "dyes-and-pesticides",
        "pins",
        "ultraviolet-lamps",
        "values",
    ]
    assert all(caution.do and caution.places and caution.source for caution in cautions())


@pytest.mark.parametrize("caution", cautions(), ids=lambda caution: caution.key)
def test_each_sends_the_reader_to_somebody_who_knows(caution):
    asked = ("textile conservator", "local rules", "local law")
    assert any(who in words(caution) for who in asked)


def test_hazards_are_never_inferred_from_colour():
    (hazards,) = (caution for caution in cautions() if caution.key == "dyes-and-pesticides")
    assert "neither colour nor smell nor age shows" in words(hazards)
    for state in ("suspected", "tested", "cleared"):
        assert state in words(hazards)


def test_values_are_said_to_be_no_appraisals():
    (values,) = (caution for caution in cautions() if caution.key == "values")
    assert "not legal or tax advice" in words(values)


SHOWN = [
    ("hanging plan", ["hanging-strength", "ladders-and-lifting"]),
    ("light account", ["light"]),
    ("examination", ["dyes-and-pesticides", "pins", "ultraviolet-lamps"]),
    ("insurance list", ["values"]),
    (
        "installation checklist",
        ["hanging-strength", "light", "ladders-and-lifting", "dyes-and-pesticides", "pins"],
    ),
]


@pytest.mark.parametrize(("place", "keys"), SHOWN)
def test_cautions_are_shown_where_they_belong(place, keys):
    assert [caution.key for caution in cautions_for(place)] == keys


def test_a_place_without_a_caution_is_refused_with_those_that_have_one():
    with pytest.raises(CautionError, match="hanging plan"):
        cautions_for("kitchen")
    assert all(cautions_for(place) for place in places())
