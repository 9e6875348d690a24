"""What is found wrong with a plan that was changed by hand, and with the walls themselves."""

import csv
from pathlib import Path

import pytest
from rooms import HALL, QUILTS

from catalogue.exhibits.hanging import plan_hanging
from catalogue.exhibits.hanging_checks import check_plan, check_walls
from catalogue.exhibits.hanging_rules import DEFAULT_HANGING_RULES, HangingRules
from catalogue.exhibits.rules import RuleError
from catalogue.exhibits.walls import (
    HangingPlan,
    Obstacle,
    Place,
    PlanError,
    QuiltToHang,
    Wall,
    WallError,
)

PLAN = plan_hanging(HALL, QUILTS)


def found(plan, kind, unit="in"):
    return [finding.says for finding in check_plan(plan, unit) if finding.kind == kind]


def hung(bottom, x=100, length=60, width=50, *obstacles, height=120):
    """A plan of one quilt on one wall, hung by hand."""
    return HangingPlan(
        (Wall("wall", 300, height, obstacles),),
        (QuiltToHang("a", "Baskets", width, length),),
        places=(Place("a", "wall", x, bottom),),
    )


CHANGED = [  # what was done, kind of finding, its sentence
    (
        PLAN.moved("1995.2", "North wall", 140, 22),
        "over a door",
        "“Baskets” covers the door by 36 in across and 60 in up and down.",
    ),
    (
        hung(28, 0, 60, 50),
        "gap",
        "“Baskets” hangs 0 in from the end of the wall “wall”; at least 12 in is wanted.",
    ),
    (
        hung(28, -4.5),
        "off the wall",
        "“Baskets” reaches 4½ in beyond the left end of the wall “wall”.",
    ),
    (
        hung(28, 260),
        "off the wall",
        "“Baskets” reaches 10 in beyond the right end of the wall “wall”.",
    ),
    (hung(-2), "off the wall", "“Baskets” reaches 2 in beyond the floor of the wall “wall”."),
    (hung(70), "off the wall", "“Baskets” reaches 10 in beyond the top of the wall “wall”."),
    (
        hung(4),
        "too low",
        "The lower edge of “Baskets” is 4 in above the floor; at least 6 in is wanted.",
    ),
    (
        hung(59),
        "too high",
        "Above “Baskets” there is 1 in to the top of the wall; at least 3 in is wanted.",
    ),
    (
        hung(70, height=160),
        "out of reach",
        "The upper edge of “Baskets” is 130 in above the floor, out of reach of those who hang"
        " it: the limit is 120 in.",
    ),
    (
        hung(40),
        "off the centre line",
        "The centre of “Baskets” is 70 in above the floor and would stand at 58 in with the"
        " others.",
    ),
    (
        hung(28, 100, 60, 50, Obstacle("radiator", 110, 0, 20, 20)),
        "over an obstacle",
        "“Baskets” hangs above the radiator: nothing may.",
    ),
    (
        hung(28, 100, 60, 50, Obstacle("other", 145, 50, 30, 10, "fire bell")),
        "over an obstacle",
        "“Baskets” covers the fire bell by 5 in across and 10 in up and down.",
    ),
    (
        hung(28, 100, 60, 50, Obstacle("switch", 152, 46, 3, 5)),
        "too near",
        "“Baskets” comes within 2 in of the switch; at least 6 in is wanted.",
    ),
    (
        PLAN.moved("1995.1", "East wall", 12, 16),
        "order",
        "“Baskets”, number 2, is met before “Ocean Waves”, number 1.",
    ),
    (PLAN.without("1998.4"), "not hung", "“Crib quilt” hangs nowhere."),
]


@pytest.mark.parametrize(("plan", "kind", "says"), CHANGED)
def test_a_change_by_hand_is_checked_with_its_numbers(plan, kind, says):
    assert says in found(plan, kind)


def two(x, bottom=28):
    """Two quilts of 50 by 60 in, the second hung at `x`."""
    return HangingPlan(
        (Wall("wall", 300, 120),),
        (QuiltToHang("a", "Baskets", 50, 60), QuiltToHang("b", "Stars", 50, 60)),
        places=(Place("a", "wall", 50, 28), Place("b", "wall", x, bottom)),
    )


def test_quilts_that_overlap_are_found_with_both_keys():
    (finding,) = (f for f in check_plan(two(90)) if f.kind == "overlap")
    assert finding.says == "“Baskets” and “Stars” overlap by 10 in across and 60 in up and down."
    assert finding.about == ("a", "b")


