"""The measuring sheet: a line for each thing to measure, a box for each place to hold the tape."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from catalogue.collection.records import Quilt, Reading
from catalogue.values.lengths import LengthError, Unit, parse_length

MOST_BOXES = 12
MOST_LINES = 6  # kinds of block, borders

_PLACES = {
    ("overall", "width"): ("top edge", "middle", "bottom edge"),
    ("overall", "length"): ("left edge", "middle", "right edge"),
    ("block", "width"): ("", "", "", ""),
    ("block", "length"): ("", "", "", ""),
    ("sashing", "width"): ("", "", ""),
    ("border", "width"): ("left", "right", "top", "bottom"),
    ("binding", "width"): ("", ""),
    ("patch", "width"): ("", ""),
}


@dataclass
class Box:
    """One place to hold the tape: what was typed there, and what is wrong with it."""

    name: str
    where: str
    typed: str = ""
    error: str = ""
    reading: Reading | None = None


@dataclass
class Line:
    """One thing to measure, with its boxes."""

    part: str
    number: int
    dimension: str
    label: str
    boxes: list[Box] = field(default_factory=list)


class Sheet:
    """The readings of one quilt as lines of boxes; whatever is typed stays, right or wrong."""

    def __init__(self, quilt: Quilt) -> None:
        self.unit: Unit = "cm" if quilt.length_unit == "cm" else "in"
        self.lines = [_line(quilt, *key) for key in _keys(quilt)]

    @property
    def errors(self) -> list[Box]:
        """The boxes that cannot be read."""
        return [box for line in self.lines for box in line.boxes if box.error]

    def fill(self, form: Mapping[str, str], by: str, today: str) -> None:
        """Read every box from a form; a reading that changed is from now on by this person."""
        for line in self.lines:
            for box in line.boxes:
                box.typed = form.get(box.name, "").strip()[:60]
                self._read(line, box, by, today)

    def _read(self, line: Line, box: Box, by: str, today: str) -> None:
        if box.reading is not None and box.typed == box.reading.written:
            return
        if not box.typed:
            box.reading = None
            return
        try:
            inches = parse_length(box.typed, self.unit).inches
        except LengthError as error:
            box.error = str(error)
            return
        box.reading = _changed(box, line, inches, by, today)

    def readings(self) -> tuple[Reading, ...]:
        """Return the readings in the order of the sheet."""
        return tuple(
            box.reading for line in self.lines for box in line.boxes if box.reading is not None
        )


def _changed(box: Box, line: Line, inches: Fraction, by: str, today: str) -> Reading:
    if box.reading is not None:
        where = box.where if box.reading.error is None else ""  # the tape has been there now
        return dataclasses.replace(
            box.reading,
            written=box.typed,
            inches=inches,
            where=where,
            by=by,
            on=today,
            error=None,
        )
    return Reading(line.part, line.dimension, box.typed, inches, line.number, box.where, by, today)


def _keys(quilt: Quilt) -> Iterator[tuple[str, int, str, str]]:
    """Yield part, number, dimension and label of each line, with more borders than there are."""
    yield "overall", 1, "width", "Overall width"
    yield "overall", 1, "length", "Overall length"
    kinds = max(1, len(quilt.blocks))
    for number in range(1, min(kinds, MOST_LINES) + 1):
        label = quilt.blocks[number - 1].label if quilt.blocks else ""
        name = f"Block ({label})" if label else "Block"
        yield "block", number, "width", f"{name}, finished width"
        yield "block", number, "length", f"{name}, finished length"
    yield "patch", 1, "width", "Smallest patch of the block"
    yield "sashing", 1, "width", "Sashing width"
    borders = min(max(3, len(quilt.borders) + 1), MOST_LINES)
    for number in range(1, borders + 1):
        yield "border", number, "width", f"Border {number}{', innermost' * (number == 1)}"
    yield "binding", 1, "width", "Binding, as it shows"


def _line(quilt: Quilt, part: str, number: int, dimension: str, label: str) -> Line:
    """Return a line with a box for each reading on record and for each usual place."""
    line = Line(part, number, dimension, label)
    taken = [
        reading
        for reading in quilt.readings
        if (reading.part, reading.number, reading.dimension) == (part, number, dimension)
    ]
    places = list(_PLACES[part, dimension])
    for reading in taken:
        if reading.where in places:
            places.remove(reading.where)
        elif places:
            places.pop()
        _add_box(line, reading.where, reading)
    for where in places or [""]:
        if len(line.boxes) < MOST_BOXES:
            _add_box(line, where, None)
    return line


def _add_box(line: Line, where: str, reading: Reading | None) -> None:
    name = f"{line.part}-{line.number}-{line.dimension}-{len(line.boxes)}"
    typed = reading.written if reading is not None else ""
    line.boxes.append(Box(name, where, typed, "", reading))
