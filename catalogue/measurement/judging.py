"""Every way to take a record weighed against every layout: the posterior over both together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import exp, log
from typing import Final

from catalogue.measurement.readings import TapeReadings
from catalogue.measurement.variants import Record, Variant
from catalogue.measurement.weighing import Candidate, Weighing

NEGLIGIBLE: Final = -3.5  # natural logarithm: a variant this far below need not be weighed
MOST_VARIANTS: Final = 24
MOST_WORK: Final = 4000  # candidates weighed for one record, so that no record takes for ever
FULLY: Final = 4  # variants weighed closely
HOPELESS: Final = -60.0  # natural logarithm: how far from agreement layouts are looked for,
PUT_RIGHT: Final = -7.0  # and how far once a blunder is put right: what it explains should agree
UNBOUNDED: Final = 1e9
CLOSE: Final = 6.0  # natural logarithm: variants this near the likeliest are weighed closely

Identity = tuple[str, str, int, int]


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One candidate layout under one way of taking the record, with its probability."""

    variant: Variant
    weighing: Weighing
    candidate: Candidate
    probability: float

    @property
    def identity(self) -> Identity:
        """What the contract tells layouts apart by."""
        plan = self.candidate.plan
        return plan.setting, plan.sashing, self.candidate.columns, self.candidate.rows


@dataclass(frozen=True, slots=True)
class Judgement:
    """All hypotheses, most probable first."""

    record: Record
    hypotheses: tuple[Hypothesis, ...]


def judge(readings: TapeReadings) -> Judgement:
    """The posterior over layouts and blunders, all readings of the record weighed jointly."""
    record = Record(readings)
    found = list(_taken(record))
    level = max(taken.log_total for taken in found)
    near = sorted(found, key=lambda taken: -taken.log_total)[:FULLY]
    for taken in near:
        if taken.log_total > level - CLOSE:
            taken.look_closer()
    return Judgement(record, _normalised(found))


def _taken(record: Record) -> Iterator["_Taken"]:
    """The record at its word, and every other way of taking it that could matter beside it.

    A way could matter while its own evidence, with everything else in perfect agreement, comes
    near the best found so far.
    """
    base = _Taken(record, record.likeliest, HOPELESS)
    yield base
    ceiling = base.ceiling - record.likeliest.evidence
    best = base.log_total
    variants = sorted(record.variants(), key=lambda variant: -variant.evidence)
    work = base.weighing.weighed
    for variant in variants[:MOST_VARIANTS]:
        if variant.evidence + ceiling < best + NEGLIGIBLE or work > MOST_WORK:
            return
        taken = _Taken(record, variant, PUT_RIGHT)
        work += taken.weighing.weighed
        best = max(best, taken.log_total)
        yield taken


class _Taken:
    """One way of taking the record, and the layouts it allows."""

    def __init__(self, record: Record, variant: Variant, least: float) -> None:
        self.variant = variant
        self.weighing = Weighing(variant.measures(record.rounding), least)
        self.candidates: Sequence[Candidate] = self.weighing.roughly_weighed()

    def look_closer(self) -> None:
        """Weigh the layouts with every component of every size."""
        self.candidates = self.weighing.closely_weighed(self.candidates)

    @property
    def ceiling(self) -> float:
        """What `log_total` would be, were the best layout to agree perfectly with everything."""
        if not self.candidates:
            return UNBOUNDED
        best = self.candidates[0]
        short = best.weighed.peak - best.weighed.log_total - best.counted + self.weighing.oddity
        return self.log_total + short

    @property
    def log_total(self) -> float:
        """The logarithm of the evidence for this way of taking the record."""
        if not self.candidates:
            return -UNBOUNDED
        best = self.candidates[0].weight
        total = sum(exp(candidate.weight - best) for candidate in self.candidates)
        return self.variant.evidence + best + log(total)


def _normalised(found: Sequence[_Taken]) -> tuple[Hypothesis, ...]:
    best = max(taken.log_total for taken in found)
    weights = [
        (taken, candidate, exp(taken.variant.evidence + candidate.weight - best))
        for taken in found
        for candidate in taken.candidates
    ]
    total = sum(weight for _, _, weight in weights)
    hypotheses = (
        Hypothesis(taken.variant, taken.weighing, candidate, weight / total)
        for taken, candidate, weight in weights
        if weight > 1e-6 * total
    )
    return tuple(sorted(hypotheses, key=lambda found: -found.probability))
