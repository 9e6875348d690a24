"""Whole dimension strings as catalogues and museums write them, read into width and length.

Two numbers without labels stand in the order of the house, length x width; museum texts put
height first, which for a quilt is its length. Height and length both mean top to bottom.
"""

from dataclasses import dataclass, replace
from typing import Literal

from catalogue.values.dimension_checks import (
    APPROXIMATE,
    Measured,
    agree,
    cautions_on_others,
    cautions_on_sides,
    cautions_on_text,
    lengths_of,
    printed,
)
from catalogue.values.dimension_text import (
    Role,
    Statement,
    outside_and_bracketed,
    plain_line,
    split_parts,
    statements,
)
from catalogue.values.lengths import Length, LengthError, quoted

Order = Literal["length x width", "width x length", "diameter", "square", "length", "width"]

MOST_CHARACTERS = 1000


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
        phrase = " and ".join(f"{printed(side)} {word}" for side, word in sides if side)
        if self.order == "diameter" and self.width:
            phrase = f"{printed(self.width)} in diameter"
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
        measured = lengths_of(chosen)
        cautions = [*cautions_on_text(parts, notes, chosen, stated)]
        cautions += cautions_on_others(chosen, measured, stated)
        width, length, order = _sides(measured, text)
    except LengthError as error:
        raise DimensionsError(str(error)) from error
    cautions += cautions_on_sides(width, length, order)
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
    return bool(set(statement.words.split()) - APPROXIMATE - {"overall"})


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
    same = agree(first, lengths_of(first), second, lengths_of(second))
    return first if same else second


def _sides(measured: Measured, text: str) -> tuple[Length | None, Length | None, Order]:
    roles = [role for role, _ in measured]
    first = measured[0][1]
    if roles in (["diameter"], ["square"]):
        return first, first, "diameter" if roles == ["diameter"] else "square"
    if len(measured) > 3:
        raise DimensionsError(f"{quoted(text)} gives more than three numbers.")
    if not any(roles):
        return _unlabelled_sides(measured, text)
    return _labelled_sides(_complete(roles), measured, text)


def _unlabelled_sides(measured: Measured, text: str) -> tuple[Length | None, Length | None, Order]:
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
    roles: list[Role | None], measured: Measured, text: str
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


def _thousandths(length: Length | None) -> float | None:
    return None if length is None else round(float(length.inches), 3)
