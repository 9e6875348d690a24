"""From the record to the layout inference and back: readings out, decisions in."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from statistics import median
from typing import Any

from catalogue.collection.records import Quilt, Reading
from catalogue.collection.vocabulary import READING_PARTS, SIDES
from catalogue.values.lengths import Unit, parse_length


def readings_for_inference(quilt: Quilt) -> dict[str, Any]:
    """Return what the tape and the eye said, in the form that `catalogue infer` takes."""
    given: dict[str, Any] = {"id": quilt.id, "unit": quilt.length_unit}
    given["overall"] = _sizes(quilt, "overall")
    if quilt.readings and any(reading.part == "block" for reading in quilt.readings):
        given["block"] = _sizes(quilt, "block")
    given |= _sashing(quilt) | _borders(quilt) | _binding(quilt) | _counted(quilt)
    if quilt.setting_seen:
        given["setting"] = quilt.setting_seen
    if quilt.edge != "unknown":
        given["edge"] = quilt.edge
    return given


def has_overall_size(quilt: Quilt) -> bool:
    """True where there is enough to infer from: at least one overall reading each way."""
    taken = {reading.dimension for reading in quilt.readings if reading.part == "overall"}
    return taken == {"width", "length"}


def _written(
    quilt: Quilt, part: str, dimension: str, number: int = 1
) -> list[str | dict[str, str | float]]:
    return [
        _as_given(reading, quilt.length_unit)
        for reading in quilt.readings
        if (reading.part, reading.dimension, reading.number) == (part, dimension, number)
    ]


def _as_given(reading: Reading, unit: Unit) -> str | dict[str, str | float]:
    """Return the reading as it was written, one from a photograph with its error."""
    written = _length_given(reading, unit)
    if reading.error is None:
        return written
    return {"length": written, "error": float(reading.error)}


def _length_given(reading: Reading, unit: Unit) -> str:
    """Return the reading as written, or its inches where the record's unit has changed since."""
    if parse_length(reading.written, unit).inches == reading.inches:
        return reading.written
    return f"{float(reading.inches):.5g} in"


def _sizes(quilt: Quilt, part: str) -> dict[str, Any]:
    """Return the readings each way; a way that was not measured is left out."""
    ways = {way: _written(quilt, part, way) for way in ("width", "length")}
    return {way: readings for way, readings in ways.items() if readings}


def _sashing(quilt: Quilt) -> dict[str, Any]:
    if quilt.sashing == "none":
        return {"sashing": None}
    if quilt.sashing == "unknown" and not _written(quilt, "sashing", "width"):
        return {}
    sashing: dict[str, Any] = {"width": _written(quilt, "sashing", "width")}
    if quilt.cornerstones != "unknown":
        sashing["cornerstones"] = quilt.cornerstones == "present"
    return {"sashing": sashing}


def _borders(quilt: Quilt) -> dict[str, Any]:
    if quilt.borders_seen == "none":
        return {"borders": []}
    if quilt.borders_seen == "unknown" and not quilt.borders:
        return {}
    borders = []
    for number, border in enumerate(quilt.borders, start=1):
        sides = [side for side in SIDES if side in border.sides]
        given: dict[str, Any] = {"width": _written(quilt, "border", "width", number)}
        borders.append(given | ({"sides": sides} if sides else {}))
    return {"borders": borders} if borders else {}


def _binding(quilt: Quilt) -> dict[str, Any]:
    if quilt.binding == "none":
        return {"binding": None}
    if quilt.binding == "unknown" and not _written(quilt, "binding", "width"):
        return {}
    binding: dict[str, Any] = {"width": _written(quilt, "binding", "width")}
    if quilt.binding_within_border != "unknown":
        binding["within_border"] = quilt.binding_within_border == "yes"
    return {"binding": binding}


def _counted(quilt: Quilt) -> dict[str, Any]:
    counted = {
        "columns": quilt.counted_columns,
        "rows": quilt.counted_rows,
        "pieced_blocks": next((b.counted for b in quilt.blocks if b.counted is not None), None),
    }
    given = {name: number for name, number in counted.items() if number is not None}
    return {"counted": given} if given else {}


@dataclass(frozen=True)
class OverallSize:
    """The size of the whole quilt in inches, the middle of what the tape read each way."""

    width: Fraction
    length: Fraction


def overall_size(quilt: Quilt) -> OverallSize | None:
    """Return the overall size, None where it was not measured both ways."""
    if not has_overall_size(quilt):
        return None
    return OverallSize(_middle(quilt, "width"), _middle(quilt, "length"))


@dataclass(frozen=True)
class Measured:
    """All readings of one thing: what of, and each as written with the place it was taken at."""

    of: str
    readings: tuple[Reading, ...]


def measured_things(quilt: Quilt) -> list[Measured]:
    """Return the readings of a quilt, thing by thing, in the order of the measuring sheet."""
    grouped: dict[tuple[str, int, str], list[Reading]] = {}
    for reading in quilt.readings:
        grouped.setdefault((reading.part, reading.number, reading.dimension), []).append(reading)
    several = {part for part, number, _ in grouped if number > 1} | {"border"}
    return [
        Measured(f"{part} {number if part in several else ''}".strip() + f", {way}", tuple(taken))
        for (part, number, way), taken in sorted(
            grouped.items(), key=lambda each: (READING_PARTS.index(each[0][0]), each[0][1])
        )
    ]


def _middle(quilt: Quilt, dimension: str) -> Fraction:
    """Return the median, which one wrong reading among three does not move."""
    return median(
        reading.inches
        for reading in quilt.readings
        if (reading.part, reading.dimension) == ("overall", dimension)
    )
