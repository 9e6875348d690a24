"""The proposed hanging: in order, even, clear of obstacles, and complete wherever one exists."""

from fractions import Fraction
from itertools import combinations, pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rooms import HALL, QUILTS, rooms

from catalogue.exhibits.hanging import plan_hanging
from catalogue.exhibits.hanging_checks import check_plan
from catalogue.exhibits.hanging_rules import DEFAULT_HANGING_RULES
from catalogue.exhibits.places_for_labels import label_places
from catalogue.exhibits.walls import (
    HangingPlan,
    Obstacle,
    Place,
    PlanError,
    QuiltToHang,
    Wall,
)


def bare(length=300, height=120, *obstacles):
    return (Wall("wall", length, height, obstacles),)


def quilts(*sizes):
    return tuple(QuiltToHang(f"q{n}", "", *size) for n, size in enumerate(sizes))


def gaps(plan, wall="wall"):
    """The rooms between the wall's ends and the sides of its quilts, from left to right."""
    hung = plan.on(wall)
    sides = [
        Fraction(0),
        *(s for h in hung for s in (h.box.x, h.box.right)),
        hung[0].wall.box.right,
    ]
    return [right - left for left, right in list(pairwise(sides))[::2]]


@given(rooms())
@settings(max_examples=150, deadline=None)
def test_a_proposed_plan_has_no_finding_of_its_own(room):
    plan = plan_hanging(*room)
    assert check_plan(plan) == ()
    assert {place.quilt for place in plan.places}.isdisjoint(left.quilt for left in plan.unplaced)
    assert len(plan.places) + len(plan.unplaced) == len(room[1])


@given(
    rooms(),
    st.fixed_dictionaries(
        {
            "centre_line": st.integers(45, 75),
            "floor_clearance": st.integers(0, 30),
            "ceiling_clearance": st.integers(0, 12),
            "least_gap": st.integers(0, 40),
            "end_gap": st.integers(0, 40),
            "obstacle_gap": st.integers(0, 20),
            "label_width": st.integers(0, 12),
        }
    ),
)
@settings(max_examples=100, deadline=None)
def test_it_has_none_under_other_rules_either(room, changes):
    rules = DEFAULT_HANGING_RULES.changed(changes)
    assert check_plan(plan_hanging(*room, rules)) == ()


def trivial_plan(walls, quilts):
    """A plan found by trying every place on a grid of feet; None where there is none."""
    rules = DEFAULT_HANGING_RULES
    spots = []
    for quilt in quilts:
        ways = []
        for wall, foot in product(walls, range(41)):
            bottom = plan_hanging((Wall("w", 900, wall.height),), (quilt,)).places
            if bottom:
                place = Place(quilt.key, wall.name, 12 * foot, bottom[0].bottom)
                if not check_plan(HangingPlan(walls, (quilt,), rules, (place,))):
                    ways.append(place)
        spots.append(ways)
    for places in product(*spots):
        plan = HangingPlan(walls, quilts, rules, places)
        if not check_plan(plan):
            return plan
    return None


@given(rooms(most_walls=2, most_quilts=2))
@settings(max_examples=60, deadline=None)
def test_everything_is_hung_wherever_trying_every_place_finds_a_way(room):
    if trivial_plan(*room) is not None:
        assert plan_hanging(*room).unplaced == ()


def test_a_hall_with_door_window_and_radiator_is_hung_in_order():
    plan = plan_hanging(HALL, QUILTS)
    assert [hung.quilt.key for hung in plan.hung] == [quilt.key for quilt in QUILTS]
    assert [hung.wall.name for hung in plan.hung] == ["North wall"] * 2 + ["East wall"] * 2
    assert plan.unplaced == ()


def test_gaps_are_the_same_everywhere_on_a_bare_wall():
    assert (
        gaps(plan_hanging(bare(300), quilts((60, 70), (40, 50), (50, 80)))) == [Fraction(75, 2)] * 4
    )


def test_where_it_is_tight_the_least_gap_is_kept_and_the_ends_share_the_rest():
    plan = plan_hanging(bare(206), quilts((50, 50), (50, 50), (50, 50)))
    assert gaps(plan) == [14, 14, 14, 14]
    plan = plan_hanging(bare(204), quilts((50, 50), (50, 50), (50, 50)))
    assert gaps(plan) == [13, 14, 14, 13]


def test_quilts_are_spread_over_all_walls():
    walls = (Wall("north", 300, 120), Wall("south", 300, 120))
    plan = plan_hanging(walls, quilts(*[(60, 60)] * 4))
    assert [hung.wall.name for hung in plan.hung] == ["north", "north", "south", "south"]


