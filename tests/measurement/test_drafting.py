"""Patch sizes tell the divisions per side and the family, or that the block is off the grid."""

from math import inf, nan, sqrt
from random import Random

import pytest

from catalogue.measurement.drafting import (
    EIGHT_POINT_STAR,
    FAMILIES,
    DraftingError,
    PatchesAre,
    infer_drafting,
)

GRIDS = [
    # block, patches, they are, divisions, family, source
    (12, [3.5], "cut", 4, "four-patch", "common practice: sixteen patches in a 12 in block"),
    (12, [3], "finished", 4, "four-patch", "common practice: sixteen patches in a 12 in block"),
    (6, [2], "cut", 4, "four-patch", "common practice: sixteen patches in a 6 in block"),
    (6, [1.5], None, 4, "four-patch", "common practice: sixteen patches in a 6 in block"),
    (12, [6, 3], None, 4, "four-patch", "computed"),
    (12, [1.5, 3], None, 8, "four-patch", "computed"),
    (12, [4], None, 3, "nine-patch", "computed"),
    (7.5, [2.5], None, 3, "nine-patch", "computed"),
    (12, [2, 4], None, 6, "nine-patch", "computed"),
    (12, [1], "finished", 12, "nine-patch", "computed"),
    (10, [4, 2], None, 5, "five-patch", "computed"),
    (10, [1], "finished", 10, "five-patch", "computed"),
    (14, [2], "finished", 7, "seven-patch", "computed"),
    (13.5, [1.93, 3.85], "finished", 7, "seven-patch", "computed: 13 1/2 in sevenths"),
    (12, [4.25, 3], "finished", 4, "four-patch", "computed: a square set diagonally in four"),
]


@pytest.mark.parametrize(("block", "patches", "state", "divisions", "family", "source"), GRIDS)
def test_patches_tell_the_grid(
    block: float,
    patches: list[float],
    state: PatchesAre | None,
    divisions: int,
    family: str,
    source: str,
) -> None:
    drafting = infer_drafting(block, patches, patches_are=state)
    best = drafting.best
    assert (best.divisions, best.family) == (divisions, family), source
    assert best.unit == pytest.approx(block / divisions)
    assert drafting.certainty > 0.6
    assert drafting.family_certainty >= drafting.certainty
    assert f"{divisions} divisions" in drafting.grounds


def test_the_proportion_of_the_eight_point_star_is_known() -> None:
    """Block = diamond side x 3.41; the edge triangle's long side is 1.414 diamond sides."""
    drafting = infer_drafting(12, [3.5, 5], patches_are="finished")
    assert drafting.best.family == EIGHT_POINT_STAR
    assert drafting.best.divisions is None
    assert drafting.certainty > 0.9
    assert "3.41" in drafting.grounds


def test_patches_on_no_grid_are_called_so() -> None:
    drafting = infer_drafting(12, [5.1, 2.2], patches_are="finished")
    assert (drafting.best.divisions, drafting.best.family) == (None, None)
    assert "no even part" in drafting.grounds


def test_an_open_question_keeps_its_other_answers() -> None:
    """3 1/2 in of a 12 in block is a cut four-patch square or the diamond of a star."""
    drafting = infer_drafting(12, [3.5])
    assert (drafting.best.divisions, drafting.best.patches_are) == (4, "cut")
    assert EIGHT_POINT_STAR in [draft.family for draft in drafting.others]
    assert drafting.certainty < 0.75


def test_a_second_patch_settles_more() -> None:
    one = infer_drafting(10, [2])
    two = infer_drafting(10, [2, 4])
    assert two.certainty > one.certainty


def test_certainties_are_shares_of_one() -> None:
    drafting = infer_drafting(9, [1])
    certainties = [draft.certainty for draft in (drafting.best, *drafting.others)]
    assert 0.9 < sum(certainties) <= 1 + 1e-9
    assert certainties == sorted(certainties, reverse=True)


def test_units_read_to_an_eighth_still_tell_the_family() -> None:
    """Drawn at random: 200 blocks of every family, two patches each, made 1 % out, tape 1/8."""
    random = Random(19)
    right = sum(_family_is_recovered(random) for _ in range(200))
    assert right >= 180


def _family_is_recovered(random: Random) -> bool:
    family, divisions = random.choice(
        [(f, n) for f, many in FAMILIES.items() for n in many if 3 <= n <= 8]
    )
    block = random.choice([9, 10, 12, 14, 15])
    unit = block / divisions
    made = [unit * n * random.gauss(1, 0.01) for n in (1, 2)]
    read = [round(size * 8) / 8 for size in made]
    return infer_drafting(block, read, patches_are="finished").best.family == family


@pytest.mark.parametrize(
    ("block", "patches"),
    [(12, []), (0, [3]), (12, [0]), (12, [-3]), (nan, [3]), (12, [inf]), (12, [12]), (12, [13])],
)
def test_sizes_that_are_no_block_and_patch_are_refused(block: float, patches: list[float]) -> None:
    with pytest.raises(DraftingError):
        infer_drafting(block, patches)


def test_patches_smaller_than_their_seams_are_refused() -> None:
    with pytest.raises(DraftingError, match="seams"):
        infer_drafting(12, [0.4], patches_are="cut")


def test_a_square_on_point_is_said_as_half_a_diagonal() -> None:
    drafting = infer_drafting(12, [6 / sqrt(2), 3], patches_are="finished")
    assert "half the diagonal of 2 units and 1 unit" in drafting.grounds
