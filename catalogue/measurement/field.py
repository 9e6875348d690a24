"""What stands around and inside the blocks, as Gaussian parts of the overall size.

The overall size is blocks + sashing + borders + edge. Each part measured becomes a few Gaussian
components, each part not measured a latent size with a prior of its own.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import log, pi
from typing import Final

from catalogue.measurement.estimates import BorderEstimate, Estimate, Measures
from catalogue.measurement.evidence import Edge
from catalogue.measurement.layouts import Setting
from catalogue.measurement.readings import Presence
from catalogue.measurement.settings import ROOT_3, Shape
from catalogue.measurement.sizes import Mixture, SizePrior

# Sizes as one meets them; medians and spreads are judgement (common practice, no source).
BLOCK_SIZES: Final[dict[Setting, SizePrior]] = {
    "straight": SizePrior(9.0, 0.5),
    "on point": SizePrior(8.5, 0.5),
    "strippy": SizePrior(7.5, 0.5),
    "zigzag": SizePrior(7.0, 0.5),
    "bars": SizePrior(6.0, 0.6),
    "medallion": SizePrior(20.0, 0.5),
    "one-patch": SizePrior(2.5, 0.3),
    "hexagon": SizePrior(3.0, 0.6),
}
BAR_LENGTHS: Final = SizePrior(55.0, 0.45)
SASH_WIDTHS: Final = SizePrior(2.2, 0.6)
STRIP_WIDTHS: Final = SizePrior(3.5, 0.6)  # between the columns of a strippy
BORDER_WIDTHS: Final = SizePrior(5.0, 0.75)
FLOAT_WIDTHS: Final = SizePrior(0.8, 0.7, slack=0.5)
BINDING_WIDTHS: Final = SizePrior(0.4, 0.6)
BINDING_WIDTH: Final = Estimate(0.4, 0.04, 0)

# How far the blocks that were measured may stand off the mean of all blocks, relative.
DISCREPANCY: Final = 0.004
SQUARENESS: Final = 0.004
BORDER_UNRECORDED: Final = 0.5
RAW_EDGE: Final = 0.5


@dataclass(frozen=True, slots=True)
class Margin:
    """All borders together: what they add across and down, and the one left to solve for.

    `free` is how often an unmeasured border lies along each axis, None where all are measured.
    `evidence` is the logarithm of the density of the measured widths among borders.
    """

    share: float
    across: float = 0.0
    down: float = 0.0
    variance: tuple[float, float, float] = (0.0, 0.0, 0.0)
    free: tuple[float, float] | None = None
    evidence: float = 0.0


@dataclass(frozen=True, slots=True)
class BlockView:
    """The block read as one shape: the evidence for that shape, and its size.

    `width` and `length` are None where that side was not measured; for squares and hexagons one
    size serves both axes and `length` is None. `evidence` leaves the prior of the setting out.
    """

    evidence: float
    width: Mixture | None
    length: Mixture | None
    centre: float | None


@lru_cache(maxsize=128)
def margins(borders: tuple[BorderEstimate, ...] | None) -> tuple[Margin, ...]:
    """What the borders may add: as recorded, or none or one where nothing is recorded."""
    if borders is None:
        return (
            Margin(1 - BORDER_UNRECORDED),
            Margin(BORDER_UNRECORDED, free=(2.0, 2.0)),
        )
    across = down = v11 = v12 = v22 = evidence = 0.0
    free: tuple[float, float] | None = None
    for border in borders:
        if border.width is None and free is None:
            free = (float(border.across), float(border.down))
            continue
        mean, variance, likely = _border(border.width)
        evidence += likely
        across += border.across * mean
        down += border.down * mean
        v11 += border.across**2 * variance
        v12 += border.across * border.down * variance
        v22 += border.down**2 * variance
    return (Margin(1.0, across, down, (v11, v12, v22), free, evidence),)


def _border(width: Estimate | None) -> tuple[float, float, float]:
    """Mean and variance of a border's width from its readings, and their evidence; or as usual."""
    if width is None:
        return BORDER_WIDTHS.median, (BORDER_WIDTHS.median * BORDER_WIDTHS.spread) ** 2, 0.0
    found = BORDER_WIDTHS.sharpened(width.mean, width.variance)
    return found.mean, found.variance, found.evidence + BORDER_WIDTHS.log_envelope(width.mean)


