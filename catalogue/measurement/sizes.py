"""How likely a size is before anything is measured: near whole, half and quarter inches likelier.

Blocks, strips and borders are drafted in round finished inches, but antique work drifts from its
draft and some was never drafted in inches at all; so every size stays possible.
"""

from dataclasses import dataclass
from math import exp, log, pi, sqrt
from typing import Final, NamedTuple

# (step, offset, share): sizes offset + n x step hold `share` of all sizes; the rest lies anywhere.
# Shares are judgement (common practice, no source): whole inches before halves before quarters.
GRIDS: Final = ((1.0, 0.0, 0.42), (1.0, 0.5, 0.2), (0.5, 0.25, 0.14), (0.25, 0.125, 0.04))
ANYWHERE: Final = 1.0 - sum(share for _, _, share in GRIDS)

ROOT_TAU: Final = sqrt(2 * pi)

Component = tuple[float, float, float]  # weight, mean, variance


class Mixture(NamedTuple):
    """A size as a few Gaussians: mean and variance of all, and the logarithm of its evidence."""

    components: tuple[Component, ...]
    mean: float
    variance: float
    evidence: float


@dataclass(frozen=True, slots=True)
class SizePrior:
    """Sizes of one thing over all quilts: lognormal about `median` inches, rounder sizes likelier.

    `spread` is the standard deviation of the logarithm; `drift` the relative standard deviation of
    the made size about the drafted one; `slack` the same in inches.
    """

    median: float
    spread: float
    drift: float = 0.006
    slack: float = 0.03

    def log_envelope(self, size: float) -> float:
        """The logarithm of the density at `size`, roundness left aside; per inch."""
        size = max(size, 0.05)
        standard = log(size / self.median) / self.spread
        return -0.5 * standard * standard - log(size * self.spread * ROOT_TAU)

    def density(self, size: float, variance: float) -> float:
        """The density at `size` known with `variance`, roundness and all; per inch."""
        if size <= 0.05:
            return 0.0
        return exp(self.log_envelope(size)) * self.roundness(size, variance)

    def roundness(self, size: float, variance: float) -> float:
        """How much likelier than any size `size` is for lying near round ones; 1 on average."""
        spread = sqrt(variance + (self.drift * size) ** 2 + self.slack**2)
        total = ANYWHERE
        for step, offset, share in GRIDS:
            if spread > 0.45 * step:
                total += share
                continue
            off = (size - offset) % step
            off = min(off, step - off) / spread
            other = step / spread - off
            peak = exp(-0.5 * off * off) + exp(-0.5 * other * other)
            total += share * step / (spread * ROOT_TAU) * peak
        return total

    def sharpened(self, mean: float, variance: float) -> Mixture:
        """A measured size sharpened by roundness; evidence is against any size at all."""
        found: list[Component] = [(ANYWHERE, mean, variance)]
        reach = 3.0 * sqrt(variance + (self.drift * mean) ** 2 + self.slack**2)
        for step, offset, share in GRIDS:
            if reach > 2.0 * step:
                found.append((share, mean, variance))
                continue
            first = offset + step * round((mean - reach - offset) / step)
            while first <= mean + reach:
                found.append(self._at(first, share * step, mean, variance))
                first += step
        return _mixture(found)

    def _at(self, drafted: float, mass: float, mean: float, variance: float) -> Component:
        """The component of a size drafted at `drafted` and measured as `mean`."""
        made = (self.drift * drafted) ** 2 + self.slack**2
        total = made + variance
        off = mean - drafted
        weight = mass * exp(-0.5 * off * off / total) / (sqrt(total) * ROOT_TAU)
        return weight, drafted + off * made / total, made * variance / total


def _mixture(found: list[Component]) -> Mixture:
    """Components above 1 % of the whole, like ones merged, weights summing to 1."""
    total = sum(weight for weight, _, _ in found)
    merged: dict[tuple[float, float], float] = {}
    for weight, mean, variance in found:
        if weight > 0.01 * total:
            merged[mean, variance] = merged.get((mean, variance), 0.0) + weight
    kept = sum(merged.values())
    components = tuple((weight / kept, m, v) for (m, v), weight in merged.items())
    centre = sum(weight * m for weight, m, _ in components)
    spread = sum(weight * (v + (m - centre) ** 2) for weight, m, v in components)
    return Mixture(components, centre, spread, log(total))
