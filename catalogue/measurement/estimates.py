"""Several readings of one thing as one estimate with its scatter, and a record as such estimates.

How far readings scatter: single blocks of one quilt 0.1 in, overall readings 0.3 in, on a tape
read to 1/8 or 1/4 in. These are the assumptions of the project's own simulation; antique quilts
can do worse (tests/published/worked_examples.csv), which the error model allows for apart.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from catalogue.measurement.layouts import Setting
from catalogue.measurement.readings import (
    BorderReadings,
    Counted,
    Edge,
    Presence,
    Reading,
    TapeReadings,
)

# Standard deviation of one reading in inches, by the part of the record it stands in.
SCATTER: Final = {"overall": 0.3, "block": 0.1, "sashing": 0.1, "borders": 0.1, "binding": 0.06}

HALF_CENTIMETRE: Final = 0.5 / 2.54
NINE_IN_TEN: Final = 1.645  # standard deviations that hold nine tenths of a normal distribution

# How many readings' worth of trust the expected scatter has against the scatter seen.
TRUST: Final = 10.0

Lists = Mapping[str, Sequence[float]]


@dataclass(frozen=True, slots=True)
class Estimate:
    """The mean of several readings in inches, its variance, and how many there were."""

    mean: float
    variance: float
    count: int


@dataclass(frozen=True, slots=True)
class BorderEstimate:
    """One border: its width, None where not measured, and how often it lies along each axis."""

    width: Estimate | None
    across: int
    down: int


@dataclass(frozen=True, slots=True)
class Measures:
    """A record reduced to estimates in inches; None where there is no reading."""

    width: Estimate | None
    length: Estimate | None
    block_width: Estimate | None
    block_length: Estimate | None
    sashing: Presence
    sash: Estimate | None
    cornerstones: bool | None
    borders: tuple[BorderEstimate, ...] | None
    binding: Presence
    binding_width: Estimate | None
    within_border: bool | None
    counted: Counted
    setting: Setting | None
    edge: Edge | None


def reading_lists(readings: TapeReadings) -> dict[str, tuple[Reading, ...]]:
    """Every list of readings of the tape by its path in the record, overall first."""
    lists = _all_lists(readings)
    return {path: tuple(r for r in part if r.error is None) for path, part in lists.items()}


def _from_photographs(readings: TapeReadings) -> dict[str, tuple[Reading, ...]]:
    """Likewise every list of distances read from photographs."""
    lists = _all_lists(readings)
    return {path: tuple(r for r in part if r.error is not None) for path, part in lists.items()}


def _all_lists(readings: TapeReadings) -> dict[str, tuple[Reading, ...]]:
    lists = {
        "overall.width": readings.overall.width,
        "overall.length": readings.overall.length,
        "block.width": readings.block.width,
        "block.length": readings.block.length,
        "sashing.width": readings.sashing.width,
    }
    for index, border in enumerate(readings.borders or ()):
        lists[f"borders.{index}.width"] = border.width
    lists["binding.width"] = readings.binding.width
    return lists


def scatter_of(path: str) -> float:
    """The standard deviation of one reading in the list at `path`, in inches."""
    return SCATTER[path.partition(".")[0]]


def tape_rounding(readings: TapeReadings) -> float:
    """The variance that the tape's marks add to one reading: eighths if any eighth was read.

    A tape in centimetres is taken to be read to half a centimetre.
    """
    read = [reading for part in reading_lists(readings).values() for reading in part]
    if any(reading.unit != "in" for reading in read):
        marks = HALF_CENTIMETRE
    else:
        fine = any((reading.inches * 4).denominator != 1 for reading in read)
        marks = 0.125 if fine else 0.25
    return marks * marks / 12


def estimate(values: Sequence[float], scatter: float, rounding: float) -> Estimate | None:
    """The mean of `values`, whose variance blends the scatter expected with the scatter seen.

    `rounding` is the variance that reading the tape adds to each value. None without values.
    """
    count = len(values)
    if not count:
        return None
    mean = sum(values) / count
    expected = scatter * scatter + rounding
    seen = sum((value - mean) ** 2 for value in values)
    single = (TRUST * expected + seen) / (TRUST + count - 1)
    return Estimate(mean, single / count, count)


def with_photographs(tape: Estimate | None, seen: Sequence[Reading]) -> Estimate | None:
    """The tape's estimate and that of photographs, each weighted by its own variance.

    Distances on a photograph share its corners and its scale, so that their mean is no surer than
    the surest of them.
    """
    if not seen:
        return tape
    weighed = [((NINE_IN_TEN / r.error) ** 2, float(r)) for r in seen if r.error is not None]
    mean = sum(weight * inches for weight, inches in weighed) / sum(w for w, _ in weighed)
    variance = 1 / max(weighed)[0]
    if tape is None:
        return Estimate(mean, variance, len(seen))
    joint = 1 / (1 / variance + 1 / tape.variance)
    return Estimate(
        joint * (mean / variance + tape.mean / tape.variance), joint, tape.count + len(seen)
    )


def measures(
    readings: TapeReadings, lists: Lists, rounding: float, spare: Mapping[str, float]
) -> Measures:
    """The record as estimates, with the values in `lists` for its readings.

    `spare` is variance added to the mean of a list.
    """

    seen = _from_photographs(readings)

    def mean(path: str) -> Estimate | None:
        found = estimate(lists[path], scatter_of(path), rounding)
        if found is not None and path in spare:
            found = replace(found, variance=found.variance + spare[path])
        return with_photographs(found, seen[path])

    def border(index: int, entry: BorderReadings) -> BorderEstimate:
        across = ("left" in entry.sides) + ("right" in entry.sides)
        down = ("top" in entry.sides) + ("bottom" in entry.sides)
        return BorderEstimate(mean(f"borders.{index}.width"), across, down)

    borders = readings.borders
    return Measures(
        width=mean("overall.width"),
        length=mean("overall.length"),
        block_width=mean("block.width"),
        block_length=mean("block.length"),
        sashing=readings.sashing.presence,
        sash=mean("sashing.width"),
        cornerstones=readings.sashing.cornerstones,
        borders=None if borders is None else tuple(border(*pair) for pair in enumerate(borders)),
        binding=readings.binding.presence,
        binding_width=mean("binding.width"),
        within_border=readings.binding.within_border,
        counted=readings.counted,
        setting=readings.setting,
        edge=readings.edge,
    )
