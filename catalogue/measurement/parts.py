"""The parts that one plan is made of, each as measured or, failing that, as one meets it."""

from dataclasses import dataclass
from functools import lru_cache
from math import exp, log, sqrt
from typing import Final, NamedTuple

from catalogue.measurement.candidates import Range, Room
from catalogue.measurement.estimates import BorderEstimate, Estimate, Measures
from catalogue.measurement.evidence import Balance, Latent, Load, one_way
from catalogue.measurement.field import (
    BAR_LENGTHS,
    BLOCK_SIZES,
    BORDER_WIDTHS,
    FLOAT_WIDTHS,
    BlockView,
    Margin,
    margins,
    sash_width,
    strips,
    view_block,
)
from catalogue.measurement.layouts import Setting
from catalogue.measurement.readings import Presence
from catalogue.measurement.settings import PLANS, Axis, Plan, Shape
from catalogue.measurement.sizes import Component, Mixture, SizePrior

# Overall sizes as one meets them: bed quilts, and crib, doll and wall quilts; judgement (common
# practice, no source).
OVERALL_SIZES: Final = SizePrior(68.0, 0.45)
SMALL_SIZES: Final = SizePrior(28.0, 0.7)
SMALL_SHARE: Final = 0.12
USUAL_SIZE: Final = 68.0
LARGEST: Final = 122.0  # inches: a bed hardly takes more
LARGEST_SPREAD: Final = 12.0
ASPECT_SPREAD: Final = 0.4  # of the logarithm of a rectangular block's length over its width
EITHER_WAY: Final = ("straight", "on point")  # settings with or without sashing
RULED_OUT: Final = 8.0  # natural logarithm below the plan that suits best
ROOM_FOR_USE: Final = 2.3  # standard deviations of the usual sizes
ROOM_FOR_ERROR: Final = 3.5  # standard deviations
LOOSE_ROOM: Final = 0.01  # and so much of the overall size besides


class Part(NamedTuple):
    """One size: components where it was measured, else None; mean, variance and prior."""

    components: tuple[Component, ...] | None
    mean: float
    variance: float
    prior: SizePrior

    @property
    def range(self) -> Range:
        """From least to greatest that is worth a thought."""
        if self.components is None:
            ratio = exp(ROOM_FOR_USE * self.prior.spread)
            return self.prior.median / ratio, self.prior.median * ratio
        reach = ROOM_FOR_ERROR * sqrt(self.variance)
        return max(0.02, self.mean - reach), self.mean + reach


def part(size: Mixture | None, prior: SizePrior) -> Part:
    """A size as it was measured, or from its prior where it was not."""
    if size is None:
        return Part(None, prior.median, (prior.median * prior.spread) ** 2, prior)
    return Part(size.components, size.mean, size.variance, prior)


@dataclass(frozen=True, slots=True)
class Parts:
    """The parts of one plan with one margin; `down` is None where one block size serves both axes.

    `suits` is the logarithm of how well the block's own readings suit the plan's shape, `evidence`
    of how well they suit its usual sizes besides.
    """

    plan: Plan
    across: Part
    down: Part | None
    sash: Part | None
    margin: Part | None
    sides: tuple[float, float]
    suits: float
    evidence: float

    def loads(self, columns: int, rows: int) -> list[Load]:
        """Each part as one Gaussian, with how often it lies along both axes."""
        width, length, block = self.plan.width, self.plan.length, self.across
        if self.down is None:
            found = [(width.blocks(columns), length.blocks(rows), block.mean, block.variance)]
        else:
            found = [
                (width.blocks(columns), 0.0, block.mean, block.variance),
                (0.0, length.blocks(rows), self.down.mean, self.down.variance),
            ]
        if self.sash is not None:
            sashes = width.sashes(columns), length.sashes(rows)
            found.append((*sashes, self.sash.mean, self.sash.variance))
        if self.margin is not None:
            found.append((*self.sides, self.margin.mean, self.margin.variance))
        return found

    def fits_across(self, columns: int, balance: Balance) -> float:
        """How well so many columns fit the width alone; a logarithm, up to a constant."""
        blocks, sashes = self.plan.width.blocks(columns), self.plan.width.sashes(columns)
        taken, variance = self._along(self.across, blocks, sashes, self.sides[0])
        edge, spread = balance.edge
        left = balance.across - taken
        variance += balance.covariance[0]
        loose = balance.loose_covariance[0]
        return one_way(left - edge, variance + spread, left + balance.loose[0], loose)

    def fits_down(self, rows: int, balance: Balance) -> float:
        """How well so many rows fit the length alone; a logarithm, up to a constant."""
        blocks, sashes = self.plan.length.blocks(rows), self.plan.length.sashes(rows)
        taken, variance = self._along(self.down or self.across, blocks, sashes, self.sides[1])
        edge, spread = balance.edge
        left = balance.down - taken
        variance += balance.covariance[2]
        loose = balance.loose_covariance[2]
        return one_way(left - edge, variance + spread, left + balance.loose[1], loose)

    def _along(
        self, block: Part, blocks: float, sashes: float, sides: float
    ) -> tuple[float, float]:
        """What the parts take up along one axis, and its variance."""
        taken, variance = blocks * block.mean, blocks * blocks * block.variance
        if self.sash is not None:
            taken += sashes * self.sash.mean
            variance += sashes * sashes * self.sash.variance
        if self.margin is not None:
            taken += sides * self.margin.mean
            variance += sides * sides * self.margin.variance
        return taken, variance

    def latents(self, columns: int, rows: int) -> tuple[Latent, ...]:
        """Each part with all it may measure, and how often it lies along both axes."""
        there = [part for part in (self.across, self.down, self.sash, self.margin) if part]
        return tuple(
            Latent(a, b, part.components, mean, variance, part.prior)
            for part, (a, b, mean, variance) in zip(there, self.loads(columns, rows), strict=True)
        )

    def pitch(self, axis: Axis) -> float:
        """From one block to the next along an axis, in inches."""
        block = self.across if axis is self.plan.width or self.down is None else self.down
        return axis.block * block.mean + (axis.sash * self.sash.mean if self.sash else 0.0)

    def made(self, axis: Axis, count: int) -> float:
        """Roughly what so many along an axis measure, measured borders left out."""
        across = axis is self.plan.width
        block = self.across if across or self.down is None else self.down
        sides = self.sides[0] if across else self.sides[1]
        taken, _ = self._along(block, axis.blocks(count), axis.sashes(count), sides)
        return taken

    def room(self, balance: Balance, measures: Measures) -> Room:
        """The sizes as ranges, for proposing counts."""
        down = self.down or self.across
        named = {"block": self.across, "sash": self.sash, "margin": self.margin}
        free = {name for name, part in named.items() if part and part.components is None}
        counted = measures.counted
        return Room(
            _extent(measures.width, balance.across, balance.covariance[0], balance),
            _extent(measures.length, balance.down, balance.covariance[2], balance),
            self.across.range,
            down.range,
            self.sash.range if self.sash else (0.0, 0.0),
            self.margin.range if self.margin else (0.0, 0.0),
            self.sides,
            frozenset(free),
            (counted.columns, counted.rows),
        )


