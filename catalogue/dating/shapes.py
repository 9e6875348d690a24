"""How likely a clue is in each year: the curve of one clue before they are weighed together."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from catalogue.dating.clues import Clue

FIRST_YEAR = 1750
LAST_YEAR = 2035
YEARS = range(FIRST_YEAR, LAST_YEAR + 1)
"""The years that a quilt of these collections can have been made in."""

_START_OF_RAMP = 0.3
"""Chance, against the peak, in the first year known of a thing (house rule)."""


@dataclass(frozen=True, slots=True)
class Shape:
    """How the chance of a group of clues rises before their years and falls after them.

    `outside` is the drop at the edge of the usual years; `rises_in` the years in which the chance
    doubles before them. After them it halves in `falls_in` years, except for `late_share` of it,
    which halves in `late_falls_in`: old stock. `least` is what is left at any distance.
    """

    outside: float
    rises_in: float
    falls_in: float
    late_share: float
    late_falls_in: float
    least: float
    why: str
    source: str


@lru_cache(maxsize=1)
def shapes() -> dict[str, tuple[str, Shape]]:
    """Group and shape of every kind of clue, from `shapes.csv`."""
    table = Path(__file__).with_name("shapes.csv")
    found: dict[str, tuple[str, Shape]] = {}
    with table.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            shape = Shape(
                float(row["outside"]),
                float(row["rises_in"]),
                float(row["falls_in"]),
                float(row["late_share"]),
                float(row["late_falls_in"]),
                float(row["least"]),
                row["why"],
                row["source"],
            )
            found |= dict.fromkeys(row["kinds"].split(","), (row["group"], shape))
    return found


def is_told(clue: Clue) -> bool:
    """True of inscriptions, documents and memories, which name years themselves."""
    return shapes()[clue.kind][0] in ("inscription", "document", "memory")


@dataclass(frozen=True, slots=True)
class Curve:
    """Logarithms of the chance of a clue, year by year over `YEARS`.

    `rise` is the chance itself, held at its value at the end of the usual years; `fall` is what is
    lost after them, and nothing for what names years itself (`wanes` is false). `floor` is the
    year before which a sure clue cannot be.
    """

    rise: tuple[float, ...]
    fall: tuple[float, ...]
    wanes: bool
    floor: int | None


@lru_cache(maxsize=1024)
def curve(clue: Clue, sure: float) -> Curve:
    """The curve of a clue that speaks for the phase with that chance, else says nothing."""
    chances = [_chance(clue, year) for year in YEARS]
    mean = sum(chances) / len(chances)
    logs = [math.log(max(sure * chance / mean + 1 - sure, 1e-12)) for chance in chances]
    floor = clue.earliest if clue.force == "earliest possible" and sure == 1 else None
    if clue.peak_end is None or is_told(clue):
        return Curve(tuple(logs), (0.0,) * len(logs), False, floor)
    peak = min(max(clue.peak_end, FIRST_YEAR), LAST_YEAR) - FIRST_YEAR
    held = [logs[peak]] * (len(logs) - peak - 1)
    lost = [log - logs[peak] for log in logs[peak + 1 :]]
    return Curve(
        tuple(logs[: peak + 1] + held), tuple([0.0] * (peak + 1) + lost), bool(lost), floor
    )


def _chance(clue: Clue, year: int) -> float:
    """Chance of the clue in that year, against 1 at its best."""
    if clue.force == "says nothing":
        return 1.0
    shape = shapes()[clue.kind][1]
    if clue.earliest is not None and year < clue.earliest:
        return 0.0 if clue.force == "earliest possible" else _before(clue, year, shape)
    if clue.peak_from is not None and year < clue.peak_from:
        return _before(clue, year, shape) if clue.earliest is None else _ramp(clue, year)
    if clue.peak_end is not None and year > clue.peak_end:
        return _after(clue, year, shape)
    return 1.0


def _before(clue: Clue, year: int, shape: Shape) -> float:
    begins = clue.begins or FIRST_YEAR
    start = _START_OF_RAMP if clue.earliest is not None else 1.0
    return max(start * shape.outside * math.exp2((year - begins) / shape.rises_in), shape.least)


def _ramp(clue: Clue, year: int) -> float:
    first, full = clue.earliest or FIRST_YEAR, clue.peak_from or LAST_YEAR
    return _START_OF_RAMP + (1 - _START_OF_RAMP) * (year - first) / (full - first)


def _after(clue: Clue, year: int, shape: Shape) -> float:
    """Between the peak and the last usual year the chance falls at half its later pace."""
    peak = clue.peak_end or LAST_YEAR
    last = clue.ends or LAST_YEAR
    years = (min(year, last) - peak) / 2 + max(year - last, 0)
    new = (1 - shape.late_share) * math.exp2(-years / shape.falls_in)
    old = shape.late_share * math.exp2(-years / shape.late_falls_in)
    return max(shape.outside * (new + old), shape.least)
