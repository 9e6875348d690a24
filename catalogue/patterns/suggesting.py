"""Which traditional designs a block may follow, judged by drafting and era, with reasons."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.patterns.thesaurus import GRID_FAMILIES, Design, designs
from catalogue.values.dates import DateError, read_date

# Weights of our own judgement, no source: the family decides most, the grid confirms it, and the
# first printing known only leans, since most designs are older than their printing.
_FAMILY, _DIVISIONS, _MULTIPLE, _ERA = 3.0, 2.0, 1.0, 1.0
_LONG_BEFORE = 15  # years by which a quilt may well be older than the first printing known to us


@dataclass(frozen=True)
class Suggestion:
    """A design to look at: how well it fits, from 0 to 1, and why. Never an identification."""

    design: Design
    fit: float
    reasons: tuple[str, ...]


def suggest(
    family: str | None,
    divisions: int | None = None,
    made: tuple[int | None, int | None] = (None, None),
    most: int = 8,
) -> tuple[Suggestion, ...]:
    """Return the designs that fit best, best first; none where nothing is known of the drafting.

    `family` is a drafting family, `divisions` the grid to a side, `made` the years of the making.
    """
    if family is None and divisions is None:
        return ()
    weighed = [_weigh(design, family, divisions, made) for design in designs()]
    fitting = [suggestion for suggestion in weighed if suggestion.fit >= 0.4]
    return tuple(sorted(fitting, key=lambda each: (-each.fit, each.design.name))[:most])


def _weigh(
    design: Design, family: str | None, divisions: int | None, made: tuple[int | None, int | None]
) -> Suggestion:
    score, possible = 0.0, 0.0
    reasons: list[str] = []
    if family is not None:
        possible += _FAMILY
        if design.family == family:
            score += _FAMILY
            reasons.append(f"it is drafted as a {family}")
    if divisions is not None and (family is None or family in GRID_FAMILIES):
        possible += _DIVISIONS
        score += _grid(design, divisions, reasons)
    if made != (None, None):
        possible += _ERA
        score += _era(design, made, reasons)
    return Suggestion(design, score / possible, tuple(reasons))


def _grid(design: Design, divisions: int, reasons: list[str]) -> float:
    """Return how well the grid agrees; a multiple of the design's own grid agrees in part."""
    if design.divisions is None:
        return 0.0
    if design.divisions == divisions:
        reasons.append(f"its grid has {divisions} divisions to a side")
        return _DIVISIONS
    small, large = sorted((design.divisions, divisions))
    if large % small == 0:
        reasons.append(f"its grid of {design.divisions} divides evenly with {divisions}")
        return _MULTIPLE
    return 0.0


def _era(design: Design, made: tuple[int | None, int | None], reasons: list[str]) -> float:
    """Return how well the first printing known to us suits the years of the making."""
    printed = _first_year(design)
    last = made[1] if made[1] is not None else made[0]
    if printed is None or last is None:
        return _ERA / 2
    assert design.earliest is not None
    if printed <= last:
        reasons.append(f"it was in print by {printed} ({design.earliest.where})")
        return _ERA
    if printed - last <= _LONG_BEFORE:
        reasons.append(f"its first printing known to us is of {printed}, soon after the making")
        return _ERA / 2
    return 0.0


def _first_year(design: Design) -> int | None:
    if design.earliest is None:
        return None
    try:
        return read_date(design.earliest.date).earliest_year
    except DateError:
        return None
