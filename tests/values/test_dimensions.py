"""A dimension string gives width and length, checks its own second unit, and says its doubts."""

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.values.dimensions import DimensionsError, answer_dimensions, read_dimensions
from catalogue.values.lengths import format_length

CM = 2.54

HOUSE_ORDER = [
    # text, length, width (inches)
    ("87 x 79 1/2 in.", 87, 79.5),
    ("91-1/2 x 91-1/2 in.", 91.5, 91.5),
    ("87½ × 79⅝", 87.5, 79.625),
    ("87x79", 87, 79),
    ("87inx79in", 87, 79),
    ("87 by 79 inches", 87, 79),
    ("87 * 79 in", 87, 79),
    ("7'3\" x 6'11\"", 87, 83),
    ("8 ft. 9 1/2 in. x 8 ft. 8 1/2 in.", 105.5, 104.5),
    ("7 x 6 ft", 84, 72),
    ("8’ x 7’", 96, 84),
    ("221 x 202 cm", 221 / CM, 202 / CM),
    ("2.21 m x 2.02 m", 221 / CM, 202 / CM),
    ("2210 x 2020 mm", 221 / CM, 202 / CM),
    ("221,5 x 202,5 cm", 221.5 / CM, 202.5 / CM),
    ("95 x 63 in. (without fringe)", 95, 63),
    ("105 1/2 x 104 1/2 in. (268 x 265.4 cm)", 105.5, 104.5),
    ("105 1/2 in. (268 cm) x 104 1/2 in. (265.4 cm)", 105.5, 104.5),
    ("221 x 200.7 cm; 87 x 79 in.", 221 / CM, 200.7 / CM),
    ("87 x 79 in. / 221 x 200.7 cm", 87, 79),
    ('90 1/2" x 72" [229.9 x 182.9 cm]', 90.5, 72),
    ("87 x 79.5 (221 x 202 cm)", 87, 79.5),
    ("Overall - 87 x 79 in.", 87, 79),
    ("Dimensions (cm): 221 x 202", 221 / CM, 202 / CM),
    ("Size in cm: 221 x 202", 221 / CM, 202 / CM),
    ("221 x 202 (cm)", 221 / CM, 202 / CM),
]


@pytest.mark.parametrize(("text", "length", "width"), HOUSE_ORDER)
def test_two_numbers_without_labels_are_length_by_width(
    text: str, length: float, width: float
) -> None:
    answer = answer_dimensions(text)
    assert answer["length_in"] == pytest.approx(length, abs=0.0006)
    assert answer["width_in"] == pytest.approx(width, abs=0.0006)
    assert answer["order"] == "length x width"
    assert answer["cautions"] == []


LABELLED = [
    # text, length, width (inches), order
    ("H x W: 268 x 265.5 cm (8 ft. 9 1/2 in. x 8 ft. 8 1/2 in.)", 268 / CM, 265.5 / CM, "l"),
    ("Overall: H x W: 268 x 265.5 cm (105 1/2 x 104 1/2 in.)", 268 / CM, 265.5 / CM, "l"),
    ("HxW: 87x79 in", 87, 79, "l"),
    ("W x L: 79 x 87", 87, 79, "w"),
    ("H x W x D: 87 x 79 x 1/4 in.", 87, 79, "l"),
    ("L: 87 in.; W: 79 in.", 87, 79, "l"),
    ("Length: 87 in. (221 cm); Width: 79 in. (200.7 cm)", 87, 79, "l"),
    ("Length 87 in. Width 79 in.", 87, 79, "l"),
    ("height 87 x width 79", 87, 79, "l"),
    ("87 in. L x 79 1/2 in. W", 87, 79.5, "l"),
    ("79.5 (W) x 87 (L)", 87, 79.5, "w"),
    ("85 in. high x 70 in. wide", 85, 70, "l"),
    ("W: 79½”  L: 87¼”", 87.25, 79.5, "w"),
    ("w 200cm x h 230cm", 230 / CM, 200 / CM, "w"),
    ("H230cm x W200cm", 230 / CM, 200 / CM, "l"),
    ("230 cm (h) x 200 cm (w)", 230 / CM, 200 / CM, "l"),
    ("width 79 x 87 in.", 87, 79, "w"),
    ("221 (H) x 202 (W) cm", 221 / CM, 202 / CM, "l"),
    ("221 h x 202 w x 1 d cm.", 221 / CM, 202 / CM, "l"),
    ("H. 87 1/2 x W. 79 in.", 87.5, 79, "l"),
    ("Overall - Height: 87 in; Width: 79 in.", 87, 79, "l"),
]


@pytest.mark.parametrize(("text", "length", "width", "order"), LABELLED)
def test_labels_rule_over_the_order(text: str, length: float, width: float, order: str) -> None:
    answer = answer_dimensions(text)
    assert answer["length_in"] == pytest.approx(length, abs=0.0006)
    assert answer["width_in"] == pytest.approx(width, abs=0.0006)
    assert answer["order"] == {"l": "length x width", "w": "width x length"}[order]
    assert answer["cautions"] == []


@pytest.mark.parametrize(
    ("text", "order"),
    [("diameter 30 in.", "diameter"), ("Diam: 30 in.", "diameter"), ("30 in. square", "square")],
)
def test_a_circle_and_a_square_need_one_number(text: str, order: str) -> None:
    found = read_dimensions(text)
    assert (float(found.width or 0), float(found.length or 0), found.order) == (30, 30, order)


