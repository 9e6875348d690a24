"""Lengths as a tape gives them: exact fractions of an inch, read and printed as people write.

One inch is 2.54 cm exactly (international yard and pound agreement, 1959).
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal, get_args

Unit = Literal["in", "cm"]
WrittenUnit = Literal["in", "ft", "yd", "cm", "mm", "m"]

CENTIMETRE = Fraction(50, 127)
INCHES_IN: dict[WrittenUnit, Fraction] = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "yd": Fraction(36),
    "mm": CENTIMETRE / 10,
    "cm": CENTIMETRE,
    "m": CENTIMETRE * 100,
}
LONGEST = Fraction(200 * 12)
SHORTEST = Fraction(1, 1000)
MOST_CHARACTERS = 64


class LengthError(ValueError):
    """What was written is not one positive length; the message quotes it and says why."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length in exact inches, with what was written kept beside it.

    `unit` is the unit it was written in, the largest where there are two ("7 ft 1 in" is "ft").
    `unit_stated` is False where no unit was written and the default was taken.
    """

    inches: Fraction
    written: str
    unit: WrittenUnit
    unit_stated: bool = True

    def __float__(self) -> float:
        return float(self.inches)

    @property
    def centimetres(self) -> Fraction:
        """The same length in exact centimetres."""
        return self.inches / CENTIMETRE


def parse_length(text: str | int | float, unit: Unit = "in") -> Length:
    """Read one length as people and museums write it, exactly.

    Mixed numbers ("85 1/4", "85-1/4", "85¼"), decimals, inches, feet, yards, millimetres,
    centimetres and metres, feet and inches together; `unit` holds where none is written, and a
    number after feet with no unit is inches. A comma followed by one or two digits is a decimal
    comma; before three digits it could be either and is refused. Numbers may come from JSON.

    Raises LengthError for zero, negatives, not-a-number, zero denominators, two lengths where
    one is wanted, anything under 1/1000 in or over 200 ft, and whatever cannot be read.
    """
    if unit not in get_args(Unit):
        raise LengthError(f"The unit {quoted(unit)} is not known: use in or cm.")
    if isinstance(text, str):
        if len(text) > MOST_CHARACTERS:
            raise LengthError(f"{quoted(text)} is too long to be one length.")
        return _parse_text(text, unit)
    return _parse_number(text, unit)


def format_inches(inches: Fraction | float, nearest: int = 8, *, typographic: bool = False) -> str:
    """Print inches as a tape reads, without a unit: "85 1/4", typographically "85¼".

    Rounded to 1/`nearest` inch, halves away from zero; a negative difference keeps its sign.
    """
    units = _nearest(inches, nearest)
    sign = ("−" if typographic else "-") if units < 0 else ""
    whole, rest = divmod(abs(units), nearest)
    fraction = Fraction(rest, nearest)
    if not fraction:
        return f"{sign}{whole}"
    glyph = _GLYPH_OF.get(fraction) if typographic else None
    if glyph:
        return f"{sign}{whole or ''}{glyph}"
    slash = "⁄" if typographic else "/"
    number = f"{whole} " if whole else ""
    return f"{sign}{number}{fraction.numerator}{slash}{fraction.denominator}"


def format_length(
    inches: Fraction | float,
    unit: Unit = "in",
    nearest: int | None = None,
    *,
    typographic: bool = False,
) -> str:
    """Print a length given in inches with its unit: "85 1/4 in", "216.5 cm".

    `nearest` is the part of the unit to round to: eighths of an inch, tenths of a centimetre
    unless asked. `parse_length` reads back exactly the value printed.
    """
    if unit == "in":
        return f"{format_inches(inches, nearest or 8, typographic=typographic)} in"
    parts = nearest or 10
    tenths = _nearest(_exact(inches) / CENTIMETRE, parts)
    return f"{_decimal(Fraction(tenths, parts), minus='−' if typographic else '-')} cm"


def quoted(value: object) -> str:
    """The bad input as it can be shown to a person: short, one line, always encodable."""
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) > 10**30:
        return "a number of more than thirty digits"
    text = value if isinstance(value, str) else repr(value)
    shown = "".join(c if c.isprintable() else "\ufffd" for c in text[:41])
    return f"“{shown[:40]}…”" if len(text) > 40 else f"“{shown}”"


def plain(text: str) -> str:
    """The text with every dash, quote, slash, space and vulgar fraction in its plain ASCII form.

    Nothing else is changed, so that what cannot be read stays visible as such.
    """
    if not text.isascii():
        text = _RAISED_FRACTION.sub(_lowered, text)
        text = text.translate(_PLAIN)
    return " ".join(text.replace("''", '"').split())


_FRACTION_OF = {
    glyph: f"{over}/{under}"
    for glyph, over, under in zip(
        "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒",
        (1, 1, 2, 1, 3, 1, 2, 3, 4, 1, 5, 1, 1, 3, 5, 7, 1, 1),
        (2, 3, 3, 4, 4, 5, 5, 5, 5, 6, 6, 7, 8, 8, 8, 8, 9, 10),
        strict=True,
    )
}
_GLYPH_OF = {Fraction(written): glyph for glyph, written in _FRACTION_OF.items()}

_SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_SUBSCRIPTS = "₀₁₂₃₄₅₆₇₈₉"
_DIGITS = str.maketrans(_SUPERSCRIPTS + _SUBSCRIPTS, "0123456789" * 2)
_RAISED_FRACTION = re.compile(rf"([{_SUPERSCRIPTS}]{{1,3}})[⁄/∕]([{_SUBSCRIPTS}]{{1,3}})")
_PLAIN = str.maketrans(
    dict.fromkeys("‐‑‒–—―−﹣－", "-")
    | dict.fromkeys("⁄∕／", "/")
    | dict.fromkeys("″”“„〃ʺ˝＂", '"')
    | dict.fromkeys("′’‘‛ʹʼ´＇", "'")
    | dict.fromkeys("×✕✖⨯╳", " x ")
    | dict.fromkeys("\u200b\u2060\ufeff\u00ad", "")
    | {glyph: f" {written} " for glyph, written in _FRACTION_OF.items()}
)

_WORDS: dict[WrittenUnit, str] = {
    "in": '" in ins inch inches',
    "ft": "' ft foot feet",
    "yd": "yd yds yard yards",
    "mm": "mm millimetre millimetres millimeter millimeters",
    "cm": "cm cms centimetre centimetres centimeter centimeters",
    "m": "m metre metres meter meters",
}
_UNIT_OF = {word: unit for unit, words in _WORDS.items() for word in words.split()}
_SMALLER: dict[WrittenUnit, tuple[WrittenUnit, ...]] = {
    "yd": ("ft", "in"),
    "ft": ("in",),
    "m": ("cm", "mm"),
    "cm": ("mm",),
}
_QUANTITY = re.compile(
    r"""[, ]{0,2}(?:
        (?P<decimal>[0-9]{0,9}[.,][0-9]{1,12}|[0-9]{1,9}\.(?=[ ]|$))
      | (?:(?P<whole>[0-9]{1,9})(?:-|[ ]-[ ]|[ ](?:and[ ]|&[ ]|\+[ ])?|(?=[ ]?(?:[^0-9/ ]|$))))?
        (?:(?P<over>[0-9]{1,4})[ ]?/[ ]?(?P<under>[0-9]{1,4}))?
    )(?![0-9/])[ ]?(?P<unit>"|'|[a-z]{1,11})?\.?[ ]?""",
    re.VERBOSE,
)


