"""Drafted blocks: exact areas, exact tiling, symmetries and plain grids."""

from fractions import Fraction
from math import pi

import pytest

from catalogue.patterns import (
    Position,
    Role,
    design,
    designs,
    grid_of_roles,
    parse_draft,
    symmetries,
)
from catalogue.patterns.drafting import Draft, first_fault, moves

ALL = designs()
TURNS = {Position.AS_DRAFTED, Position.TURNED_90, Position.TURNED_180, Position.TURNED_270}
HALF_TURN = {Position.AS_DRAFTED, Position.TURNED_180}
OBLONG = HALF_TURN | {Position.MIRRORED, Position.MIRRORED_180}
EVERY = set(Position)


@pytest.mark.parametrize("each", ALL, ids=lambda each: each.slug)
def test_the_pieces_of_every_design_cover_its_block_exactly_once(each):
    assert sum(patch.area for patch in each.draft.pieced) == each.draft.height
    assert first_fault(each.draft) is None


@pytest.mark.parametrize("each", ALL, ids=lambda each: each.slug)
def test_a_design_stays_whole_in_each_of_its_positions(each):
    for move in moves(each.draft.height).values():
        moved = Draft(tuple(patch.moved(move) for patch in each.draft.patches), each.draft.height)
        assert first_fault(moved) is None
        assert moved.pieced[0].area == each.draft.pieced[0].area


@pytest.mark.parametrize("each", ALL, ids=lambda each: each.slug)
def test_taking_any_one_piece_away_is_noticed(each):
    pieced = each.draft.pieced
    for missing in (0, len(pieced) // 2, len(pieced) - 1):
        rest = pieced[:missing] + pieced[missing + 1 :]
        assert first_fault(Draft(rest, each.draft.height)) is not None


# How each block looks after a turn or in a mirror follows from its drawing.
@pytest.mark.parametrize(
    ("slug", "unchanged"),
    [
        ("nine-patch", EVERY),
        ("ohio-star", EVERY),
        ("churn-dash", EVERY),
        ("bears-paw", EVERY),
        ("mariners-compass", EVERY),
        ("orange-peel", EVERY),
        ("pinwheel", TURNS),
        ("friendship-star", TURNS),
        ("clays-choice", TURNS),
        ("kansas-troubles", TURNS),
        ("turnstile", TURNS),
        ("rail-fence", TURNS),
        ("snails-trail", HALF_TURN),
        ("spools", OBLONG),
        ("courthouse-steps", OBLONG),
        ("hexagon-mosaic", OBLONG),
        ("flying-geese", {Position.AS_DRAFTED, Position.MIRRORED}),
        ("butterfly", {Position.AS_DRAFTED, Position.MIRRORED}),
        ("maple-leaf", {Position.AS_DRAFTED, Position.MIRRORED_90}),
        ("cake-stand", {Position.AS_DRAFTED, Position.MIRRORED_270}),
        ("log-cabin", {Position.AS_DRAFTED}),
        ("schoolhouse", {Position.AS_DRAFTED}),
        ("sunbonnet-girl", {Position.AS_DRAFTED}),
    ],
)
def test_symmetries_are_those_of_the_drawing(slug, unchanged):
    assert symmetries(design(slug).draft) == unchanged


@pytest.mark.parametrize("each", ALL, ids=lambda each: each.slug)
def test_the_symmetries_of_a_design_form_a_group(each):
    kept = symmetries(each.draft)
    assert Position.AS_DRAFTED in kept
    assert len(kept) in (1, 2, 4, 8)


def test_a_colour_out_of_place_takes_a_symmetry_away():
    plain = parse_draft("grid 3\nd b d\nb d b\nd b d")
    one_light = parse_draft("grid 3\nl b d\nb d b\nd b d")
    assert len(symmetries(plain)) == 8
    assert symmetries(one_light) == {Position.AS_DRAFTED, Position.MIRRORED_270}


def test_turns_are_clockwise_as_seen_from_the_front():
    corner = (Fraction(1, 4), Fraction(0))
    assert moves()[Position.TURNED_90](corner) == (1, Fraction(1, 4))
    assert moves()[Position.TURNED_270](corner) == (0, Fraction(3, 4))


def test_curved_areas_are_those_of_the_circle():
    draft = parse_draft("grid 2\nb: box 0,0 2,2\n+d: circle 1,1 1")
    assert float(draft.laid[0].area) == pytest.approx(pi / 4, rel=3e-4)


def test_a_plain_grid_shows_the_role_on_top_in_the_middle_of_each_cell():
    drawn = parse_draft("grid 2\nd b\nb d\n+a: box 0,0 1,1")
    letters = [[role.value[0] for role in row] for row in grid_of_roles(drawn, 2)]
    assert letters == [["a", "b"], ["b", "d"]]


def test_a_plain_grid_of_an_oblong_keeps_its_cells_square():
    grid = grid_of_roles(design("flying-geese").draft, 8)
    assert (len(grid), len(grid[0])) == (4, 8)
    assert grid[3][4] is Role.DARK
    assert grid[0][0] is Role.BACKGROUND


def test_a_plain_grid_of_no_cells_is_refused():
    with pytest.raises(ValueError, match="at least one cell"):
        grid_of_roles(design("nine-patch").draft, 0)
