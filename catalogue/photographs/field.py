"""Where the blocks are: the field inside the borders, and the seams that run its whole length."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise, product

import numpy as np

from catalogue.photographs.colour_space import Floats
from catalogue.photographs.lattice import MARGIN, Lattice
from catalogue.photographs.surface import Surface

# A move of just these parts of a repeat finds prints alike, but not blocks.
_OFF_THE_REPEAT = (0.62, 0.69, 0.76, 0.83, 1.17, 1.24, 1.31, 1.38)
_ALIVE = 0.1  # of the usual repeating variation: less is a border
_PLAIN_SEAM = 2.0  # colour difference (CIELAB) from which a seam is taken to show


@dataclass(frozen=True)
class Extent:
    """An upright box in pixels of the surface."""

    left: float
    right: float
    top: float
    bottom: float

    def transposed(self) -> Extent:
        return Extent(self.top, self.bottom, self.left, self.right)


@dataclass(frozen=True)
class Run:
    """One axis of the field: where it starts and ends, and how many repeats that makes.

    `misfit` is what is left over or missing of a whole number, `beyond` how far it reaches past
    what is alive, both as shares of one repeat.
    """

    start: float
    end: float
    count: int
    misfit: float
    beyond: float


def find_extent(surface: Surface, lattice: Lattice) -> Extent:
    """The box in which the picture varies at the repeat; borders vary, if at all, at their own."""
    values = _weighed(surface)
    period_across, period_down = lattice.period
    sides = [MARGIN * surface.width, (1 - MARGIN) * surface.width]
    ends = [MARGIN * surface.height, (1 - MARGIN) * surface.height]
    for _ in range(3):  # what counts across depends on where the field ends, and the other way
        across = _repeating(values[round(ends[0]) : round(ends[1])], period_down)
        flipped = values.transpose(1, 0, 2)[round(sides[0]) : round(sides[1])]
        down = _repeating(flipped, period_across)
        sides = _alive(across, sides, lattice.across)
        ends = _alive(down, ends, lattice.down)
    return Extent(sides[0], sides[1], ends[0], ends[1])


def _weighed(surface: Surface) -> Floats:
    """Colours and seams side by side, each group in units of its spread in the middle."""
    top, left = round(MARGIN * surface.height), round(MARGIN * surface.width)
    groups = []
    for group in (surface.colour, surface.seams):
        middle = group[top:-top, left:-left]
        groups.append(group / (middle[..., 0].std() + 1e-6))
    return np.concatenate(groups, axis=-1)


def _repeating(values: Floats, repeat: float) -> Floats:
    """By column: how much it varies in step with the repeat down the picture."""
    varying = values - values.mean(axis=0, keepdims=True)

    def together(shift: float) -> Floats | None:
        lag = round(shift)
        if len(varying) - lag < 8:
            return None
        products: Floats = (varying[lag:] * varying[:-lag]).sum(axis=(0, 2), dtype=np.float32)
        products /= len(varying) - lag
        return products

    in_step = together(repeat)
    if in_step is None:
        in_step = (varying**2).sum(axis=-1).mean(axis=0)
    others = [together(part * repeat) for part in _OFF_THE_REPEAT]
    off = [other for other in others if other is not None]
    if off:
        in_step = in_step - np.maximum(0, np.mean(off, axis=0))
    variance = (varying**2).sum(axis=(0, 2)) / len(varying)
    live: Floats = np.maximum(in_step, 0) + 0.15 * variance
    return live


def _alive(energy: Floats, known: list[float], repeat: float) -> list[float]:
    """From the known part outwards as far as columns are alive, over gaps up to half a repeat."""
    low, high = round(known[0]), round(known[1])
    middle = np.sort(energy[low:high])
    alive = np.flatnonzero(energy > _ALIVE * np.median(middle[len(middle) // 3 :]))
    inside = alive[(alive >= low) & (alive < high)]
    if len(inside) == 0:
        return known
    start, end, gap = inside[0], inside[-1], repeat / 2
    for place in alive[alive < start][::-1]:
        if start - place > gap:
            break
        start = place
    for place in alive[alive > end]:
        if place - end > gap:
            break
        end = place
    return [float(start), float(end + 1)]


def full_seams(colour: Floats, low: float, high: float) -> Floats:
    """By column edge (one more than columns): the colour difference that shows along all of it.

    Measured in ten stretches between rows `low` and `high`; nearly every one has to show it.
    """
    stretches = 10
    cuts = np.linspace(low, high, stretches + 1).astype(int)
    means = [colour[a : max(b, a + 1)].mean(axis=0) for a, b in pairwise(cuts)]
    summed = np.cumsum(np.pad(np.stack(means), ((0, 0), (1, 0), (0, 0))), axis=1)
    width = colour.shape[1]
    places = np.arange(2, width - 1)
    before = (summed[:, places] - summed[:, places - 2]) / 2
    after = (summed[:, np.minimum(places + 2, width)] - summed[:, places]) / 2
    steps = after - before
    mean = steps.mean(axis=0)
    length = np.sqrt((mean**2).sum(axis=-1)) + 1e-6
    along = (steps * mean).sum(axis=-1) / length
    shown = np.zeros(width + 1, np.float32)
    shown[places] = np.maximum(np.sort(along, axis=0)[stretches // 5], 0)
    return shown


def fit_run(low: float, high: float, repeat: float, size: int, seams: Floats) -> Run:
    """The whole number of repeats nearest to what is alive from `low` to `high`.

    A block whose own edge is plain looks like border, so the field may start at a full seam up to
    half a repeat outside, or at the quilt's edge.
    """
    starts = {low: 0.0, **_seams_near(seams, low - 0.45 * repeat, low + 0.12 * repeat)}
    ends = {high: 0.0, **_seams_near(seams, high - 0.12 * repeat, high + 0.45 * repeat)}
    if low < 0.45 * repeat:
        starts.setdefault(0.0, 0.4)
    if size - high < 0.45 * repeat:
        ends.setdefault(float(size), 0.4)
    best: tuple[float, Run] | None = None
    for start, end in product(starts, ends):
        count = max(1, round((end - start) / repeat))
        misfit = abs((end - start) / repeat - count)
        plain = max(0.0, low - start) + max(0.0, end - high)
        lopsided = abs(start - (size - end))
        merit = starts[start] + ends[end] - misfit / (0.04 + 0.01 * count)
        merit -= (2.0 * plain + 0.5 * lopsided) / repeat
        if best is None or merit > best[0]:
            best = merit, Run(start, end, count, misfit, plain / repeat)
    assert best is not None
    return best[1]


def _seams_near(seams: Floats, low: float, high: float) -> dict[float, float]:
    places = range(max(1, int(low)), min(len(seams) - 1, int(high)))
    return {
        float(place): min(float(seams[place]) / 8, 1.0)
        for place in places
        if seams[place] > _PLAIN_SEAM
        and seams[place] >= seams[place - 1]
        and seams[place] > seams[place + 1]
    }
