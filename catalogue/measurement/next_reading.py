"""The one further reading expected to settle most, among those a person could take.

For every such reading each layout foretells a value; the expected probability of the best layout
after reading it is the integral, over all values, of the greatest of the layouts' weighted
densities.
"""

from collections.abc import Iterator, Mapping, Sequence
from math import exp, pi, sqrt
from typing import Final, TypeVar

from catalogue.measurement.counting import ways_to_count
from catalogue.measurement.estimates import SCATTER
from catalogue.measurement.layouts import MeasureNext
from catalogue.measurement.proposals import Proposal
from catalogue.measurement.readings import Presence, TapeReadings
from catalogue.measurement.sentences import reading_name

CONSIDERED: Final = 8
CARELESS: Final = 0.03  # counts and looks that go wrong
WORTH_TAKING: Final = 0.01
SURE: Final = 0.985

Foretold = tuple[float, float, float]  # probability, value, standard deviation


def measure_next(readings: TapeReadings, proposals: Sequence[Proposal]) -> MeasureNext | None:
    """The reading that is expected to settle most, None where none would help.

    A part recorded as there but not measured goes before all others: it is what the record lacks.
    """
    shown = proposals[:CONSIDERED]
    if not shown:
        return None
    now = shown[0].probability
    lacking = [(path, expected(shown, path)) for path in lacking_paths(readings)]
    if lacking:
        path, settles = max(lacking, key=lambda pair: pair[1])
        return MeasureNext(path, _why(path, now, settles), round(min(1.0, max(now, settles)), 4))
    if now > SURE:
        return None
    others = [(path, settle) for path, settle in _others(readings, shown) if settle > now]
    path, settles = max(others, key=lambda pair: pair[1], default=("", 0.0))
    if settles < now + WORTH_TAKING:
        return None
    return MeasureNext(path, _why(path, now, settles), round(min(1.0, settles), 4))


def lacking_paths(readings: TapeReadings) -> list[str]:
    """The parts that are there by the record and were not measured."""
    found = []
    for axis in ("width", "length"):
        if not getattr(readings.overall, axis):
            found.append(f"overall.{axis}")
    if readings.block_recorded and not readings.block.width:
        found.append("block.width")
    if readings.sashing.presence is Presence.PRESENT and not readings.sashing.width:
        found.append("sashing.width")
    for index, border in enumerate(readings.borders or ()):
        if not border.width:
            found.append(f"borders.{index}.width")
    if readings.binding.presence is Presence.PRESENT and not readings.binding.width:
        found.append("binding.width")
    return found


def _others(readings: TapeReadings, shown: Sequence[Proposal]) -> Iterator[tuple[str, float]]:
    """Readings the record does not lack but could have, with what each would settle."""
    counted = readings.counted
    for path, there in (
        ("sashing.width", readings.sashing.width),
        ("block.width", ()),
        ("block.length", ()),
        ("borders.0.width", readings.borders),
    ):
        if not there:
            yield path, expected(shown, path)
    if counted.columns is None:
        yield "counted.columns", _counting([_column(p) for p in shown])
    if counted.rows is None:
        yield "counted.rows", _counting([_row(p) for p in shown])
    if counted.pieced_blocks is None:
        yield "counted.pieced_blocks", _counting([_pieced(p) for p in shown])
    if readings.setting is None:
        yield "setting", _counting([(p.probability, {p.plan.setting: 1.0}) for p in shown])


def expected(shown: Sequence[Proposal], path: str) -> float:
    """The expected probability of the best layout once the reading at `path` is taken."""
    foretold: list[Foretold] = []
    absent = 0.0
    for proposal in shown:
        size = _foretold(proposal, path)
        if size is None:
            absent = max(absent, proposal.probability)
        else:
            foretold.append((proposal.probability, *size))
    return absent + greatest(foretold)


def _foretold(proposal: Proposal, path: str) -> tuple[float, float] | None:
    """The value a layout foretells for a reading and its standard deviation, None for no part."""
    sizes, errors = proposal.adjusted.sizes, proposal.adjusted.errors
    scatter = SCATTER[path.partition(".")[0]]
    known = path
    if path == "block.length" and path not in sizes:
        known = "block.width"
    if path == "borders.0.width" and path not in sizes:
        known = "borders"
    if path.startswith("overall"):
        wide, long = proposal.adjusted.width, proposal.adjusted.length
        return (wide if path.endswith("width") else long), scatter
    if known not in sizes:
        return None
    return sizes[known], sqrt(errors[known] ** 2 + scatter**2)


def greatest(foretold: Sequence[Foretold]) -> float:
    """The integral of the greatest of several weighted Gaussian densities."""
    if not foretold:
        return 0.0
    low = min(value - 4 * spread for _, value, spread in foretold)
    high = max(value + 4 * spread for _, value, spread in foretold)
    edges = sorted({low, high, *_points(foretold)})
    total, before, at = 0.0, 0.0, low
    for value in edges:
        height = max(
            weight * exp(-0.5 * ((value - mean) / spread) ** 2) / (spread * sqrt(2 * pi))
            for weight, mean, spread in foretold
        )
        total += 0.5 * (height + before) * (value - at)
        before, at = height, value
    return total


def _points(foretold: Sequence[Foretold]) -> Iterator[float]:
    """Values close together where any density changes."""
    for _, mean, spread in foretold:
        for step in range(-10, 11):
            yield mean + 0.4 * step * spread


Outcome = TypeVar("Outcome", int, str)
Outcomes = tuple[float, Mapping[Outcome, float]]  # probability, and of each outcome given it


def _counting(foretold: Sequence[Outcomes[Outcome]]) -> float:
    best: dict[Outcome, float] = {}
    for probability, outcomes in foretold:
        total = sum(outcomes.values())
        for outcome, share in outcomes.items():
            best[outcome] = max(best.get(outcome, 0.0), probability * share / total)
    return (1 - CARELESS) * sum(best.values()) + CARELESS * foretold[0][0]


def _column(proposal: Proposal) -> Outcomes[int]:
    return proposal.probability, {proposal.hypothesis.candidate.columns: 1.0}


def _row(proposal: Proposal) -> Outcomes[int]:
    return proposal.probability, {proposal.hypothesis.candidate.rows: 1.0}


def _pieced(proposal: Proposal) -> Outcomes[int]:
    candidate = proposal.hypothesis.candidate
    ways = ways_to_count(proposal.plan, candidate.columns, candidate.rows)
    return proposal.probability, ways


def _why(path: str, now: float, settles: float) -> str:
    """What is gained by taking the reading, in a sentence."""
    what = reading_name(path)
    if settles < now + WORTH_TAKING:
        return f"The {what} is not recorded; with it every size of the layout rests on a reading."
    return f"With the {what} the likeliest layout should reach {settles:.0%}, from {now:.0%} now."
