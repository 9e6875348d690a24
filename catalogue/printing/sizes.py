"""Sizes in the museum's order and in both units, as they are printed."""

from __future__ import annotations

from fractions import Fraction

from catalogue.collection.measuring import OverallSize
from catalogue.values.lengths import format_inches, format_length


def size_in_words(size: OverallSize | None) -> str:
    """Return length x width, both named, in inches and centimetres; empty where not measured."""
    if size is None:
        return ""
    inches = f"length {_inches(size.length)} x width {_inches(size.width)} in"
    metric = f"{_centimetres(size.length)} x {_centimetres(size.width)} cm"
    return f"{inches} ({metric})"


def _inches(inches: Fraction) -> str:
    return format_inches(inches, nearest=4)


def _centimetres(inches: Fraction) -> str:
    return format_length(inches, "cm").removesuffix(" cm")