def test_quilts_that_hang_too_close_are_found_also_one_above_the_other():
    assert found(two(110), "gap") == [
        "Between “Baskets” and “Stars” there is 10 in; at least 14 in is wanted."
    ]
    assert found(two(60, 92), "gap") == [
        "Between “Baskets” and “Stars” there is 4 in; at least 14 in is wanted."
    ]
    assert found(two(114), "gap") == []


def test_a_walls_own_gap_overrules_the_rules():
    wall = Wall("wall", 300, 120, least_gap=8)
    plan = HangingPlan((wall,), two(110).quilts, places=two(110).places)
    assert found(plan, "gap") == []


def test_a_door_between_two_quilts_is_gap_enough():
    wall = Wall("wall", 300, 120, (Obstacle("opening", 106, 0, 1, 90),))
    plan = HangingPlan((wall,), two(113).quilts, places=two(113).places)
    assert found(plan, "gap") == []


def test_an_obstacle_that_may_be_covered_is_none():
    outlet = Obstacle("outlet", 110, 30, 3, 5, may_be_covered=True)
    assert check_plan(hung(28, 100, 60, 50, outlet)) == ()


def test_findings_name_the_source_of_a_figure():
    (finding,) = (f for f in check_plan(hung(4)) if f.kind == "too low")
    assert "Shelburne Museum" in finding.source


def test_sentences_are_in_the_unit_asked_for():
    assert found(hung(4), "too low", "cm") == [
        "The lower edge of “Baskets” is 10.2 cm above the floor; at least 15.2 cm is wanted."
    ]


def test_labels_out_of_reach_of_eyes_are_found():
    rules = DEFAULT_HANGING_RULES.changed({"label_centre": 70})
    assert any(f.kind == "label height" for f in check_plan(plan_hanging(HALL, QUILTS, rules)))


@pytest.mark.parametrize(
    ("bottom", "out", "blamed"),
    [(30, 10, True), (27, 10, False), (80, 10, False), (30, 4, False), (30, None, False)],
)
def test_a_case_that_a_cane_does_not_find_is_said(bottom, out, blamed):
    wall = Wall("wall", 300, 120, (Obstacle("case", 10, bottom, 20, 20, projection=out),))
    findings = check_walls((wall,))
    assert bool(findings) == blamed
    assert all("4.4.1" in finding.source for finding in findings)


def published():
    path = Path(__file__).parents[1] / "published" / "hanging_rules.csv"
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", published(), ids=lambda row: row["rule"])
def test_rules_from_published_figures_say_what_their_sources_say(row):
    assert getattr(DEFAULT_HANGING_RULES, row["rule"]) == int(row["figure"])


def test_every_rule_names_its_basis_and_lies_within_its_own_bounds():
    for rule in HangingRules.table:
        assert rule.source
        assert rule.smallest <= rule.default <= rule.largest
        if "no source" in rule.source or "not be confirmed" in rule.source:
            assert rule.basis != "published"


def test_rules_are_changed_and_the_changes_are_kept():
    rules = DEFAULT_HANGING_RULES.changed({"centre_line": "60.5"})
    assert rules.departures() == {"centre_line": 60.5}
    assert DEFAULT_HANGING_RULES.departures() == {}


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({"centre_line": "high"}, "“high” for the height of the quilts' centres"),
        ({"centre_line": 12}, "outside 40 to 80 in"),
        ({"centre": 58}, "no rule “centre”"),
        ({"centre_line": float("nan")}, "not a number"),
    ],
)
def test_rules_that_cannot_be_are_refused(settings, says):
    with pytest.raises(RuleError, match=says):
        DEFAULT_HANGING_RULES.changed(settings)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Wall("wall", 0, 120), "cannot be 0 in"),
        (lambda: Wall("wall", float("inf"), 120), "not a length"),
        (lambda: Wall("wall", 100, 120, (Obstacle("door", 80, 0, 36, 80),)), "beyond the wall"),
        (lambda: Obstacle("piano", 0, 0, 10, 10), "not a kind of obstacle"),
        (lambda: Obstacle("door", -1, 0, 10, 10), "cannot be -1 in"),
        (lambda: QuiltToHang("a", "Baskets", 50, 0), "length of “Baskets” cannot be 0 in"),
    ],
)
def test_measurements_that_cannot_be_are_refused(make, says):
    with pytest.raises(WallError, match=says):
        make()


def test_a_plan_cannot_hang_what_it_does_not_have():
    with pytest.raises(PlanError, match="does not have both"):
        PLAN.moved("1901.1", "North wall", 0, 0)
    with pytest.raises(PlanError, match="no wall “Attic”"):
        PLAN.wall("Attic")
