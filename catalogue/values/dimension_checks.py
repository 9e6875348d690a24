"""Checks on what a dimension string says: its second unit, its other sizes, its doubts."""

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction

from catalogue.values.dimension_text import Figure, Role, Statement
from catalogue.values.lengths import (
    INCHES_IN,
    Length,
    LengthError,
    Unit,
    format_length,
    parse_length,
    quoted,
)

LARGEST_WITHOUT_UNIT = 150
"""Inches above which a number without a unit is more likely centimetres: beds ask for no more
than about 120 in (common practice, no source)."""

APPROXIMATE = frozenset(
    ("approx", "approximately", "about", "c", "ca", "circa", "roughly", "est", "estimated")
)

Measured = tuple[tuple[Role | None, Length], ...]

_SLACK = Fraction(1, 100)
_METRIC = frozenset(("mm", "cm", "m"))


def lengths_of(statement: Statement, default: Unit = "in") -> Measured:
    """The figures as lengths; a missing unit is taken from the next that has one, or the last."""
    figures = statement.figures
    if any(f.sign == "-" for f in figures):
        raise LengthError(f"{_as_written(statement)} holds a range: give one number for each side.")
    lengths: list[tuple[Role | None, Length]] = []
    for index, figure in enumerate(figures):
        nearest = [*figures[index:], *reversed(figures[:index])]
        unit = next((f.unit for f in nearest if f.unit), "")
        written = figure.written if figure.unit else f"{figure.written} {unit}".strip()
        lengths.append((figure.role, parse_length(written, default)))
    return tuple(lengths)


def agree(first: Statement, ours: Measured, second: Statement, theirs: Measured) -> bool:
    """Whether both give the same sides as closely as they are written."""
    tolerance = (_step(first, ours) + _step(second, theirs)) / 2 + _SLACK
    pairs = zip(ours, theirs, strict=False)
    return len(ours) == len(theirs) and all(
        abs(a.inches - b.inches) <= tolerance for (_, a), (_, b) in pairs
    )


def cautions_on_text(
    parts: list[str], notes: list[str], chosen: Statement, stated: list[Statement]
) -> Iterable[str]:
    """What the text itself leaves in doubt: parts, approximations, a third number, mixed units."""
    if len(parts) > 1:
        yield f"The text gives {len(parts)} parts; only the first is read."
    if set(" ".join((chosen.words, *notes)).replace(".", " ").split()) & APPROXIMATE:
        yield "The text calls the size approximate."
    if len(chosen.figures) == 3 and chosen.roles[2] is None:
        yield f"The third number, {chosen.figures[2].written}, is taken as the thickness."
    if len({_system_of(f.unit) for f in chosen.figures if f.unit}) > 1:
        yield "The sides are stated in different units."
    for other in stated:
        if other.label != chosen.label:
            yield f"The size given for {quoted(other.label or 'another part')} is left aside."


def cautions_on_others(
    chosen: Statement, measured: Measured, stated: Sequence[Statement]
) -> Iterable[str]:
    """What the text says besides: a second unit that disagrees, or a second size."""
    for other in stated:
        if other is chosen or other.label != chosen.label:
            continue
        try:
            yield from _comparison(chosen, measured, other)
        except LengthError:
            yield f"A further figure, {_as_written(other)}, cannot be read."


def _comparison(chosen: Statement, measured: Measured, other: Statement) -> Iterable[str]:
    ours = _system(chosen)
    theirs = _system(other) or ("in" if ours == "cm" else "cm")
    lengths = lengths_of(other, theirs)
    if not agree(chosen, measured, other, lengths):
        if len(lengths) == len(measured) and theirs != ours:
            yield from _disagreements(measured, lengths)
        else:
            yield f"A further size, {_as_written(other)}, is left aside."
    elif not _system(other):
        yield f"{_as_written(other)} has no unit; it agrees when read in {theirs}."


def _disagreements(measured: Measured, others: Measured) -> Iterable[str]:
    for (_, ours), (_, theirs) in zip(measured, others, strict=True):
        here: Unit = "cm" if ours.unit in _METRIC else "in"
        converted = format_length(theirs.inches, here, None if here == "cm" else 16)
        if converted != printed(ours):
            yield f"{theirs.written} is {converted}, where the text says {printed(ours)}."


def cautions_on_sides(width: Length | None, length: Length | None, order: str) -> Iterable[str]:
    """A side that is missing, and numbers too large for inches where no unit is written."""
    sides = [side for side in (width, length) if side]
    if len(sides) == 1:
        yield f"Only the {order} is given."
    if any(not s.unit_stated and s.inches > LARGEST_WITHOUT_UNIT for s in sides):
        yield "No unit is written, so inches are taken; numbers this large look like centimetres."


def _step(statement: Statement, measured: Measured) -> Fraction:
    """The smallest step the statement is written in, in inches: 1/2 in "105 1/2 x 104"."""
    return min(_written_step(f, m) for f, (_, m) in zip(statement.figures, measured, strict=True))


def _written_step(figure: Figure, length: Length) -> Fraction:
    unit = INCHES_IN[length.unit] if length.unit in _METRIC else Fraction(1)
    if fraction := re.search(r"/ ?([0-9]+)", figure.written):
        return unit / int(fraction[1])
    if decimal := re.search(r"[.,]([0-9]+)", figure.written):
        return unit / int(10 ** len(decimal[1]))
    return unit


def _system(statement: Statement) -> Unit | None:
    """The system of the unit stated first, None where none is stated."""
    unit = next((f.unit for f in statement.figures if f.unit), None)
    return None if unit is None else _system_of(unit)


def _system_of(unit: str) -> Unit:
    return "cm" if unit.startswith(("c", "m")) else "in"


def _as_written(statement: Statement) -> str:
    return quoted(" x ".join(figure.written for figure in statement.figures))


def printed(length: Length) -> str:
    """The length in the system it was written in, to a sixteenth of an inch or a millimetre."""
    metric = length.unit in _METRIC
    return format_length(length.inches, "cm" if metric else "in", None if metric else 16)
