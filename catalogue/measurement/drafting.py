"""The grid a block was drafted on, inferred from the block and the sizes of its patches.

A block belongs to a family by its divisions per side, never by the number of its pieces.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import exp, isfinite, log, pi, sqrt
from typing import Final, Literal

PatchesAre = Literal["finished", "cut"]

FAMILIES: Final = {
    "four-patch": (2, 4, 8),
    "nine-patch": (3, 6, 12),
    "five-patch": (5, 10),
    "seven-patch": (7, 14),
}
"""Divisions per side of each family, as published in histories of block drafting."""

EIGHT_POINT_STAR: Final = "eight-point star"

_FAMILY_OF = {n: family for family, divisions in FAMILIES.items() for n in divisions}
# Judgement (common practice, no source): coarse grids before fine ones, four- and nine-patch first.
_GRID_SHARES = {
    2: 0.07,
    3: 0.2,
    4: 0.27,
    5: 0.09,
    6: 0.1,
    7: 0.05,
    8: 0.06,
    9: 0.01,
    10: 0.02,
    12: 0.02,
    14: 0.005,
    16: 0.005,
}
_STAR_SHARE = 0.04
_OFF_SHARE = 0.06
_DIAGONAL_SHARE = 0.12
_STAR_RATIOS = (1 / (2 + sqrt(2)), sqrt(2) / (2 + sqrt(2)))

TAPE: Final = 0.04
"""Standard deviation in inches of a patch read to the nearest eighth: an eighth over root 12,
rounded up."""
DRIFT: Final = 0.012
"""Relative scatter of a patch against its draft; single antique blocks vary by up to 3 %, taken
here as two and a half standard deviations."""


class DraftingError(ValueError):
    """The sizes cannot be a block and its patches; the message says which."""


@dataclass(frozen=True, slots=True)
class Draft:
    """One way the block may have been drafted: divisions per side, family, certainty.

    `divisions` is None off the grid and for the eight-point star; `unit` is one division in inches.
    """

    divisions: int | None
    family: str | None
    unit: float | None
    patches_are: PatchesAre
    certainty: float


@dataclass(frozen=True, slots=True)
class Drafting:
    """The likeliest draft with its certainty, why, and the other drafts from likely to unlikely."""

    best: Draft
    grounds: str
    others: tuple[Draft, ...]

    @property
    def certainty(self) -> float:
        """How probable the best draft is among those considered."""
        return self.best.certainty

    @property
    def family_certainty(self) -> float:
        """How probable the family of the best draft is, whatever its divisions."""
        if self.best.family is None:
            return self.best.certainty
        drafts = (self.best, *self.others)
        return sum(draft.certainty for draft in drafts if draft.family == self.best.family)


def infer_drafting(
    block: float,
    patches: Sequence[float],
    *,
    patches_are: PatchesAre | None = None,
    seam: float = 0.25,
) -> Drafting:
    """The divisions per side and drafting family that the patch sizes mean.

    `block` is the finished side and `patches` are sides of its patches, in inches: squares, short
    sides of triangles, or pieces set diagonally on the grid. `patches_are` says whether seams are
    on them; None leaves that open. Raises DraftingError where there is no patch, or a size is not
    positive or a patch is no smaller than its block.
    """
    _require_sizes(block, patches)
    hypotheses = _hypotheses(block, patches, patches_are, seam)
    total = sum(weight for _, weight in hypotheses)
    if total <= 0:
        raise DraftingError("The patches are smaller than their own seams.")
    drafts = sorted(
        (_certain(draft, weight / total) for draft, weight in hypotheses),
        key=lambda draft: -draft.certainty,
    )
    best = drafts[0]
    others = tuple(draft for draft in drafts[1:] if draft.certainty >= 0.01)
    return Drafting(best, _grounds(best, block, patches, seam), others)


def _hypotheses(
    block: float, patches: Sequence[float], patches_are: PatchesAre | None, seam: float
) -> list[tuple[Draft, float]]:
    """Every draft with its prior share times how well it explains the patches."""
    readings: tuple[tuple[PatchesAre, float], ...] = (("finished", 0.0), ("cut", 2 * seam))
    open_shares = {"finished": 0.75, "cut": 0.25}
    found: list[tuple[Draft, float]] = []
    for (state, off), divisions in product(readings, (*_GRID_SHARES, EIGHT_POINT_STAR, None)):
        if patches_are not in (None, state):
            continue
        share = 1.0 if patches_are else open_shares[state]
        finished = [patch - off for patch in patches]
        if min(finished) > 0:
            draft, weight = _hypothesis(block, finished, divisions, state)
            found.append((draft, share * weight))
    return found


def _hypothesis(
    block: float, finished: list[float], divisions: int | str | None, state: PatchesAre
) -> tuple[Draft, float]:
    if isinstance(divisions, int):
        unit = block / divisions
        likely = [_on_grid(patch, block, divisions) for patch in finished]
        draft = Draft(divisions, _FAMILY_OF.get(divisions), unit, state, 0)
        return draft, _product(likely) * _GRID_SHARES[divisions]
    if divisions == EIGHT_POINT_STAR:
        ratios = [(block * ratio, 1 / len(_STAR_RATIOS)) for ratio in _STAR_RATIOS]
        likely = [_density(patch, ratios) for patch in finished]
        return Draft(None, EIGHT_POINT_STAR, None, state, 0), _product(likely) * _STAR_SHARE
    return Draft(None, None, None, state, 0), block ** -len(finished) * _OFF_SHARE


def _on_grid(patch: float, block: float, divisions: int) -> float:
    """Density of the patch on the grid: small whole counts likelier, some set diagonally."""
    unit = block / divisions
    scale = 1 / (1 - 2.0 ** (1 - divisions))
    expected: list[tuple[float, float]] = []
    for count in range(1, divisions):
        weight = scale * 2.0**-count
        expected.append((unit * count, weight * (1 - _DIAGONAL_SHARE)))
        expected.append((unit * count / sqrt(2), weight * _DIAGONAL_SHARE))
    return _density(patch, expected)


def _density(patch: float, expected: list[tuple[float, float]]) -> float:
    total = 0.0
    for size, weight in expected:
        spread = sqrt(TAPE**2 + (DRIFT * size) ** 2)
        off = (patch - size) / spread
        if abs(off) < 8:
            total += weight * exp(-off * off / 2) / (spread * sqrt(2 * pi))
    return total


def _product(likely: list[float]) -> float:
    return exp(sum(log(one) for one in likely)) if min(likely) > 0 else 0.0


def _certain(draft: Draft, certainty: float) -> Draft:
    return Draft(draft.divisions, draft.family, draft.unit, draft.patches_are, certainty)


def _grounds(best: Draft, block: float, patches: Sequence[float], seam: float) -> str:
    off = 2 * seam if best.patches_are == "cut" else 0
    finished = [patch - off for patch in patches]
    sizes = "patches of " + " and ".join(f"{size:g} in" for size in finished)
    if off:
        sizes += f" ({off:g} in taken off for seams)"
    if best.family == EIGHT_POINT_STAR:
        return (
            f"In a {block:g} in block, {sizes} have the proportions of the eight-point star, whose"
            " side is 3.41 times that of its diamonds."
        )
    if best.divisions is None or best.unit is None:
        return f"In a {block:g} in block, {sizes} are no even part of the side."
    counts = " and ".join(_in_units(size / best.unit) for size in finished)
    divided = f"In {best.divisions} divisions a side, a {block:g} in block has units of"
    return f"{divided} {best.unit:.3g} in; {sizes} are {counts}."


def _in_units(ratio: float) -> str:
    straight, diagonal = round(ratio), round(ratio * sqrt(2))
    off_straight, off_diagonal = abs(ratio - straight), abs(ratio - diagonal / sqrt(2))
    if not diagonal or (straight and off_straight <= off_diagonal):
        return f"{straight} unit{'s' if straight != 1 else ''}"
    return f"half the diagonal of {diagonal} unit{'s' if diagonal != 1 else ''}"


def _require_sizes(block: float, patches: Sequence[float]) -> None:
    if not patches:
        raise DraftingError("At least one patch must be measured to tell the draft of a block.")
    for size in (block, *patches):
        if not isfinite(size) or size <= 0:
            raise DraftingError(f"{size} in is not the size of a block or a patch.")
    if max(patches) >= block:
        raise DraftingError(f"A patch of {max(patches):g} in is no smaller than its block.")
