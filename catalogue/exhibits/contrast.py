"""Contrast of two colours by the formula of the Web Content Accessibility Guidelines (WCAG) 2.2."""

from __future__ import annotations

import re

from catalogue.values.lengths import quoted

_HEX = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE)
_WEIGHTS = (0.2126, 0.7152, 0.0722)


class ColourError(ValueError):
    """A text that is no colour of the form #rrggbb or #rgb."""


def relative_luminance(colour: str) -> float:
    """Relative luminance from 0 (black) to 1 (white) of a colour #rrggbb or #rgb (WCAG 2.2)."""
    if not _HEX.fullmatch(colour):
        raise ColourError(f"{quoted(colour)} is not a colour; write it as #rrggbb.")
    digits = colour[1:] if len(colour) == 7 else "".join(digit * 2 for digit in colour[1:])
    channels = (int(digits[place : place + 2], 16) / 255 for place in (0, 2, 4))
    return sum(
        weight * _linear(channel) for weight, channel in zip(_WEIGHTS, channels, strict=True)
    )


def contrast_ratio(one: str, other: str) -> float:
    """Contrast from 1 (no difference) to 21 (black on white), in either order (WCAG 2.2)."""
    darker, lighter = sorted((relative_luminance(one), relative_luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _linear(channel: float) -> float:
    if channel <= 0.04045:
        return channel / 12.92
    return float(((channel + 0.055) / 1.055) ** 2.4)
