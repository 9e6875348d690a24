"""The drafting notation: what each line draws, and the sentence for each line it refuses."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.patterns import DraftError, Role, parse_draft
from catalogue.patterns.drafting import first_fault


def drawn(text):
    return {
        (patch.role.value[0], tuple(sorted((float(x), float(y)) for x, y in patch.corners)))
        for patch in parse_draft(text).patches
    }


@pytest.mark.parametrize(
    ("cell", "patches"),
    [
        ("d", {("d", ((0, 0), (0, 1), (1, 0), (1, 1)))}),
        ("b/d", {("b", ((0, 0), (0, 1), (1, 0))), ("d", ((0, 1), (1, 0), (1, 1)))}),
        (r"b\d", {("b", ((0, 0), (0, 1), (1, 1))), ("d", ((0, 0), (1, 0), (1, 1)))}),
        (
            "b-d",
            {
                ("b", ((0, 0), (0, 0.5), (1, 0), (1, 0.5))),
                ("d", ((0, 0.5), (0, 1), (1, 0.5), (1, 1))),
            },
        ),
        (
            "b|d",
            {
                ("b", ((0, 0), (0, 1), (0.5, 0), (0.5, 1))),
                ("d", ((0.5, 0), (0.5, 1), (1, 0), (1, 1))),
            },
        ),
        (
            "bdla",
            {
                ("b", ((0, 0), (0.5, 0.5), (1, 0))),
                ("d", ((0.5, 0.5), (1, 0), (1, 1))),
                ("l", ((0, 1), (0.5, 0.5), (1, 1))),
                ("a", ((0, 0), (0, 1), (0.5, 0.5))),
            },
        ),
        (
            "ddla",
            {
                ("d", ((0, 0), (1, 0), (1, 1))),
                ("l", ((0, 1), (0.5, 0.5), (1, 1))),
                ("a", ((0, 0), (0, 1), (0.5, 0.5))),
            },
        ),
    ],
)
def test_a_cell_is_cut_as_its_letters_say(cell, patches):
    assert drawn(f"grid 1\n{cell}") == patches


def test_pieces_repeat_by_quarter_turns():
    assert drawn("grid 2\nb: 0,0 1,0 1,1 0,1 x4") == drawn("grid 2\nb b\nb b")


def test_pieces_repeat_mirrored_left_to_right():
    assert drawn("grid 2\nd: box 0,0 1,2 mirrored") == drawn(
        "grid 2\nd: box 0,0 1,2\nd: box 1,0 2,2"
    )


def test_several_letters_are_taken_in_turn_by_the_repeats():
    laid = parse_draft("grid 4\nb: box 0,0 4,4\n+dl: box 1,0 2,1 x4").laid
    assert [shape.role for shape in laid] == [Role.DARK, Role.LIGHT, Role.DARK, Role.LIGHT]


def test_shapes_laid_on_repeat_any_number_of_times():
    assert len(parse_draft("grid 10\nb: box 0,0 10,10\n+d: 4,4 5,1 6,4 x20").laid) == 20


def test_numbers_may_hold_roots_that_agree_wherever_they_stand():
    whole = parse_draft("grid 2+√2\nb: box 0,0 1+√2,2+√2\nd: box 1+√2,0 2+√2,2+√2")
    assert float(whole.pieced[1].area) == pytest.approx(1 / (2 + 2**0.5), abs=1e-6)
    assert whole.divisions is None


def test_a_rounded_side_is_shared_exactly_by_its_neighbours():
    draft = parse_draft("grid 1\nd: 0,0 1,0 ~1,1 0,1\nb: 1,0 1,1 0,1 ~1,1")
    assert sum(patch.area for patch in draft.pieced) == 1


def test_an_oblong_grid_is_drawn_to_the_width():
    assert parse_draft("grid 2 by 1\nd b").height == Fraction(1, 2)


def test_remarks_and_blank_lines_are_passed_over():
    assert drawn("grid 1 # one\n\n d # dark \n") == drawn("grid 1\nd")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "starts with a line such as"),
        ("d b\nb d", "starts with a line such as"),
        ("grid 0\nd", "rules no paper"),
        ("grid two\nd", "not a number"),
        ("grid 2\nd b", "has 2 rows, but 1"),
        ("grid 2\nd b d\nb d b", "has 3 cells, not 2"),
        ("grid 1\nx", "not a cell"),
        ("grid 1\nb/x", "not a cell"),
        ("grid 1\ndddd", "single letter"),
        ("grid 2+√2\nd", "whole divisions"),
        ("grid 2\nd .\nb d", "gap or lie over one another at 1,0"),
        ("grid 2\nd b\nb d\nl: box 0,0 1,1", "gap or lie over one another"),
        ("grid 2\nq: box 0,0 2,2", "no colour role"),
        ("grid 2\nd: 0,0 2,2", "no shape"),
        ("grid 2\nd: 0,0 1,1 2,2", "encloses nothing"),
        ("grid 2\nd: 0,0 3,0 3,2", "reaches outside"),
        ("grid 2\nd: 0,0 2;0 2,2", "not a point"),
        ("grid 2\nd: 0,0 2,x 2,2", "not a number"),
        ("grid 2\nd: ~1,1 2,0 2,2", "no shape"),
        ("grid 2\nd: 0,0 ~1,0 ~2,0 2,2", "two roundings"),
        ("grid 2\nd: 0,0 ~0,0 2,0 2,2", "tangent point away"),
        ("grid 3\nd: box 0,0 1,3 x3", "only shapes laid on"),
        ("grid 2\nb: box 0,0 2,2\n+d: box 0,0 1,1 x9999", "only shapes laid on"),
        ("grid 2\n+d: box 0,0 1,1", "gap or lie over"),
    ],
)
def test_a_bad_drafting_is_refused_in_one_sentence(text, says):
    with pytest.raises(DraftError) as refused:
        parse_draft(text)
    assert says in str(refused.value)
    assert str(refused.value).endswith(".")


@given(st.text(alphabet="grid 1234\nbdlm/\\|-.:,~x+√", max_size=60))
def test_whatever_is_written_is_drawn_whole_or_refused(text):
    try:
        draft = parse_draft("grid 2\n" + text)
    except DraftError:
        return
    assert first_fault(draft) is None