@pytest.mark.parametrize(
    ("length", "height", "bottom"),
    [
        (60, 120, 28),  # centre on the line of 58 in
        (110, 120, 6),  # raised: the lower edge keeps its 6 in
        (80, 96, 13),  # sunk: 3 in stay free above
    ],
)
def test_centres_stand_on_the_line_unless_floor_or_ceiling_are_too_near(length, height, bottom):
    (place,) = plan_hanging(bare(200, height), quilts((60, length))).places
    assert place.bottom == bottom


def test_what_moves_a_centre_off_the_line_is_remarked():
    (remark,) = plan_hanging(bare(200, 120), quilts((60, 110))).remarks
    assert remark == (
        "q0 hangs with its centre 61 in above the floor, 3 in above the line, to keep its lower"
        " edge 6 in above the floor."
    )


@pytest.mark.parametrize("kind", ["door", "opening", "radiator", "vent"])
def test_nothing_hangs_above_ways_through_or_heat(kind):
    low = Obstacle(kind, 130, 0, 40, 10)
    plan = plan_hanging(bare(300, 120, low), quilts((40, 20), (40, 20)))
    one, other = plan.hung
    assert one.box.right <= 124
    assert other.box.x >= 176


def test_a_quilt_may_hang_above_a_low_case_and_below_a_high_sign():
    walls = bare(100, 130, Obstacle("case", 0, 0, 100, 30), Obstacle("sign", 0, 110, 100, 10))
    assert plan_hanging(walls, quilts((60, 40))).unplaced == ()


def test_an_obstacle_in_the_way_of_even_gaps_bounds_the_quilts_beside_it():
    """Each hangs midway between the obstacle and its end of the wall."""
    walls = bare(400, 120, Obstacle("window", 140, 40, 40, 50))
    assert gaps(plan_hanging(walls, quilts((60, 70), (60, 70)))) == [40, 160, 80]


def test_an_obstacle_beside_evenly_spaced_quilts_changes_nothing():
    walls = bare(400, 120, Obstacle("window", 180, 40, 40, 50))
    assert gaps(plan_hanging(walls, quilts((60, 70), (60, 70)))) == [Fraction(280, 3)] * 3


def test_a_quilt_too_long_for_every_wall_is_said():
    (left,) = plan_hanging(bare(300, 96), quilts((60, 90))).unplaced
    assert left.says == (
        "q0 is 90 in long and fits nowhere: between floor and ceiling the walls leave 87 in."
    )


def test_a_quilt_too_wide_is_said_with_the_obstacle_that_alone_is_in_its_way():
    walls = bare(120, 120, Obstacle("outlet", 50, 20, 3, 5))
    (left,) = plan_hanging(walls, quilts((80, 80))).unplaced
    assert "80 in wide and fits nowhere" in left.says
    assert left.says.endswith("Only the outlet keeps it from the wall “wall”.")
    covered = bare(120, 120, Obstacle("outlet", 50, 20, 3, 5, may_be_covered=True))
    assert plan_hanging(covered, quilts((80, 80))).unplaced == ()


def test_a_quilt_for_which_the_order_leaves_no_room_is_said_and_the_rest_is_hung():
    plan = plan_hanging(bare(200), quilts((80, 60), (120, 60), (60, 60)))
    (left,) = plan.unplaced
    assert left.quilt == "q1"
    assert "leave no room for it" in left.says
    assert [hung.quilt.key for hung in plan.hung] == ["q0", "q2"]


def test_without_walls_every_quilt_is_said():
    assert len(plan_hanging((), QUILTS).unplaced) == len(QUILTS)


def test_sentences_are_in_the_unit_asked_for():
    (left,) = plan_hanging(bare(300, 96), quilts((60, 90)), unit="cm").unplaced
    assert "228.6 cm long" in left.says


def test_two_quilts_of_one_name_are_refused():
    with pytest.raises(PlanError, match="2 times"):
        plan_hanging(bare(), quilts((10, 10)) * 2)


@given(rooms())
@settings(max_examples=80, deadline=None)
def test_labels_lie_on_the_wall_beside_their_quilts_and_over_nothing(room):
    plan = plan_hanging(*room)
    labels = label_places(plan)
    for label in labels:
        wall = plan.wall(label.wall)
        (quilt,) = (hung.box for hung in plan.on(label.wall) if hung.quilt.key == label.quilt)
        assert min(abs(label.box.x - quilt.right), abs(quilt.x - label.box.right)) == 3
        assert label.box.y + label.box.height / 2 == 54
        taken = [h.box for h in plan.on(label.wall)] + [o.box for o in wall.obstacles]
        assert not any(label.box.meets(box) for box in taken)
        assert label.box.x >= 0
        assert label.box.right <= wall.box.right
    for one, other in combinations(labels, 2):
        assert one.wall != other.wall or not one.box.meets(other.box)


def test_a_quilt_without_room_for_its_label_is_remarked():
    rules = DEFAULT_HANGING_RULES.changed({"end_gap": 5})
    assert plan_hanging(bare(70), quilts((60, 60)), rules).remarks == (
        "Beside q0 there is no room for its label.",
    )
