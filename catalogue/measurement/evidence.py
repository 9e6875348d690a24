"""How well the overall size agrees with one candidate layout, all readings weighed jointly.

The overall width and length are linear in the sizes of the parts, and every part enters both
axes: so a block read 1/16 in large moves both alike. Parts are Gaussian components, the parts not
measured are integrated out against their priors, in closed form over the two axes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, pi, sqrt
from typing import Final, NamedTuple

from catalogue.measurement.sizes import Component, SizePrior

# Work that is plainly less exact than drafted: how often, how much overall falls short of the sum
# of the parts (quilting and binding take up 2.2 to 3.6 %), and how uneven the sides are. Antique
# overall sizes miss the sum of their parts by 0 to 1.5 in, sometimes 5: see the rows with a
# remark in tests/published/worked_examples.csv.
LOOSE_SHARE: Final = 0.01
TAKE_UP: Final = 0.012
TAKE_UP_SPREAD: Final = 0.018
UNEVENNESS: Final = 1.1
LOOSER: Final = 0.2  # share of loose work with LOOSER_TIMES the variance
LOOSER_TIMES: Final = 5.0

EXACT_MISFIT: Final = 0.08  # standard deviation in inches of careful work about its parts
FAR: Final = 28.0  # squared standard deviations of loose work
NEGLIGIBLE: Final = 1e-4  # of the density found so far
MOST_DENSE: Final = 10.0  # per inch, more than any prior of a size
MOST_STEPS: Final = 60
UNMEASURED: Final = 1e8  # variance of an axis nobody measured

Covariance = tuple[float, float, float]  # variance across, covariance, variance down


class Latent(NamedTuple):
    """A size to be weighed: how often it lies along each axis, and its components or its prior."""

    across: float
    down: float
    components: tuple[Component, ...] | None
    mean: float
    variance: float
    prior: SizePrior


class Edge(NamedTuple):
    """One way the outer edge may add to both axes alike: how likely, by how much, what it means.

    `kind` is "flush", "raw" (the raw-edge allowance), "outside" (binding beyond the border) or
    "within" (binding inside the quoted border).
    """

    share: float
    mean: float
    variance: float
    kind: str


@dataclass(frozen=True, slots=True)
class Balance:
    """Measured overall size less what is known for certain, and the variance of that.

    `edge` is the mean and the variance of all edges together. `loose` is the shift and
    `loose_covariance` the covariance that loose work adds.
    """

    across: float
    down: float
    covariance: Covariance
    edges: tuple[Edge, ...]
    edge: tuple[float, float]
    loose: tuple[float, float]
    loose_covariance: Covariance


def edge_together(edges: Sequence[Edge]) -> tuple[float, float]:
    """Mean and variance of what the edge adds, whichever it is."""
    mean = sum(edge.share * edge.mean for edge in edges)
    return mean, sum(edge.share * (edge.variance + (edge.mean - mean) ** 2) for edge in edges)


def looseness(
    width: float, length: float, edges: Sequence[Edge]
) -> tuple[tuple[float, float], Covariance]:
    """What loose work takes off an overall size, and how uncertainly."""
    edge, other = edge_together(edges)
    taken, uneven = TAKE_UP_SPREAD**2, UNEVENNESS**2
    covariance = (
        taken * width * width + uneven + other,
        taken * width * length + other,
        taken * length * length + uneven + other,
    )
    return (TAKE_UP * width - edge, TAKE_UP * length - edge), covariance


@dataclass(frozen=True, slots=True)
class Weighed:
    """The density of the overall size under one candidate: as exact and as loose work.

    `edge` is the index of the likeliest edge and `edge_share` its probability among the edges;
    `peak` the logarithm of the density were the overall size to agree perfectly.
    """

    exact: float
    loose: float
    edge: int
    edge_share: float
    peak: float

    @property
    def loose_share(self) -> float:
        """The probability that the work is looser than drafted, were this the layout."""
        loose = LOOSE_SHARE * self.loose
        return loose / ((1 - LOOSE_SHARE) * self.exact + loose + 1e-300)

    @property
    def log_total(self) -> float:
        """The logarithm of both together, each by its share."""
        return log((1 - LOOSE_SHARE) * self.exact + LOOSE_SHARE * self.loose + 1e-300)


def gauss(across: float, down: float, covariance: Covariance) -> float:
    """The density of a bivariate Gaussian of mean 0."""
    v11, v12, v22 = covariance
    determinant = v11 * v22 - v12 * v12
    power = (v22 * across * across - 2 * v12 * across * down + v11 * down * down) / determinant
    return exp(-0.5 * power) / (2 * pi * sqrt(determinant)) if power < 1400 else 0.0


Load = tuple[float, float, float, float]  # times across, times down, mean, variance


def roughly(balance: Balance, loads: Sequence[Load]) -> Weighed | None:
    """The density with every part as one Gaussian; None where the sizes are far out of reach."""
    across, down = balance.across, balance.down
    v11, v12, v22 = balance.covariance
    for a, b, mean, variance in loads:
        across -= a * mean
        down -= b * mean
        v11 += a * a * variance
        v12 += a * b * variance
        v22 += b * b * variance
    l11, l12, l22 = balance.loose_covariance
    off_across, off_down = across + balance.loose[0], down + balance.loose[1]
    if off_across * off_across > FAR * (v11 + l11) or off_down * off_down > FAR * (v22 + l22):
        return None
    loose = (1 - LOOSER) * gauss(off_across, off_down, (v11 + l11, v12 + l12, v22 + l22))
    l11, l12, l22 = LOOSER_TIMES * l11, LOOSER_TIMES * l12, LOOSER_TIMES * l22
    loose += LOOSER * gauss(off_across, off_down, (v11 + l11, v12 + l12, v22 + l22))
    best, total, edge = 0.0, 0.0, 0
    for index, (share, mean, variance, _) in enumerate(balance.edges):
        spread = (v11 + variance, v12 + variance, v22 + variance)
        density = share * gauss(across - mean, down - mean, spread)
        total += density
        if density > best:
            best, edge = density, index
    peak = -log(2 * pi) - 0.5 * log(v11 * v22 - v12 * v12)
    return Weighed(total, loose, edge, best / total if total else 0.0, peak)


def one_way(left: float, variance: float, loose_left: float, loose_variance: float) -> float:
    """The logarithm of the density along one axis alone, against that of perfect agreement."""
    exact = exp(-0.5 * left * left / variance)
    spread = variance + loose_variance
    loose = exp(-0.5 * loose_left * loose_left / spread) * sqrt(variance / spread)
    return log((1 - LOOSE_SHARE) * exact + LOOSE_SHARE * loose + 1e-300)


def closely(balance: Balance, latents: Sequence[Latent], rough: Weighed) -> Weighed:
    """The density with every component of every part, parts not measured against their priors."""
    known = [latent for latent in latents if latent.components is not None]
    free = [latent for latent in latents if latent.components is None]
    while len(free) > 1:
        known.append(_gridded(free.pop(0), balance, latents))
    terms = _mixed(balance, known)
    totals = [0.0] * len(balance.edges)
    for index, (share, mean, variance, _) in enumerate(balance.edges):
        for weight, across, down, v11, v12, v22 in terms:
            spread = (v11 + variance, v12 + variance, v22 + variance)
            if free:
                least = NEGLIGIBLE * totals[index] / (weight * share)
                density = _solved(free[0], across - mean, down - mean, spread, least)
            else:
                density = gauss(across - mean, down - mean, spread)
            totals[index] += share * weight * density
    total, best = sum(totals), max(totals)
    return Weighed(
        total, rough.loose, totals.index(best), best / total if total else 0.0, rough.peak
    )


Term = tuple[float, float, float, float, float, float]


def _mixed(balance: Balance, known: Sequence[Latent]) -> list[Term]:
    """Every combination of components: weight, what is left on both axes, covariance."""
    terms: list[Term] = [(1.0, balance.across, balance.down, *balance.covariance)]
    for latent in known:
        a, b = latent.across, latent.down
        if not (a or b):
            continue
        terms = [
            (
                weight * w,
                across - a * mean,
                down - b * mean,
                v11 + a * a * variance,
                v12 + a * b * variance,
                v22 + b * b * variance,
            )
            for weight, across, down, v11, v12, v22 in terms
            for w, mean, variance in latent.components or ()
            if weight * w > 1e-5
        ]
    return terms


def _solved(
    free: Latent, across: float, down: float, covariance: Covariance, least: float
) -> float:
    """The density with one part solved for from both axes, and weighed against its prior.

    Densities that cannot reach `least` are not worked out and come back as 0.
    """
    v11, v12, v22 = covariance
    a, b = free.across, free.down
    determinant = v11 * v22 - v12 * v12
    precision = (v22 * a * a - 2 * v12 * a * b + v11 * b * b) / determinant
    if precision < 1e-9:
        return gauss(across, down, covariance)
    pull = (v22 * a * across - v12 * (a * down + b * across) + v11 * b * down) / determinant
    size = pull / precision
    left = gauss(across - a * size, down - b * size, covariance) * sqrt(2 * pi / precision)
    if left * MOST_DENSE < least or left == 0.0:
        return 0.0
    return left * free.prior.density(size, 1 / precision)


def _gridded(free: Latent, balance: Balance, latents: Sequence[Latent]) -> Latent:
    """A part not measured as components on every quarter or half inch that the sizes allow.

    The sizes allow what lies within four standard errors of the part's own least-squares value.
    """
    prior = free.prior
    step = 0.25 if prior.median < 4 else 0.5
    value, error = _estimated(free, balance, latents)
    first = max(1, int((value - 4 * error) / step))
    last = min(int((value + 4 * error) / step) + 1, first + MOST_STEPS)
    sizes = [step * n for n in range(first, last + 1)]
    weights = [prior.density(size, 1e-4) for size in sizes]
    # Round sizes hold more than their share of what the envelope allows each step.
    held = step * sum(exp(prior.log_envelope(size)) for size in sizes) / (sum(weights) or 1.0)
    variance = (step / 4) ** 2
    components = tuple(
        (weight * held, size, variance) for weight, size in zip(weights, sizes, strict=True)
    )
    return free._replace(components=components)


def _estimated(free: Latent, balance: Balance, latents: Sequence[Latent]) -> tuple[float, float]:
    """A part's value by least squares from both axes, every part one Gaussian; standard error."""
    edge, variance = balance.edge
    across, down = balance.across - edge, balance.down - edge
    v11, v12, v22 = (value + variance for value in balance.covariance)
    for latent in latents:
        across -= latent.across * latent.mean
        down -= latent.down * latent.mean
        v11 += latent.across**2 * latent.variance
        v12 += latent.across * latent.down * latent.variance
        v22 += latent.down**2 * latent.variance
    determinant = v11 * v22 - v12 * v12
    a, b = free.across * free.variance, free.down * free.variance
    moved = (a * (v22 * across - v12 * down) + b * (v11 * down - v12 * across)) / determinant
    gained = (v22 * a * a - 2 * v12 * a * b + v11 * b * b) / determinant
    return free.mean + moved, sqrt(max(1e-4, free.variance - gained))
