"""What may have gone wrong between the tape and the record, list by list.

Each list of readings can be taken at its word, or with one thing amiss: a reading far from its
fellows, centimetres typed as inches, two digits transposed, a fraction dropped. How often people
do so is judgement (common practice, no source).
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import exp, log, pi
from typing import Final

from catalogue.measurement.layouts import CautionKind
from catalogue.measurement.readings import Reading
from catalogue.measurement.sizes import ROOT_TAU
from catalogue.values.lengths import LengthError, Unit, parse_length

OUTLIER: Final = 0.01
LONE_OUTLIER: Final = 0.005
NEARBY: Final = 0.7  # share of outliers that stand within some NEARBY_TIMES the usual scatter
NEARBY_TIMES: Final = 12.0
WRONG_UNIT: Final = 0.004
WRONG_UNIT_THROUGHOUT: Final = 0.003  # all of one list, and not its fellow across or down
TELLING: Final = 15.0  # how much likelier tenths are in centimetres, fractions in inches, and
# units to be right where they are written out
TRANSPOSED: Final = 0.003
DROPPED: Final = 0.003
DROPPED_THROUGHOUT: Final = 0.0015
UNEVEN: Final = 0.03  # share of lists whose readings scatter UNEVEN_TIMES as far as usual
UNEVEN_TIMES: Final = 4.0
CENTIMETRES: Final = 2.54


@dataclass(frozen=True, slots=True)
class Version:
    """One list of readings as it may have been meant.

    `evidence` is the logarithm of how likely the list is to come out as written, its mean left
    aside. `kind` is None where all is taken at its word; `index` is the reading at fault, None for
    the whole list; `spare` the variance added to the mean, where a fraction is missing.
    """

    values: tuple[float, ...]
    evidence: float
    kind: CautionKind | None = None
    index: int | None = None
    spare: float = 0.0


def plainest(found: Sequence[Version]) -> Version:
    """The version to start from: as written, unless the list itself shows one reading to be amiss.

    A fault of the whole list only shows against other lists.
    """
    return next(
        version
        for version in found
        if version.kind is None or (version.index is not None and len(version.values) > 1)
    )


def versions(readings: Sequence[Reading], scatter: float, unit: Unit) -> list[Version]:
    """The list as written and with one thing amiss, likeliest first."""
    values = tuple(float(reading) for reading in readings)
    found = [Version(values, log_scatter(values, scatter))]
    for index, reading in enumerate(readings):
        found += _one_amiss(values, index, reading, scatter, unit)
    if len(values) > 1:
        found += _all_amiss(values, readings, scatter)
    return sorted(found, key=lambda version: -version.evidence)


def log_scatter(values: Sequence[float], scatter: float) -> float:
    """The logarithm of the density of readings about their own mean, even or uneven work."""
    count = len(values)
    if count < 2:
        return 0.0
    mean = sum(values) / count
    squares = sum((value - mean) ** 2 for value in values)
    free = count - 1
    even = _scattered(squares, free, scatter) + log(1 - UNEVEN)
    uneven = _scattered(squares, free, scatter * UNEVEN_TIMES) + log(UNEVEN)
    return max(even, uneven)


def _scattered(squares: float, free: int, scatter: float) -> float:
    variance = scatter * scatter
    return -0.5 * squares / variance - 0.5 * free * log(2 * pi * variance)


def _one_amiss(
    values: tuple[float, ...], index: int, reading: Reading, scatter: float, unit: Unit
) -> Iterator[Version]:
    count = len(values)
    rest = values[:index] + values[index + 1 :]
    value = values[index]
    prior = OUTLIER / count if rest else LONE_OUTLIER
    astray = log(prior * _astray(value, rest, scatter))
    yield Version(rest, log_scatter(rest, scatter) + astray, "outlier", index)

    def meant(size: float, evidence: float, kind: CautionKind) -> Version:
        mended = (*values[:index], size, *values[index + 1 :])
        return Version(mended, log_scatter(mended, scatter) + evidence, kind, index)

    factor = unit_factor(reading)
    yield meant(value * factor, log(WRONG_UNIT / count * factor) + telling(reading), "wrong unit")
    swaps = transpositions(reading, unit)
    for size in swaps:
        yield meant(size, log(TRANSPOSED / count / len(swaps)), "transposed digits")
    if whole(reading):
        yield from _dropped(rest, index, value, scatter)


def _astray(value: float, rest: tuple[float, ...], scatter: float) -> float:
    """The density of a reading that went astray: mostly near its fellows, or anywhere."""
    anywhere = 1 / max(2.0, 0.5 * value)
    if not rest:
        return anywhere
    spread = NEARBY_TIMES * scatter
    off = (value - sum(rest) / len(rest)) / spread
    near = exp(-0.5 * off * off) / (spread * ROOT_TAU)
    return NEARBY * near + (1 - NEARBY) * anywhere


def telling(reading: Reading) -> float:
    """What the way a length was written says of its unit having been mistaken; a logarithm."""
    tenths = "." in reading.written and (reading.inches * 8).denominator != 1
    fraction = "/" in reading.written
    inches = reading.unit == "in"
    signs = (tenths - fraction if inches else int(fraction)) - reading.unit_stated
    return signs * log(TELLING)


def habit(readings: Sequence[Reading]) -> float:
    """`telling` of a whole list: a habit of writing counts once, however often it shows."""
    return sum(map(telling, readings)) / max(1, len(readings))


def _dropped(
    rest: tuple[float, ...], index: int, value: float, scatter: float
) -> Iterator[Version]:
    """A whole number that was a mixed one: its fellows lie between it and the next."""
    prior = log(DROPPED / (len(rest) + 1))
    if not rest:
        yield Version((value + 0.5,), prior, "dropped fraction", index, 1 / 12)
        return
    mean = sum(rest) / len(rest)
    if 2 * scatter < mean - value < 1 + scatter:
        yield Version(rest, log_scatter(rest, scatter) + prior, "dropped fraction", index)


def _all_amiss(
    values: tuple[float, ...], readings: Sequence[Reading], scatter: float
) -> Iterator[Version]:
    factor = unit_factor(readings[0])
    scaled = tuple(value * factor for value in values)
    evidence = log_scatter(scaled, scatter) + len(values) * log(factor)
    evidence += log(WRONG_UNIT_THROUGHOUT) + habit(readings)
    yield Version(scaled, evidence, "wrong unit")
    if all(whole(reading) for reading in readings):
        raised = tuple(value + 0.5 for value in values)
        evidence = log_scatter(values, scatter) + log(DROPPED_THROUGHOUT)
        yield Version(raised, evidence, "dropped fraction", None, 1 / 12)


def unit_factor(reading: Reading) -> float:
    """From the length as written to the length had the other unit been meant."""
    return CENTIMETRES if reading.unit in ("cm", "mm", "m") else 1 / CENTIMETRES


def whole(reading: Reading) -> bool:
    """Whether a whole number of inches was written."""
    return reading.unit == "in" and reading.inches.denominator == 1


_DIGITS = re.compile(r"\d{2,}")


def transpositions(reading: Reading, unit: Unit) -> list[float]:
    """The lengths that swapping two neighbouring digits of what was written would give."""
    written, found = reading.written, []
    for run in _DIGITS.finditer(written):
        for at in range(run.start(), run.end() - 1):
            first, second = written[at], written[at + 1]
            if first == second:
                continue
            swapped = f"{written[:at]}{second}{first}{written[at + 2 :]}"
            try:
                found.append(float(parse_length(swapped, unit)))
            except LengthError:
                continue
    return found
