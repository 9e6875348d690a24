"""A quilt with new measurements: readings imply the parts they are of, and move with them."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Any

from catalogue.collection.records import BlockKind, Border, Quilt, Reading

# The fields that a measuring session writes: what the tape read and what it implies.
MEASURED = ("readings", "borders", "borders_seen", "sashing", "binding")


def with_measurements(quilt: Quilt, seen: dict[str, Any], readings: tuple[Reading, ...]) -> Quilt:
    """Return the quilt with what the eye saw and what the tape read.

    A reading of sashing, border or binding says that there is one, unless the eye says that there
    is none; a border that was measured and not listed is listed, on all four sides.
    """
    borders: tuple[Border, ...] = seen["borders"]
    highest = max((reading.number for reading in readings if reading.part == "border"), default=0)
    borders += (Border(),) * (highest - len(quilt.borders) - _new(borders))
    readings = renumbered(readings, "border", quilt.borders, borders)
    changes = seen | {"borders": borders, "readings": readings}
    taken = {reading.part for reading in readings}
    for part, field in (("sashing", "sashing"), ("binding", "binding")):
        if part in taken and changes[field] == "unknown":
            changes[field] = "present"
    if borders and changes["borders_seen"] == "unknown":
        changes["borders_seen"] = "present"
    return dataclasses.replace(quilt, **changes)


def renumbered(
    readings: tuple[Reading, ...],
    part: str,
    before: Sequence[Border | BlockKind],
    after: Sequence[Border | BlockKind],
) -> tuple[Reading, ...]:
    """Return the readings with those of `part` numbered as its pieces now stand.

    The readings of a piece that is gone go with it; numbers beyond the pieces that were there
    before belong to the new ones, in order.
    """
    places = {piece.id: place for place, piece in enumerate(after, start=1)}
    new = [place for place, piece in enumerate(after, start=1) if piece.id is None]
    numbers = {number: places.get(piece.id) for number, piece in enumerate(before, start=1)}
    numbers |= {len(before) + k: place for k, place in enumerate(new, start=1)}
    if not before and not after:
        return readings
    kept = []
    for reading in readings:
        if reading.part != part:
            kept.append(reading)
        elif (number := numbers.get(reading.number)) is not None:
            kept.append(dataclasses.replace(reading, number=number))
    return tuple(kept)


def _new(borders: tuple[Border, ...]) -> int:
    return sum(1 for border in borders if border.id is None)
