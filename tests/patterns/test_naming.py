"""Names: spellings of one name, names of one design, names that several designs bear."""

import pytest

from catalogue.patterns import design, designs, find_names, name_key, same_design


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Bear's Paw", "BEARS PAW"),
        ("Bear’s Paw", "Bear-Paw"),
        ("The Bears' Paw", "bear's paw quilt"),
        ("Princess Feather", "princess-feather"),
        ("Appliqué Butterfly", "Applique butterfly"),
        ("Rob Peter & Pay Paul", "Rob Peter and Pay Paul"),
        ("Hole in the Barn Door", "hole in barn-door"),
    ],
)
def test_spellings_of_one_name_have_one_key(one, other):
    assert name_key(one) == name_key(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("Ohio Star", "Ohio Rose"), ("Four Patch", "Nine Patch"), ("Fan", "Fence")],
)
def test_different_names_have_different_keys(one, other):
    assert name_key(one) != name_key(other)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("churn dash", "Hole in the Barn Door", True),
        ("Duck's Foot in the Mud", "hand of friendship", True),
        ("Monkey Wrench", "Snail's Trail", True),
        ("Monkey Wrench", "Churn Dash", True),
        ("Snail's Trail", "Churn Dash", False),
        ("My Aunt's Own Pattern", "my aunts' own pattern", True),
        ("Ohio Star", "Log Cabin", False),
    ],
)
def test_names_of_one_design_match_one_another(one, other, same):
    assert same_design(one, other) is same


@pytest.mark.parametrize("each", designs(), ids=lambda each: each.slug)
def test_every_design_is_found_by_each_of_its_names(each):
    for name in each.names:
        assert each in [match.design for match in find_names(name.upper())]


def test_the_preferred_name_comes_before_those_also_called_so():
    assert find_names("robbing peter to pay paul")[0].design == design("robbing-peter-to-pay-paul")


def test_a_name_that_several_designs_bear_is_shared_among_them():
    found = find_names("monkey-wrench")
    assert {match.design.slug for match in found} >= {"churn-dash", "snails-trail"}
    assert sum(match.certainty for match in found) == pytest.approx(1)
    assert all("designs bear it" in match.grounds for match in found)


def test_an_only_name_is_certain_and_says_where_it_stands():
    (match,) = find_names("Duck's Foot in the Mud")
    assert match.certainty == 1
    assert match.grounds == "Duck's Foot in the Mud is another name of Bear's Paw (from memory)."


@pytest.mark.parametrize(
    ("written", "slug"),
    [
        ("barn door", "churn-dash"),
        ("flower garden grandmother", "grandmothers-flower-garden"),
        ("Jakobs Lader", "jacobs-ladder"),
        ("Drezden Plate", "dresden-plate"),
        ("mariners compas", "mariners-compass"),
    ],
)
def test_parts_and_misspellings_are_offered_without_certainty(written, slug):
    found = find_names(written)
    assert slug in [match.design.slug for match in found]
    assert all(match.certainty <= 0.5 for match in found)


@pytest.mark.parametrize("written", ["", "   ", "?!", "zzzzzz", "Ohio Rose Bowl"])
def test_a_name_unlike_any_other_finds_nothing(written):
    assert find_names(written) == ()