def test_one_labelled_side_leaves_the_other_unknown_and_says_so() -> None:
    answer = answer_dimensions("Width: 79 in.")
    assert (answer["width_in"], answer["length_in"]) == (79, None)
    assert answer["cautions"] == ["Only the width is given."]


CAUTIONED = [
    # text, length, width, words of the one caution
    ("105 1/2 x 104 1/2 in. (258 x 265.4 cm)", 105.5, 104.5, "258 cm is 101 9/16 in"),
    ("85 1/4 x 70 in. (215.5 x 177.8 cm)", 85.25, 70, "215.5 cm is 84 13/16 in"),
    ("221 x 202 (87 x 79.5 in.)", 87, 79.5, "agrees when read in cm"),
    ("221 x 202", 221, 202, "look like centimetres"),
    ("A) 9-3/4 x 4 in. B) 10 x 5 in.", 9.75, 4, "2 parts"),
    ("(a) 9-3/4 x 4 in.; (b) 10 x 5 in.; (c) 1 x 2", 9.75, 4, "3 parts"),
    ("1) 9-3/4 x 4 in. 2) 10 x 5 in.", 9.75, 4, "2 parts"),
    ("Overall: 87 x 79 in. Block: 12 x 12 in.", 87, 79, "block"),
    ("block: 12 x 12 in.; overall: 87 x 79 in.", 87, 79, "block"),
    ("approx. 87 x 79 in.", 87, 79, "approximate"),
    ("ca. 87 x 79 in.", 87, 79, "approximate"),
    ("87 x 79 in. (approx.)", 87, 79, "approximate"),
    ("87 x 79 x 0.25 in", 87, 79, "thickness"),
    ("87 in x 200.66 cm", 87, 79, "different units"),
    ("87 x 79 in.; 30 x 20 in.", 87, 79, "30 x 20 in"),
    ("87 x 79 in.; 1930-1940", 87, 79, "1930"),
    ("87 x 79 in. including 2 in. binding", 87, 79, "2 in"),
]


@pytest.mark.parametrize(("text", "length", "width", "words"), CAUTIONED)
def test_doubts_are_said_beside_the_reading(
    text: str, length: float, width: float, words: str
) -> None:
    found = read_dimensions(text)
    assert (float(found.length or 0), float(found.width or 0)) == (length, width)
    (caution,) = found.cautions
    assert words in caution


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "states no dimension"),
        ("about the size of a bed", "states no dimension"),
        ("87 in.", "say whether it is width or length"),
        ("87 79 in.", "say whether it is width or length"),
        ("87-88 x 79 in.", "range"),
        ("87 to 88 x 79 in.", "range"),
        ("-87 x 79", "negative"),
        ("0 x 79", "zero"),
        ("87/0 x 79", "divides by zero"),
        ("1/3 x 79999 in", "more than 200 feet"),
        ("H 87 in x L 79 in", "labels two numbers"),
        ("D: 30 in", "does not say which"),
        ("87 x 79 x 3 x 2", "more than three"),
        pytest.param("87 x " * 1000, "too long", id="a thousand numbers"),
    ],
)
def test_what_gives_no_width_and_length_is_refused(text: str, reason: str) -> None:
    with pytest.raises(DimensionsError, match=reason):
        read_dimensions(text)
    assert set(answer_dimensions(text)) == {"id", "text", "error"}


def test_the_reading_is_said_in_the_unit_it_was_written_in() -> None:
    assert read_dimensions("87 x 79 1/2 in.").says == "87 in long and 79 1/2 in wide"
    assert read_dimensions("221 x 202.5 cm (irregular)").says == (
        "221 cm long and 202.5 cm wide; irregular"
    )
    assert read_dimensions("95 x 63 in. (without fringe)").notes == ("without fringe",)


@given(st.integers(8, 1100), st.integers(8, 1100), st.sampled_from([1, 2, 4, 8, 16]))
def test_a_printed_pair_reads_back(length: int, width: int, parts: int) -> None:
    text = " x ".join(format_length(n / parts, nearest=parts) for n in (length, width))
    found = read_dimensions(text)
    assert (float(found.length or 0), float(found.width or 0)) == (length / parts, width / parts)
    assert found.cautions == ()


@given(st.integers(8, 120 * 8), st.integers(8, 120 * 8))
def test_inches_and_their_centimetres_agree(length: int, width: int) -> None:
    inches = f"{format_length(length / 8)} x {format_length(width / 8)}"
    metric = " x ".join(f"{math.floor(n / 8 * 25.4 + 0.5) / 10} cm" for n in (length, width))
    assert read_dimensions(f"{inches} ({metric})").cautions == ()
    assert read_dimensions(f"{metric}; {inches}").cautions == ()


@given(st.text() | st.text(alphabet="0123456789 /-.,'\"()[]:;½xXhwlcmindab", max_size=90))
def test_any_text_gives_one_object_that_can_be_printed(text: str) -> None:
    answer = answer_dimensions(text)
    assert answer["text"] == text
    shown = {key: value for key, value in answer.items() if key != "text"}
    assert json.dumps(shown, ensure_ascii=False).encode()


@pytest.mark.parametrize("piece", ["1 x ", "(", "a) ", "h ", "1/", "1-", "x", "approx ", "1' "])
def test_repetitions_do_not_slow_the_reading(piece: str) -> None:
    assert "error" in answer_dimensions((piece * 1000)[:1000])
