"""Every candidate layout weighed against the readings of one record."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import log, pi
from typing import Final

from catalogue.measurement.candidates import columns_in, rows_in
from catalogue.measurement.counting import log_counted
from catalogue.measurement.estimates import Measures
from catalogue.measurement.evidence import (
    EXACT_MISFIT,
    UNMEASURED,
    Balance,
    Edge,
    Weighed,
    closely,
    edge_together,
    looseness,
    roughly,
)
from catalogue.measurement.field import BINDING_WIDTHS, Margin, edges_of, margins
from catalogue.measurement.parts import USUAL_SIZE, Parts, assemble, log_pitch, log_size
from catalogue.measurement.readings import Presence
from catalogue.measurement.settings import Plan

SASH_UNRECORDED: Final = 0.5  # weight of a sashed plan where the record says nothing of sashing
JOINED_STRIPPY: Final = 0.01  # cornerstones join strips that cross, and a strippy's do not
MOST_CANDIDATES: Final = 400  # of one plan with one margin
CLOSER_LOOK: Final = 8.0  # natural logarithm below the best candidate
MOST_CLOSELY: Final = 24  # candidates looked at closely


@dataclass(frozen=True, slots=True)
class Candidate:
    """One plan with its margin and counts, the parts that enter it, and its log weight.

    All are logarithms: `prior` holds all but the counts and the fit of the overall size, `weight`
    everything together.
    """

    parts: Parts
    margin: Margin
    columns: int
    rows: int
    prior: float
    counted: float
    weighed: Weighed
    weight: float

    @property
    def plan(self) -> Plan:
        """The way of setting."""
        return self.parts.plan


class Weighing:
    """One record's estimates set against every plan.

    `least` is how far from perfect agreement, as a logarithm, either axis may lie; `weighed` how
    many candidates were looked at.
    """

    def __init__(self, measures: Measures, least: float) -> None:
        self.measures = measures
        self.least = least
        self.weighed = 0
        self.edges = edges_of(measures)
        self.balances = {
            margin: balance(measures, margin, self.edges) for margin in margins(measures.borders)
        }
        unread = (not measures.width) + (not measures.length)
        self.evidence = unread * 0.5 * log(2 * pi * UNMEASURED)
        if measures.binding_width:
            self.evidence += BINDING_WIDTHS.log_envelope(measures.binding_width.mean)

    @property
    def oddity(self) -> float:
        """How far out of the usual the overall size is, as a logarithm."""
        usual = log_size(USUAL_SIZE)
        read = [overall.mean for overall in (self.measures.width, self.measures.length) if overall]
        return sum(max(0.0, usual - log_size(size)) for size in read)

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
        for parts, margin in assemble(self.measures):
            yield from self._of_plan(parts, margin)

    def _of_plan(self, parts: Parts, margin: Margin) -> Iterator[Candidate]:
        """Every candidate of one plan with one margin."""
        measures, plan = self.measures, parts.plan
        balance = self.balances[margin]
        share = log(plan.share * margin.share) + self.evidence + margin.evidence
        share += parts.evidence + _lattice(parts, measures) + _recorded(plan, measures)
        for columns, rows in self._proposed(parts, balance):
            self.weighed += 1
            weighed = roughly(balance, parts.loads(columns, rows))
            if weighed is None:
                continue
            counted = log_counted(measures.counted, plan, columns, rows)
            prior = share + _unread(parts, margin, measures, columns, rows)
            weight = prior + counted + weighed.log_total
            yield Candidate(parts, margin, columns, rows, prior, counted, weighed, weight)

    def _proposed(self, parts: Parts, balance: Balance) -> list[tuple[int, int]]:
        """Columns and rows worth a look, those left out that width or length alone rule out."""
        plan, room, counted = parts.plan, parts.room(balance, self.measures), self.measures.counted
        across = {n: parts.fits_across(n, balance) for n in columns_in(plan, room)}
        wide = self._within_reach(across, counted.columns)
        if room.free:
            beside = {columns: rows_in(plan, room, columns) for columns in wide}
        else:
            beside = dict.fromkeys(wide, rows_in(plan, room, 1))
        down = {n: parts.fits_down(n, balance) for rows in beside.values() for n in rows}
        long = set(self._within_reach(down, counted.rows))
        lone = plan.setting != "medallion"
        pairs = [(columns, n) for columns, rows in beside.items() for n in rows if n in long]
        return [pair for pair in pairs[:MOST_CANDIDATES] if not (lone and pair == (1, 1))]

    def _within_reach(self, fits: dict[int, float], counted: int | None) -> list[int]:
        """The counts that fit well enough beside the one that fits best, and the one counted."""
        if not fits:
            return []
        least = max(max(fits.values()) - CLOSER_LOOK, self.least)
        return [number for number, fit in fits.items() if fit > least or number == counted]

    def _closer(self, rough: Candidate) -> Candidate:
        latents = rough.parts.latents(rough.columns, rough.rows)
        weighed = closely(self.balances[rough.margin], latents, rough.weighed)
        weight = rough.prior + rough.counted + weighed.log_total
        return replace(rough, weighed=weighed, weight=weight)


def balance(measures: Measures, margin: Margin, edges: tuple[Edge, ...]) -> Balance:
    """What blocks, sashing and unmeasured borders have to make up."""
    width, length = measures.width, measures.length
    misfit = EXACT_MISFIT * EXACT_MISFIT
    v11, v12, v22 = margin.variance
    wide, long = width.mean if width else 0.0, length.mean if length else 0.0
    return Balance(
        wide - margin.across if width else 0.0,
        long - margin.down if length else 0.0,
        (
            v11 + misfit + (width.variance if width else UNMEASURED),
            v12,
            v22 + misfit + (length.variance if length else UNMEASURED),
        ),
        edges,
        edge_together(edges),
        *looseness(wide, long, edges),
    )


def _recorded(plan: Plan, measures: Measures) -> float:
    """The logarithm of how the sashing would come to be recorded as it is."""
    total = 0.0
    if plan.sashed and measures.sashing is Presence.UNKNOWN:
        total += log(SASH_UNRECORDED)
    if plan.setting == "strippy" and measures.cornerstones:
        total += log(JOINED_STRIPPY)
    return total


def _lattice(parts: Parts, measures: Measures) -> float:
    """The prior of any one count: a fine pitch has many counts, and each its share of them."""
    total = 0.0
    for axis, overall in (
        (parts.plan.width, measures.width),
        (parts.plan.length, measures.length),
    ):
        if not axis.single:
            total += log_pitch(parts.pitch(axis))
            total += log_size(overall.mean) if overall else 0.0
    return total


def _unread(parts: Parts, margin: Margin, measures: Measures, columns: int, rows: int) -> float:
    """The prior of the size that so many would make along an axis nobody read."""
    total = 0.0
    if measures.width is None and not parts.plan.width.single:
        total += log_size(parts.made(parts.plan.width, columns) + margin.across)
    if measures.length is None and not parts.plan.length.single:
        total += log_size(parts.made(parts.plan.length, rows) + margin.down)
    return total
