"""Whether a pieced border fits the centre it goes round, and the coping strips if it does not.

A coping strip widens the centre to the next length that whole units make: (pieced border - centre)
/ 2 on each side (from memory).
"""

from dataclasses import dataclass
from math import ceil, floor, isfinite
from typing import Final, Literal

from catalogue.values.lengths import format_inches

EASE: Final = 1 / 32
"""Inches a border may be eased or stretched at each unit's seam (common practice, no source)."""

NARROWEST: Final = 1 / 2
"""The narrowest coping strip worth sewing, finished (common practice, no source); where it would
come narrower, one more unit is taken."""

Corners = Literal["squares", "butted"]


class BorderFitError(ValueError):
    """No border can be fitted to these sizes; the message says which size and why."""


@dataclass(frozen=True, slots=True)
class SideFit:
    """One pair of opposite sides: units along each, the strip beside each, what easing takes up.

    `coping` is the width of the strip along each of the two sides that lie across this direction,
    0 where the units fit; `eased` is units minus centre where they fit, else 0. Inches.
    """

    units: int
    coping: float
    eased: float


@dataclass(frozen=True, slots=True)
class BorderFit:
    """Whether units of one size go round the centre, with the strips needed and the grounds.

    `across` counts units along top and bottom, and its coping strips stand left and right;
    `down` counts units along the sides, and its strips lie at top and bottom. `unit_that_fits` are
    the sizes nearest to the unit, across and down, that would need no strip.
    """

    fits: bool
    across: SideFit
    down: SideFit
    unit_that_fits: tuple[float, float]
    grounds: str

    @property
    def even(self) -> bool:
        """Whether one width of coping strip serves all four sides."""
        return abs(self.across.coping - self.down.coping) < EASE


def fit_border(
    width: float,
    length: float,
    unit: float,
    *,
    border: float | None = None,
    corners: Corners = "squares",
    even: bool = False,
) -> BorderFit:
    """How a border of `unit` inch units goes round a centre of `width` by `length` inches.

    With corner squares the units run along the centre alone; butted, those at top and bottom also
    run over the side borders, `border` inches wide (as wide as the unit unless given). `even` asks
    for one width of coping strip on all sides where whole units allow it. All sizes are finished.
    Raises BorderFitError for sizes that are not positive or units too many to piece.
    """
    over = 2 * (unit if border is None else border) if corners == "butted" else 0.0
    _require(width, length, unit, over)
    across, down = _side(width + over, unit), _side(length, unit)
    if even and (across.coping or down.coping):
        across, down = _evened(width + over, length, unit, across, down)
    fits = not across.coping and not down.coping
    nearest = _unit_that_fits(width + over, unit), _unit_that_fits(length, unit)
    return BorderFit(fits, across, down, nearest, _grounds(across, down, unit, fits))


def _side(side: float, unit: float) -> SideFit:
    nearest = max(1, round(side / unit))
    off = nearest * unit - side
    if abs(off) <= EASE * nearest:
        return SideFit(nearest, 0.0, off)
    units = ceil((side + 2 * NARROWEST) / unit - 1e-9)
    return SideFit(units, (units * unit - side) / 2, 0.0)


def _evened(
    across: float, down: float, unit: float, first: SideFit, second: SideFit
) -> tuple[SideFit, SideFit]:
    """Add units to the side that needs less until both strips are alike, if they can be."""
    gap = (down - across) / unit
    if abs(gap - round(gap)) * unit > 2 * EASE:
        return first, second
    units = max(ceil(across / unit - 1e-9), ceil(down / unit - 1e-9) - round(gap))
    other = units + round(gap)
    coping = ((units * unit - across) + (other * unit - down)) / 4
    if coping < NARROWEST:
        coping, units, other = coping + unit / 2, units + 1, other + 1
    return SideFit(units, coping, 0.0), SideFit(other, coping, 0.0)


def _unit_that_fits(side: float, unit: float) -> float:
    counts = {max(1, floor(side / unit)), ceil(side / unit)}
    return min((side / count for count in counts), key=lambda size: abs(size - unit))


def _grounds(across: SideFit, down: SideFit, unit: float, fits: bool) -> str:
    counted = f"{across.units} units of {unit:g} in across and {down.units} down"
    if fits:
        eased = max(abs(across.eased), abs(down.eased))
        taken = f", easing {format_inches(eased, 16)} in a side" if eased > EASE else ""
        return f"{counted} go round the centre{taken}."
    sideways, upright = (format_inches(side.coping, 16) for side in (across, down))
    strips = f"{sideways} in left and right, {upright} in at top and bottom"
    if abs(across.coping - down.coping) < EASE:
        strips = f"{sideways} in on every side"
    return f"{counted} need coping strips: {strips}."


def _require(width: float, length: float, unit: float, over: float) -> None:
    for size in (width, length, unit):
        if not isfinite(size) or size <= 0:
            raise BorderFitError(f"{size} in is not the size of a centre or a border unit.")
    if not isfinite(over) or over < 0:
        raise BorderFitError(f"{over / 2} in is not the width of a border.")
    if max(width, length) / unit > 10_000:
        raise BorderFitError(f"A border of {unit} in units is too fine to piece.")
