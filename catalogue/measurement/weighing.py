"""Every candidate layout weighed against the readings of one record."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import log, pi
from typing import Final

from catalogue.measurement.candidates import counts
from catalogue.measurement.counting import log_counted
from catalogue.measurement.estimates import Measures
from catalogue.measurement.evidence import (
    EXACT_MISFIT,
    UNMEASURED,
    Balance,
    EdgeTerm,
    Latent,
    Weighed,
    closely,
    roughly,
)
from catalogue.measurement.field import Margin, edges, margins, sash_components
from catalogue.measurement.parts import Parts, assemble, log_pitch, log_size
from catalogue.measurement.readings import Presence
from catalogue.measurement.settings import PLANS, Plan

SASH_UNRECORDED: Final = 0.5  # weight of a sashed plan where the record says nothing of sashing
CLOSER_LOOK: Final = 10.0  # natural logarithm below the best candidate
MOST_CLOSELY: Final = 40  # candidates looked at closely


@dataclass(frozen=True, slots=True)
class Candidate:
    """One plan with its counts and margin, the sizes that enter it, and its log weight.

    All are logarithms: `suits` how well the block's readings suit the plan's shape, `prior` that
    and all else but the counts and the fit of the overall size, `weight` everything together.
    """

    plan: Plan
    columns: int
    rows: int
    margin: Margin
    latents: tuple[Latent, ...]
    suits: float
    prior: float
    counted: float
    weighed: Weighed
    weight: float


class Weighing:
    """One record's estimates set against every plan."""

    def __init__(self, measures: Measures) -> None:
        self.measures = measures
        self.edges = edges(measures)
        self.margins = margins(measures)
        self.sash, self.evidence = sash_components(measures)
        self.evidence += 0.5 * log(2 * pi * UNMEASURED) * (not measures.width)
        self.evidence += 0.5 * log(2 * pi * UNMEASURED) * (not measures.length)
        terms = tuple(EdgeTerm(edge.share, edge.mean, edge.variance) for edge in self.edges)
        self.balances = {id(m): balance(measures, m, terms) for m in self.margins}

    @property
    def oddity(self) -> float:
        """How far out of the usual the overall size is, as a logarithm."""
        usual = log_size(None)
        return max(0.0, usual - log_size(self.measures.width)) + max(
            0.0, usual - log_size(self.measures.length)
        )

    def roughly_weighed(self) -> list[Candidate]:
        """Every candidate within sight of the best, heaviest first, each part one Gaussian."""
        rough = sorted(self._all(), key=lambda found: -found.weight)
        if not rough:
            return []
        horizon = rough[0].weight - CLOSER_LOOK
        return [found for found in rough[:MOST_CLOSELY] if found.weight > horizon]

    def closely_weighed(self, rough: Sequence[Candidate]) -> list[Candidate]:
        """The same candidates with every component of every part, heaviest first."""
        return sorted(map(self._closer, rough), key=lambda found: -found.weight)

    def _all(self) -> Iterator[Candidate]:
        for plan in PLANS:
            if not _allowed(plan, self.measures):
                continue
            for margin in self.margins:
                if not (plan.floats and margin.free):
                    yield from self._of_plan(plan, margin)

    def _of_plan(self, plan: Plan, margin: Margin) -> Iterator[Candidate]:
        measures = self.measures
        balance = self.balances[id(margin)]
        parts = assemble(measures, plan, margin, self.sash)
        share = log(plan.share * margin.share) + self.evidence + margin.evidence
        share += parts.evidence + _lattice(parts, measures)
        if plan.sashed and measures.sashing is Presence.UNKNOWN:
            share += log(SASH_UNRECORDED)
        for columns, rows in counts(plan, parts.room(balance, measures)):
            latents = parts.latents(columns, rows)
            weighed = roughly(balance, latents)
            counted = log_counted(measures.counted, plan, columns, rows)
            weight = share + counted + weighed.log_total
            yield Candidate(
                plan, columns, rows, margin, latents, parts.suits, share, counted, weighed, weight
            )

    def _closer(self, rough: Candidate) -> Candidate:
        weighed = closely(self.balances[id(rough.margin)], rough.latents, rough.weighed)
        weight = rough.prior + rough.counted + weighed.log_total
        return replace(rough, weighed=weighed, weight=weight)


def balance(measures: Measures, margin: Margin, terms: tuple[EdgeTerm, ...]) -> Balance:
    """What blocks, sashing and unmeasured borders have to make up."""
    width, length = measures.width, measures.length
    misfit = EXACT_MISFIT * EXACT_MISFIT
    v11, v12, v22 = margin.variance
    return Balance(
        width.mean - margin.across if width else 0.0,
        length.mean - margin.down if length else 0.0,
        (
            v11 + misfit + (width.variance if width else UNMEASURED),
            v12,
            v22 + misfit + (length.variance if length else UNMEASURED),
        ),
        (width.mean if width else 0.0, length.mean if length else 0.0),
        terms,
    )


def _allowed(plan: Plan, measures: Measures) -> bool:
    if measures.setting is not None and plan.setting != measures.setting:
        return False
    if measures.sashing is Presence.PRESENT:
        return plan.sashed
    return not (plan.sashed and measures.sashing is Presence.ABSENT)


def _lattice(parts: Parts, measures: Measures) -> float:
    """The prior of any one count: a fine pitch has many counts, and each its share of them."""
    total = 0.0
    for axis, overall in (
        (parts.plan.width, measures.width),
        (parts.plan.length, measures.length),
    ):
        if not axis.single:
            total += log_pitch(parts.pitch(axis)) + log_size(overall)
    return total