@lru_cache(maxsize=4096)
def _parse_text(text: str, unit: Unit) -> Length:
    written = plain(text).lower()
    _refuse_by_form(written, text)
    quantities = _quantities(written, text, unit)
    inches = sum((number * INCHES_IN[name] for number, name, _ in quantities), Fraction(0))
    _refuse_by_size(inches, text)
    _, first, stated = quantities[0]
    return Length(inches, text, first, stated)


def _parse_number(number: int | float, unit: Unit) -> Length:
    if isinstance(number, bool) or not isinstance(number, (int, float)):
        raise LengthError(f"A length is a number or text, not {quoted(number)}.")
    if not math.isfinite(number) if isinstance(number, float) else abs(number) > 10**9:
        raise LengthError(f"{quoted(number)} is not a length anyone can measure.")
    inches = Fraction(repr(number)) * INCHES_IN[unit]
    _refuse_by_size(inches, repr(number))
    return Length(inches, repr(number), unit, unit_stated=False)


def _quantities(written: str, text: str, default: Unit) -> list[tuple[Fraction, WrittenUnit, bool]]:
    """Each number with its unit and whether that was stated, larger units first."""
    found: list[tuple[Fraction, WrittenUnit, bool]] = []
    position = 0
    while position < len(written):
        match = _QUANTITY.match(written, position)
        if match is None or not (match["decimal"] or match["whole"] or match["over"]):
            raise LengthError(f"{quoted(text)} cannot be read as a length.")
        number = _number(match, text)
        unit = _unit(match["unit"], found[-1][1] if found else None, default, text)
        if found:
            _refuse_sequence(found[-1], number, unit, text)
        found.append((number, unit, match["unit"] is not None))
        position = match.end()
    return found