def _extent(
    overall: Estimate | None, size: float, variance: float, balance: Balance
) -> Range | None:
    if overall is None:
        return None
    reach = ROOM_FOR_ERROR * sqrt(variance) + LOOSE_ROOM * overall.mean
    most = max(edge.mean + 2 * sqrt(edge.variance) for edge in balance.edges)
    return max(0.0, size - most - reach), max(0.0, size + reach)


def assemble(measures: Measures) -> tuple[tuple[Parts, Margin], ...]:
    """Every plan that the record allows and the block's readings do not rule out, with its parts.

    Kept between the ways of taking one record, which mostly leave the parts as they are.
    """
    return _assemble(
        measures.block_width,
        measures.block_length,
        measures.sash,
        measures.borders,
        measures.sashing,
        measures.setting,
    )


@lru_cache(maxsize=64)
def _assemble(
    width: Estimate | None,
    length: Estimate | None,
    sash: Estimate | None,
    borders: tuple[BorderEstimate, ...] | None,
    sashing: Presence,
    setting: Setting | None,
) -> tuple[tuple[Parts, Margin], ...]:
    strip = sash_width(sash)
    found = [
        (_of_plan(plan, margin, view_block(width, length, plan.shape), strip), margin)
        for plan in PLANS
        if _allowed(plan, sashing, setting)
        for margin in margins(borders)
        if not (plan.floats and margin.free)
    ]
    best = max((parts.evidence for parts, _ in found), default=0.0)
    return tuple(pair for pair in found if pair[0].evidence > best - RULED_OUT)


def _allowed(plan: Plan, sashing: Presence, setting: Setting | None) -> bool:
    """Whether setting and sashing as recorded allow a plan.

    A setting that was named goes before the sashing: bars have no strips between blocks, a strippy
    has them, whatever is recorded.
    """
    if setting is not None:
        if plan.setting != setting:
            return False
        if setting not in EITHER_WAY:
            return True
    if sashing is Presence.PRESENT:
        return plan.sashed
    return not (plan.sashed and sashing is Presence.ABSENT)


def _of_plan(plan: Plan, margin: Margin, view: BlockView, strip: Mixture | None) -> Parts:
    oblong = plan.shape in (Shape.RECTANGLE, Shape.BAR)
    down_prior = _down_prior(plan, view)
    free: Part | None = None
    if plan.floats:
        free = part(None, FLOAT_WIDTHS)
    elif margin.free:
        free = part(None, BORDER_WIDTHS)
    return Parts(
        plan,
        part(view.width, BLOCK_SIZES[plan.setting]),
        part(view.length, down_prior) if oblong else None,
        part(strip, strips(plan.setting)) if plan.sashed else None,
        free,
        (2.0, 2.0) if plan.floats else margin.free or (0.0, 0.0),
        view.evidence,
        _suits(plan, view, down_prior, strip),
    )


def _down_prior(plan: Plan, view: BlockView) -> SizePrior:
    """How long a block is that is as wide as it is."""
    if plan.shape is Shape.BAR:
        return BAR_LENGTHS
    return SizePrior(view.centre or BLOCK_SIZES[plan.setting].median, ASPECT_SPREAD)


def _suits(plan: Plan, view: BlockView, down: SizePrior, strip: Mixture | None) -> float:
    """The logarithm of how well the readings suit the plan's shape and its usual sizes."""
    total = view.evidence
    if view.width is not None:
        total += BLOCK_SIZES[plan.setting].log_envelope(view.width.mean)
    if view.length is not None:
        total += down.log_envelope(view.length.mean)
    if plan.sashed and strip is not None:
        total += strip.evidence + strips(plan.setting).log_envelope(strip.mean)
    return total


def log_size(size: float) -> float:
    """The logarithm of the density of an overall size among quilts, per inch."""
    bed = OVERALL_SIZES.log_envelope(size) + log(1 - SMALL_SHARE)
    small = SMALL_SIZES.log_envelope(size) + log(SMALL_SHARE)
    beyond = max(0.0, size - LARGEST) / LARGEST_SPREAD
    return max(bed, small) - min(0.5 * beyond * beyond, 12.0)


def log_pitch(pitch: float) -> float:
    """How many overall sizes a setting of this pitch leaves out between two counts, as a log."""
    return log(max(pitch, 0.05))
