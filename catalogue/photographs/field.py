"""Where the blocks are: the field inside the borders, and the seams that run its whole length."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise, product

import numpy as np
import numpy.typing as npt

from catalogue.photographs.colour_space import Floats
from catalogue.photographs.lattice import MARGIN, Lattice
from catalogue.photographs.surface import Surface

Wholes = npt.NDArray[np.intp]

_FOLDS = 64  # parts into which a period is cut
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
    """The box in which the picture does what its own repeat foretells; borders do not."""
    values = surface.seams if lattice.seams_alone else _weighed(surface)
    box = Extent(
        MARGIN * surface.width,
        (1 - MARGIN) * surface.width,
        MARGIN * surface.height,
        (1 - MARGIN) * surface.height,
    )
    for _ in range(3):  # what counts across depends on where the field ends, and the other way
        foretold = _foretold(values, lattice.period, box)
        rows = slice(round(box.top), round(box.bottom))
        columns = slice(round(box.left), round(box.right))
        left, right = _followed(values[rows], foretold[rows])
        top, bottom = _followed(
            values[:, columns].transpose(1, 0, 2), foretold[:, columns].transpose(1, 0, 2)
        )
        box = Extent(left, right, top, bottom)
    return box


def _weighed(surface: Surface) -> Floats:
    """Lightness, hue and seams side by side, each in units of its spread in the middle."""
    top, left = round(MARGIN * surface.height), round(MARGIN * surface.width)
    groups = []
    for group in (surface.colour[..., :1], surface.colour[..., 1:], surface.seams):
        middle = group[top:-top, left:-left]
        groups.append(group / (np.sqrt(middle.var(axis=(0, 1)).sum()) + 1e-6))
    return np.concatenate(groups, axis=-1)


def _foretold(values: Floats, period: tuple[float, float], box: Extent) -> Floats:
    """The mean of what lies a whole number of periods away inside the box, for every pixel."""
    across = phases_of(values.shape[1], period[0], _FOLDS)
    down = phases_of(values.shape[0], period[1], _FOLDS)
    columns, rows = (
        slice(round(box.left), round(box.right)),
        slice(round(box.top), round(box.bottom)),
    )
    folded = np.tensordot(folding(down[rows], _FOLDS), values[rows, columns], (1, 0))
    folded = np.tensordot(folding(across[columns], _FOLDS), folded, (1, 1)).transpose(1, 0, 2)
    foretold: Floats = folded[down[:, None], across[None, :]]
    return foretold


def phases_of(size: int, period: float, phases: int) -> Wholes:
    """The phase of each column, 0 to `phases`, within a repeat of this many pixels."""
    found: Wholes = ((np.arange(size) / period) % 1 * phases).astype(np.intp) % phases
    return found


def folding(phase: Wholes, phases: int) -> Floats:
    """The matrix, shape (phases, columns), that averages columns by phase.

    Phases without a column take their nearest neighbour's.
    """
    belongs = (phase[None, :] == np.arange(phases)[:, None]).astype(np.float32)
    known = np.flatnonzero(belongs.any(axis=1))
    apart = np.abs(np.arange(phases)[:, None] - known[None, :])
    nearest = known[np.argmin(np.minimum(apart, phases - apart), axis=1)]
    belongs = belongs[nearest]
    averaging: Floats = belongs / belongs.sum(axis=1, keepdims=True)
    return averaging


def _followed(values: Floats, foretold: Floats) -> tuple[float, float]:
    """The stretch of columns round the middle that vary as foretold rather than not at all."""
    varying = values - values.mean(axis=0)
    expected = foretold - foretold.mean(axis=0)
    together = (varying * expected).sum(axis=(0, 2))
    alone = (expected**2).sum(axis=(0, 2))
    # Regressed on what is foretold, a column of the field comes to 1 and one of a border to 0.
    # Along the edges of a set on point half is setting triangles, of another cloth than foretold,
    # so that more than a quarter has to do.
    speaks = together - alone / 4
    middle = len(speaks) // 2
    before, after = np.cumsum(speaks[:middle][::-1]), np.cumsum(speaks[middle:])
    first, last = int(np.argmax(before)), int(np.argmax(after))
    return float(middle - 1 - first), float(middle + 1 + last)


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