def _number(match: re.Match[str], text: str) -> Fraction:
    if match["decimal"]:
        return _decimal_number(match["decimal"], text)
    number = Fraction(int(match["whole"] or 0))
    if match["over"] is None:
        return number
    over, under = int(match["over"]), int(match["under"])
    if not under:
        raise LengthError(f"{quoted(text)} divides by zero.")
    fraction = Fraction(over, under)
    if match["whole"] and not 0 < fraction < 1:
        raise LengthError(f"{quoted(text)}: the fraction beside a whole number lies under one.")
    if fraction >= 2:
        raise LengthError(f"{quoted(text)}: leave a space before the fraction, as in 85 1/4.")
    return number + fraction


def _decimal_number(written: str, text: str) -> Fraction:
    whole, _, places = written.replace(",", ".").partition(".")
    if "," in written and len(places) > 2:
        raise LengthError(
            f"{quoted(text)}: a comma before three digits can be a decimal or a thousand;"
            " write a point."
        )
    return Fraction(int(f"{whole}{places}"), int(10 ** len(places)))


def _unit(word: str | None, larger: WrittenUnit | None, default: Unit, text: str) -> WrittenUnit:
    if word is None:
        return "in" if larger == "ft" else default
    unit = _UNIT_OF.get(word)
    if unit is None:
        raise LengthError(f"{quoted(text)}: {quoted(word)} is not a unit known here.")
    return unit


def _refuse_sequence(
    before: tuple[Fraction, WrittenUnit, bool], number: Fraction, unit: WrittenUnit, text: str
) -> None:
    larger, name, stated = before
    if not stated or unit not in _SMALLER.get(name, ()):
        raise LengthError(f"{quoted(text)} holds more than one length.")
    if larger.denominator != 1:
        raise LengthError(f"{quoted(text)}: only the smallest unit can have a fraction.")
    if number * INCHES_IN[unit] >= INCHES_IN[name]:
        raise LengthError(f"{quoted(text)}: the {unit} beside {name} come to a {name} or more.")


def _refuse_by_form(written: str, text: str) -> None:
    if not written:
        raise LengthError("No length is written.")
    if written[0] == "-":
        raise LengthError(f"{quoted(text)}: a length cannot be negative.")
    if " x " in written:
        raise LengthError(f"{quoted(text)} holds more than one length.")
    if written in ("nan", "inf", "infinity"):
        raise LengthError(f"{quoted(text)} is not a number.")


def _refuse_by_size(inches: Fraction, text: str) -> None:
    if inches <= 0:
        reason = "zero" if inches == 0 else "negative"
        raise LengthError(f"{quoted(text)}: a length cannot be {reason}.")
    if inches < SHORTEST:
        raise LengthError(f"{quoted(text)} is less than any tape shows.")
    if inches > LONGEST:
        raise LengthError(f"{quoted(text)} is more than 200 feet, too large for a quilt.")


def _lowered(match: re.Match[str]) -> str:
    return f" {match[1].translate(_DIGITS)}/{match[2].translate(_DIGITS)} "


def _exact(value: Fraction | float) -> Fraction:
    if not math.isfinite(value):
        raise LengthError(f"{quoted(float(value))} is not a length.")
    return Fraction(value)


def _nearest(value: Fraction | float, parts: int) -> int:
    """The whole number of 1/`parts` nearest to the value, halves away from zero."""
    if parts < 1:
        raise LengthError(f"Lengths cannot be rounded to 1/{quoted(parts)}.")
    doubled = abs(_exact(value)) * parts * 2
    magnitude = (doubled + 1) // 2
    return int(-magnitude if value < 0 else magnitude)


def _decimal(value: Fraction, minus: str) -> str:
    """A terminating decimal as short as it is exact; other values to six places."""
    sign = minus if value < 0 else ""
    text = f"{float(abs(value)):.6f}".rstrip("0").rstrip(".")
    return f"{sign}{text}"