def edges_of(measures: Measures) -> tuple[Edge, ...]:
    """What the outer edge may add to the sum of the parts, likelier ways with the larger share."""
    if measures.edge == "raw":
        return Edge(0.93, RAW_EDGE, 0.0, "raw"), Edge(0.07, 0.0, 0.0, "flush")
    if measures.binding is Presence.PRESENT:
        return _bound(measures)
    if measures.binding is Presence.ABSENT:
        raw = 0.03 if measures.edge == "bound" else 0.12
        return Edge(1 - raw, 0.0, 0.0, "flush"), Edge(raw, RAW_EDGE, 0.0, "raw")
    return (
        Edge(0.55, 0.0, 0.0, "flush"),
        Edge(0.33, RAW_EDGE, 0.0, "raw"),
        Edge(0.12, 0.6, 0.16, "outside"),
    )


def _bound(measures: Measures) -> tuple[Edge, ...]:
    width = measures.binding_width or BINDING_WIDTH
    outside, variance = 2 * width.mean, 4 * width.variance
    share = {True: 0.08, False: 0.92, None: 0.5 if measures.borders else 0.85}
    beyond = share[measures.within_border]
    return (
        Edge(beyond, outside, variance, "outside"),
        Edge(1 - beyond, 0.0, 0.0, "within"),
    )


def strips(setting: Setting) -> SizePrior:
    """How wide the strips of a setting are."""
    return STRIP_WIDTHS if setting == "strippy" else SASH_WIDTHS


def sash_width(sash: Estimate | None) -> Mixture | None:
    """The sash width, None where it was not measured; the prior of the setting is left out."""
    return SASH_WIDTHS.sharpened(sash.mean, sash.variance) if sash else None


@lru_cache(maxsize=256)
def view_block(width: Estimate | None, length: Estimate | None, shape: Shape) -> BlockView:
    """The block's readings taken as `shape`."""
    if shape in (Shape.RECTANGLE, Shape.BAR):
        return _view_oblong(width, length)
    return _view_alike(width, length, ROOT_3 / 2 if shape is Shape.HEXAGON else 1.0)


def _view_alike(width: Estimate | None, length: Estimate | None, ratio: float) -> BlockView:
    """A shape whose length is `ratio` times its width, from either or both."""
    if width is None and length is None:
        return BlockView(0.0, None, None, None)
    evidence = 0.0
    if length is None:
        assert width is not None
        mean, variance = width.mean, width.variance
    elif width is None:
        mean, variance = length.mean / ratio, length.variance / ratio**2
        evidence = -log(ratio)
    else:
        evidence = _log_normal(
            length.mean - ratio * width.mean,
            length.variance + ratio**2 * width.variance + (SQUARENESS * length.mean) ** 2,
        )
        precision = 1 / width.variance + ratio**2 / length.variance
        mean = (width.mean / width.variance + ratio * length.mean / length.variance) / precision
        variance = 1 / precision
    return _sharpened(evidence, mean, variance)


def _sharpened(evidence: float, mean: float, variance: float) -> BlockView:
    prior = BLOCK_SIZES["straight"]
    size = prior.sharpened(mean, variance + (DISCREPANCY * mean) ** 2)
    return BlockView(evidence + size.evidence, size, None, mean)


def _view_oblong(width: Estimate | None, length: Estimate | None) -> BlockView:
    """A shape whose two sides have nothing to do with one another."""
    evidence = 0.0
    sides: list[Mixture | None] = []
    for side in (width, length):
        if side is None:
            sides.append(None)
            continue
        view = _sharpened(evidence, side.mean, side.variance)
        evidence = view.evidence
        sides.append(view.width)
    centre = width.mean if width else None
    return BlockView(evidence, sides[0], sides[1], centre)


def _log_normal(off: float, variance: float) -> float:
    return -0.5 * off * off / variance - 0.5 * log(2 * pi * variance)
