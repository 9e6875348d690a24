"""Whole dimension strings as catalogues and museums write them, read into width and length.

Two numbers without labels stand in the order of the house, length x width; museum texts put
height first, which for a quilt is its length. Height and length both mean top to bottom.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from catalogue.values.dimension_text import (
    Figure,
    Role,
    Statement,
    outside_and_bracketed,
    plain_line,
    split_parts,
    statements,
)
from catalogue.values.lengths import (
    INCHES_IN,
    Length,
    LengthError,
    Unit,
    format_length,
    parse_length,
    quoted,
)

Order = Literal["length x width", "width x length", "diameter", "square", "length", "width"]

MOST_CHARACTERS = 1000
LARGEST_WITHOUT_UNIT = 150
"""Inches above which a number without a unit is more likely centimetres: beds ask for no more
than about 120 in (common practice, no source)."""


class DimensionsError(ValueError):
    """The text does not give one width and one length; the message says what is wrong."""


@dataclass(frozen=True, slots=True)
class Dimensions:
    """What a dimension string says: width across, length top to bottom, and what to mind.

    A side that the text does not give is None. `order` is the order the text gave them in.
    """

    text: str
    width: Length | None
    length: Length | None
    order: Order
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @property
    def says(self) -> str:
        """The reading as a phrase, in the unit it was written in."""
        sides = ((self.length, "long"), (self.width, "wide"))
        phrase = " and ".join(f"{_printed(side)} {word}" for side, word in sides if side)
        if self.order == "diameter" and self.width:
            phrase = f"{_printed(self.width)} in diameter"
        return "; ".join((phrase, *self.notes))


def read_dimensions(text: str) -> Dimensions:
    """Read a dimension string; labels, dual units, parts and bracketed notes are understood.

    The unit stated first rules and the other is checked against it. Where there are parts or
    several subjects ("block: 12 x 12"), the first, or the one called overall, is given with a
    caution. Raises DimensionsError where no width and length can be told.
    """
    if len(text) > MOST_CHARACTERS:
        raise DimensionsError(f"{quoted(text)} is too long to be a dimension string.")
    parts = split_parts(plain_line(text))
    stated, notes = _statements_and_notes(parts[0])
    if not stated:
        raise DimensionsError(f"{quoted(text)} states no dimension.")
    try:
        chosen = _chosen(stated)
        measured = _measured(chosen)
        cautions = [*_cautions_on_text(parts, chosen, stated)]
        cautions += _cautions_on_others(chosen, measured, stated)
        width, length, order = _sides(measured, text)
    except LengthError as error:
        raise DimensionsError(str(error)) from error
    cautions += _cautions_on_sides(width, length, order)
    return Dimensions(text, width, length, order, tuple(notes), tuple(cautions))


def answer_dimensions(text: str) -> dict[str, object]:
    """The object that `catalogue read dimensions` prints for one line; never raises."""
    try:
        found = read_dimensions(text)
    except DimensionsError as error:
        return {"id": None, "text": text, "error": str(error)}
    return {
        "text": text,
        "width_in": _thousandths(found.width),
        "length_in": _thousandths(found.length),
        "order": found.order,
        "says": found.says,
        "cautions": list(found.cautions),
    }


_APPROXIMATE = frozenset(
    ("approx", "approximately", "about", "c", "ca", "circa", "roughly", "est", "estimated")
)
_SLACK = Fraction(1, 100)

_METRIC = frozenset(("mm", "cm", "m"))

_Measured = tuple[tuple[Role | None, Length], ...]


def _statements_and_notes(part: str) -> tuple[list[Statement], list[str]]:
    """Every statement of the part that gives figures, and the remarks beside them."""
    outside, bracketed = outside_and_bracketed(part)
    main = statements(outside)
    notes = [s.words for s in main if _remark(s)]
    stated = [s for s in main if s.figures]
    label = stated[0].label if stated else ""
    beside: list[Statement] = []
    for content in bracketed:
        found = statements(content)
        if any(s.figures for s in found) and not any(s.label or _remark(s) for s in found):
            beside += [replace(s, label=label) for s in found]
        else:
            notes.append(content)
    return stated + _joined_singles(beside, stated), list(dict.fromkeys(notes))


def _remark(statement: Statement) -> bool:
    return bool(set(statement.words.split()) - _APPROXIMATE - {"overall"})


def _joined_singles(beside: list[Statement], stated: list[Statement]) -> list[Statement]:
    """One statement of the bracketed figures where each side has its own pair of brackets."""
    singles = [s.figures[0] for s in beside if len(s.figures) == 1]
    main = stated[0].figures if stated else ()
    if len(main) < 2 or len(singles) != len(beside) or len(singles) != len(main):
        return beside
    figures = (replace(f, role=m.role, sign="") for f, m in zip(singles, main, strict=True))
    return [Statement(stated[0].label, tuple(figures))]


def _chosen(stated: list[Statement]) -> Statement:
    for statement in stated:
        if "overall" in f"{statement.label} {statement.words}".split():
            return statement
    whole = [s for s in stated if len(s.figures) > 1 or s.roles[0]] or stated
    first = whole[0]
    with_unit = [s for s in whole if any(f.unit for f in s.figures) and s.label == first.label]
    if any(f.unit for f in first.figures) or not with_unit:
        return first
    second = with_unit[0]
    agree = _agree(first, _measured(first), second, _measured(second))
    return first if agree else second


def _measured(statement: Statement, default: Unit = "in") -> _Measured:
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


def _sides(measured: _Measured, text: str) -> tuple[Length | None, Length | None, Order]:
    roles = [role for role, _ in measured]
    first = measured[0][1]
    if roles in (["diameter"], ["square"]):
        return first, first, "diameter" if roles == ["diameter"] else "square"
    if len(measured) > 3:
        raise DimensionsError(f"{quoted(text)} gives more than three numbers.")
    if not any(roles):
        return _unlabelled_sides(measured, text)
    return _labelled_sides(_complete(roles), measured, text)


def _unlabelled_sides(measured: _Measured, text: str) -> tuple[Length | None, Length | None, Order]:
    if len(measured) == 1:
        raise DimensionsError(
            f"{quoted(text)} gives one number: say whether it is width or length."
        )
    return measured[1][1], measured[0][1], "length x width"


def _complete(roles: list[Role | None]) -> list[Role | None]:
    """With one of two labels written, the other number is the other side."""
    other: dict[Role | None, Role] = {"length": "width", "width": "length"}
    if len(roles) == 2 and None in roles:
        known = next(role for role in roles if role)
        return [role or other.get(known) for role in roles]
    return roles


def _labelled_sides(
    roles: list[Role | None], measured: _Measured, text: str
) -> tuple[Length | None, Length | None, Order]:
    sides: dict[Role | None, Length] = {}
    for role, (_, length) in zip(roles, measured, strict=True):
        if role in sides:
            raise DimensionsError(f"{quoted(text)} labels two numbers as {role or 'no side'}.")
        sides[role] = length
    width, length_ = sides.get("width"), sides.get("length")
    if width and length_:
        first = roles.index("length") < roles.index("width")
        return width, length_, "length x width" if first else "width x length"
    if width or length_:
        return width, length_, "width" if width else "length"
    raise DimensionsError(f"{quoted(text)} does not say which number is the width or the length.")


def _cautions_on_text(
    parts: list[str], chosen: Statement, stated: list[Statement]
) -> Iterable[str]:
    if len(parts) > 1:
        yield f"The text gives {len(parts)} parts; only the first is read."
    if set(chosen.words.split()) & _APPROXIMATE:
        yield "The text calls the size approximate."
    if len(chosen.figures) == 3 and chosen.roles[2] is None:
        yield f"The third number, {chosen.figures[2].written}, is taken as the thickness."
    if len({_system_of(f.unit) for f in chosen.figures if f.unit}) > 1:
        yield "The sides are stated in different units."
    for other in stated:
        if other.label != chosen.label:
            yield f"The size given for {quoted(other.label or 'another part')} is left aside."


def _cautions_on_others(
    chosen: Statement, measured: _Measured, stated: Sequence[Statement]
) -> Iterable[str]:
    """What the text says besides: a second unit that disagrees, or a second size."""
    for other in stated:
        if other is chosen or other.label != chosen.label:
            continue
        try:
            yield from _comparison(chosen, measured, other)
        except LengthError:
            yield f"A further figure, {_as_written(other)}, cannot be read."


def _comparison(chosen: Statement, measured: _Measured, other: Statement) -> Iterable[str]:
    ours = _system(chosen)
    theirs = _system(other) or ("in" if ours == "cm" else "cm")
    lengths = _measured(other, theirs)
    if not _agree(chosen, measured, other, lengths):
        if len(lengths) == len(measured) and theirs != ours:
            yield from _disagreements(measured, lengths)
        else:
            yield f"A further size, {_as_written(other)}, is left aside."
    elif not _system(other):
        yield f"{_as_written(other)} has no unit; it agrees when read in {theirs}."


def _disagreements(measured: _Measured, others: _Measured) -> Iterable[str]:
    for (_, ours), (_, theirs) in zip(measured, others, strict=True):
        here: Unit = "cm" if ours.unit in _METRIC else "in"
        printed = format_length(theirs.inches, here, None if here == "cm" else 16)
        if printed != _printed(ours):
            yield f"{theirs.written} is {printed}, where the text says {_printed(ours)}."


def _cautions_on_sides(width: Length | None, length: Length | None, order: Order) -> Iterable[str]:
    sides = [side for side in (width, length) if side]
    if len(sides) == 1:
        yield f"Only the {order} is given."
    if any(not s.unit_stated and s.inches > LARGEST_WITHOUT_UNIT for s in sides):
        yield "No unit is written, so inches are taken; numbers this large look like centimetres."


def _agree(first: Statement, ours: _Measured, second: Statement, theirs: _Measured) -> bool:
    """Whether both give the same sides as closely as they are written."""
    tolerance = (_step(first, ours) + _step(second, theirs)) / 2 + _SLACK
    pairs = zip(ours, theirs, strict=False)
    return len(ours) == len(theirs) and all(
        abs(a.inches - b.inches) <= tolerance for (_, a), (_, b) in pairs
    )


def _step(statement: Statement, measured: _Measured) -> Fraction:
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


def _printed(length: Length) -> str:
    metric = length.unit in _METRIC
    return format_length(length.inches, "cm" if metric else "in", None if metric else 16)


def _thousandths(length: Length | None) -> float | None:
    return None if length is None else round(float(length.inches), 3)
