"""A tape reading is kept exactly, printed as a tape reads, and refused with a reason."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.values.lengths import (
    LONGEST,
    Length,
    LengthError,
    format_inches,
    format_length,
    parse_length,
)

QUARTER = Fraction(341, 4)
CM_216_5 = Fraction(21650, 254)


@pytest.mark.parametrize(
    ("written", "inches", "unit"),
    [
        ("85 1/4", QUARTER, "in"),
        ("85-1/4", QUARTER, "in"),
        ("85–1/4", QUARTER, "in"),
        ("85 - 1/4", QUARTER, "in"),
        ("85\N{MINUS SIGN}1/4", QUARTER, "in"),
        ("85¼", QUARTER, "in"),
        ("85 ¼", QUARTER, "in"),
        ("85 1⁄4", QUARTER, "in"),
        ("85 ¹⁄₄ in.", QUARTER, "in"),
        ("85 and 1/4", QUARTER, "in"),
        ("85 1 / 4", QUARTER, "in"),
        ("85.25", QUARTER, "in"),
        ("85,25", QUARTER, "in"),
        ("85.", Fraction(85), "in"),
        (".5", Fraction(1, 2), "in"),
        ("3/8", Fraction(3, 8), "in"),
        ("5/4", Fraction(5, 4), "in"),
        ("⅝", Fraction(5, 8), "in"),
        ("85 1/3", Fraction(256, 3), "in"),
        ('85 1/4"', QUARTER, "in"),
        ("85 1/4”", QUARTER, "in"),
        ("85 1/4″", QUARTER, "in"),
        ("85 1/4''", QUARTER, "in"),
        ("85 1/4 in.", QUARTER, "in"),
        ("85 1/4 Inches", QUARTER, "in"),
        ("85\N{NO-BREAK SPACE}1/4\N{THIN SPACE}in", QUARTER, "in"),
        ("  85   1/4 ", QUARTER, "in"),
        ("7 ft 1 1/4 in", QUARTER, "ft"),
        ("7 ft. 1 1/4 in.", QUARTER, "ft"),
        ("7 feet, 1 1/4 inches", QUARTER, "ft"),
        ("7ft1 1/4in", QUARTER, "ft"),
        ("7' 1¼\"", QUARTER, "ft"),
        ("7’ 1¼”", QUARTER, "ft"),
        ("7′1¼″", QUARTER, "ft"),
        ("7' 1 1/4", QUARTER, "ft"),
        ("7 1/2 ft", Fraction(90), "ft"),
        ("2 yards 1 foot 3 inches", Fraction(87), "yd"),
        ("216.5 cm", CM_216_5, "cm"),
        ("216,5 cm", CM_216_5, "cm"),
        ("216 1/2 cm", CM_216_5, "cm"),
        ("2.165 m", CM_216_5, "m"),
        ("2 m 16.5 cm", CM_216_5, "m"),
        ("2165mm", CM_216_5, "mm"),
        ("216.5 Centimetres", CM_216_5, "cm"),
    ],
)
def test_every_way_of_writing_a_length_is_read_exactly(
    written: str, inches: Fraction, unit: str
) -> None:
    length = parse_length(written)
    assert (length.inches, length.written, length.unit) == (inches, written, unit)


@pytest.mark.parametrize(("number", "inches"), [(12, 12), (85.25, QUARTER), (0.1, Fraction(1, 10))])
def test_a_number_is_taken_as_the_decimal_it_prints_as(
    number: float, inches: Fraction | int
) -> None:
    assert parse_length(number).inches == inches


def test_the_default_unit_holds_only_where_none_is_written() -> None:
    assert parse_length("216.5", "cm").inches == parse_length(216.5, "cm").inches == CM_216_5
    assert parse_length("85 1/4 in", "cm").inches == QUARTER
    assert parse_length("7' 1 1/4", "cm").inches == QUARTER
    assert not parse_length("216.5", "cm").unit_stated
    assert parse_length("216.5 cm").unit_stated


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("", "No length"),
        (" \N{NO-BREAK SPACE}", "No length"),
        ("0", "zero"),
        ("0.0 in", "zero"),
        ("0/4", "zero"),
        (0, "zero"),
        ("-3", "negative"),
        ("\N{MINUS SIGN}3", "negative"),
        ("-1/4", "negative"),
        (-3, "negative"),
        (-0.5, "negative"),
        ("85/0", "divides by zero"),
        ("85 1/0", "divides by zero"),
        ("1/3 1/4", "more than one length"),
        ("85 ½ ¼", "more than one length"),
        ("85.5 1/4", "more than one length"),
        ("85 x 86", "more than one length"),
        ("85 × 86", "more than one length"),
        ("7 ft 3 cm", "more than one length"),
        ("3 in 7 ft", "more than one length"),
        ("85 5/4", "under one"),
        ("85 0/4", "under one"),
        ("85/4", "leave a space"),
        ("851/4", "leave a space"),
        ("7 ft 13 in", "come to a ft or more"),
        ("7.5 ft 3 in", "smallest unit"),
        ("1,234", "comma"),
        ("2,165 m", "comma"),
        ("85 ells", "not a unit"),
        ("1e5", "not a unit"),
        ("85 86", "cannot be read"),
        ("85-86", "cannot be read"),
        ("1/2/3", "cannot be read"),
        ("85 1/", "cannot be read"),
        ("85²", "cannot be read"),
        ("٨٥", "cannot be read"),
        ("twelve", "cannot be read"),
        ("nan", "not a number"),
        ("NaN", "not a number"),
        ("inf", "not a number"),
        (math.nan, "not a length"),
        (math.inf, "not a length"),
        (-math.inf, "not a length"),
        pytest.param(10**5000, "not a length", id="five thousand digits"),
        (1e-300, "less than any tape"),
        ("0.0001", "less than any tape"),
        ("9999 in", "more than 200 feet"),
        (99999, "more than 200 feet"),
        pytest.param("9" * 5000, "too long", id="five thousand nines"),
        (True, "not “True”"),
        (None, "not “None”"),
        (["85"], "a number or text"),
    ],
)
def test_what_is_no_length_is_refused_with_the_reason(written: object, reason: str) -> None:
    with pytest.raises(LengthError, match=reason):
        parse_length(written)  # type: ignore[arg-type]


def test_an_unknown_default_unit_is_refused() -> None:
    with pytest.raises(LengthError, match="use in or cm"):
        parse_length("85", "ell")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("inches", "nearest", "plain", "typographic"),
    [
        (85.25, 8, "85 1/4", "85¼"),
        (Fraction(1365, 16), 8, "85 3/8", "85⅜"),
        (Fraction(1365, 16), 16, "85 5/16", "85 5⁄16"),
        (0.5, 8, "1/2", "½"),
        (85, 8, "85", "85"),
        (85.97, 8, "86", "86"),
        (0.01, 8, "0", "0"),
        (-0.01, 8, "0", "0"),
        (-1.25, 8, "-1 1/4", "−1¼"),
        (Fraction(1, 16), 8, "1/8", "⅛"),
        (Fraction(-1, 16), 8, "-1/8", "−⅛"),
        (12.3, 1, "12", "12"),
    ],
)
def test_inches_print_as_a_tape_reads(
    inches: Fraction | float, nearest: int, plain: str, typographic: str
) -> None:
    assert format_inches(inches, nearest) == plain
    assert format_inches(inches, nearest, typographic=True) == typographic


def test_centimetres_print_to_the_millimetre_without_idle_zeros() -> None:
    assert format_length(CM_216_5, "cm") == "216.5 cm"
    assert format_length(Fraction(21600, 254), "cm") == "216 cm"
    assert format_length(Fraction(21600, 254), "cm", nearest=1) == "216 cm"
    assert format_length(-1, "cm") == "-2.5 cm"
    assert format_length(-1, "cm", typographic=True) == "−2.5 cm"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_not_printed(value: float) -> None:
    with pytest.raises(LengthError, match="not a length"):
        format_inches(value)


def test_rounding_to_no_part_is_refused() -> None:
    with pytest.raises(LengthError, match="rounded"):
        format_inches(1, 0)


@given(st.integers(1, 1600), st.sampled_from([1, 2, 4, 8, 16]), st.booleans())
def test_inches_read_back_as_printed(parts: int, nearest: int, typographic: bool) -> None:
    inches = Fraction(parts, nearest)
    printed = format_length(inches, "in", nearest, typographic=typographic)
    assert parse_length(printed).inches == inches


@given(st.integers(1, 60_000))
def test_millimetres_read_back_as_printed(millimetres: int) -> None:
    inches = Fraction(millimetres * 10, 254)
    assert parse_length(format_length(inches, "cm")).inches == inches


@given(st.floats(0.2, float(LONGEST)), st.sampled_from(["in", "cm"]))
def test_printing_what_was_printed_changes_nothing(inches: float, unit: str) -> None:
    printed = format_length(inches, unit)  # type: ignore[arg-type]
    assert format_length(parse_length(printed).inches, unit) == printed  # type: ignore[arg-type]


@given(st.text() | st.text(alphabet="0123456789 /-.,'\"¼½ftincmx", max_size=64))
def test_any_text_is_read_or_refused_in_words_that_can_be_printed(text: str) -> None:
    outcome = _read_or_refuse(text)
    if isinstance(outcome, str):
        assert outcome.encode().splitlines() == [outcome.encode()]
    else:
        assert 0 < outcome.inches <= LONGEST


def _read_or_refuse(text: str) -> Length | str:
    try:
        return parse_length(text)
    except LengthError as error:
        return str(error)


@pytest.mark.parametrize("piece", ["1", " ", "1/", "1 ", "-", "' ", "½", ",", "1.", "in "])
def test_long_repetitions_are_refused_without_being_searched(piece: str) -> None:
    with pytest.raises(LengthError):
        parse_length(piece * 100_000)
    with pytest.raises(LengthError):
        parse_length((piece * 64)[:62] + "!!")
