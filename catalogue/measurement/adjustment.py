"""All readings of one layout adjusted together by least squares.

Every size starts from its own readings (from what is usual, loosely, where it has none) and is then
moved by what overall width and length say of the sum of the parts, each in proportion to its
variance. This is the least-squares solution in closed form, with two conditions.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Final

from catalogue.measurement.estimates import Estimate, Measures
from catalogue.measurement.evidence import UNMEASURED, Edge
from catalogue.measurement.field import (
    BAR_LENGTHS,
    BINDING_WIDTH,
    BLOCK_SIZES,
    BORDER_WIDTHS,
    FLOAT_WIDTHS,
    RAW_EDGE,
    strips,
)
from catalogue.measurement.settings import ROOT_3, Plan, Shape
from catalogue.measurement.sizes import SizePrior

LOOSE: Final = 2.0  # times the usual spread: how far a size not measured may lie from the usual


@dataclass(frozen=True, slots=True)
class Term:
    """One size, how often it lies across and down, and its value and variance before adjusting."""

    path: str
    across: float
    down: float
    value: float
    variance: float
    measured: bool


@dataclass(frozen=True, slots=True)
class Adjusted:
    """The sizes by path, adjusted, with standard errors, and as read or solved for.

    `width` and `length` are the sums of the adjusted parts; `predicted_width` and
    `predicted_length` the sums of the parts as they were read, solved for where they were not;
    `spread_width` and `spread_length` the standard deviations of measured less predicted, and
    `strain` the square of both differences in standard deviations, taken jointly (0 to 6 in careful
    work).
    """

    sizes: dict[str, float]
    errors: dict[str, float]
    read: dict[str, float]
    solved: frozenset[str]
    width: float
    length: float
    predicted_width: float
    predicted_length: float
    spread_width: float
    spread_length: float
    strain: float


def adjust(
    measures: Measures, plan: Plan, columns: int, rows: int, edge: Edge, border_free: bool
) -> Adjusted:
    """The sizes of one layout, all readings adjusted together."""
    terms = list(_terms(measures, plan, columns, rows, edge, border_free))
    fixed = RAW_EDGE if edge.kind == "raw" else 0.0
    return _solve(terms, fixed, measures.width, measures.length)


def _terms(
    measures: Measures, plan: Plan, columns: int, rows: int, edge: Edge, border_free: bool
) -> list[Term]:
    terms = _block_terms(measures, plan, plan.width.blocks(columns), plan.length.blocks(rows))
    if plan.sashed:
        sashes = plan.width.sashes(columns), plan.length.sashes(rows)
        terms.append(_term("sashing.width", *sashes, measures.sash, strips(plan.setting)))
    for index, border in enumerate(measures.borders or ()):
        path = f"borders.{index}.width"
        terms.append(_term(path, border.across, border.down, border.width, BORDER_WIDTHS))
    if border_free and not measures.borders:
        terms.append(_term("borders", 2, 2, None, BORDER_WIDTHS))
    if plan.floats:
        terms.append(_term("float", 2, 2, None, FLOAT_WIDTHS))
    if edge.kind == "outside":
        width = measures.binding_width or BINDING_WIDTH
        known = measures.binding_width is not None
        terms.append(Term("binding.width", 2, 2, width.mean, width.variance, known))
    return terms


def _block_terms(measures: Measures, plan: Plan, across: float, down: float) -> list[Term]:
    prior = BLOCK_SIZES[plan.setting]
    width, length = measures.block_width, measures.block_length
    if plan.shape in (Shape.RECTANGLE, Shape.BAR):
        long = BAR_LENGTHS if plan.shape is Shape.BAR else _as_wide(width, prior)
        return [
            _term("block.width", across, 0.0, width, prior),
            _term("block.length", 0.0, down, length, long),
        ]
    both = together(width, length, length_ratio(plan))
    return [_term("block.width", across, down, both, prior)]


def length_ratio(plan: Plan) -> float:
    """The length of a block over its width, where one follows from the other."""
    return ROOT_3 / 2 if plan.shape is Shape.HEXAGON else 1.0


def together(width: Estimate | None, length: Estimate | None, ratio: float) -> Estimate | None:
    """One estimate of the width from both sides of a block `ratio` as long as it is wide."""
    if length is None:
        return width
    across = Estimate(length.mean / ratio, length.variance / ratio**2, length.count)
    if width is None:
        return across
    first, second = 1 / width.variance, 1 / across.variance
    mean = (width.mean * first + across.mean * second) / (first + second)
    return Estimate(mean, 1 / (first + second), width.count + across.count)


def _as_wide(width: Estimate | None, prior: SizePrior) -> SizePrior:
    return prior if width is None else SizePrior(width.mean, 0.4)


def _term(path: str, across: float, down: float, width: Estimate | None, prior: SizePrior) -> Term:
    if width is None:
        spread = LOOSE * prior.spread * prior.median
        return Term(path, across, down, prior.median, spread * spread, False)
    return Term(path, across, down, width.mean, width.variance, True)


def _solve(
    terms: Sequence[Term], fixed: float, width: Estimate | None, length: Estimate | None
) -> Adjusted:
    off_across, off_down = _excess(terms, fixed, width, length)
    v11 = width.variance if width else UNMEASURED
    v22 = length.variance if length else UNMEASURED
    v12 = 0.0
    for term in terms:
        v11 += term.across**2 * term.variance
        v12 += term.across * term.down * term.variance
        v22 += term.down**2 * term.variance
    determinant = v11 * v22 - v12 * v12
    pull_across = (v22 * off_across - v12 * off_down) / determinant
    pull_down = (v11 * off_down - v12 * off_across) / determinant
    sizes, errors = {}, {}
    for term in terms:
        a, b = term.across * term.variance, term.down * term.variance
        sizes[term.path] = max(0.0, term.value + a * pull_across + b * pull_down)
        gained = (v22 * a * a - 2 * v12 * a * b + v11 * b * b) / determinant
        errors[term.path] = sqrt(max(0.0, term.variance - gained))
    strain = off_across * pull_across + off_down * pull_down
    return _summed(terms, fixed, sizes, errors, (sqrt(v11), sqrt(v22), strain))


def _excess(
    terms: Sequence[Term], fixed: float, width: Estimate | None, length: Estimate | None
) -> tuple[float, float]:
    across = sum(term.across * term.value for term in terms) + fixed
    down = sum(term.down * term.value for term in terms) + fixed
    return (width.mean - across if width else 0.0), (length.mean - down if length else 0.0)


def _summed(
    terms: Sequence[Term],
    fixed: float,
    sizes: dict[str, float],
    errors: dict[str, float],
    spreads: tuple[float, float, float],
) -> Adjusted:
    read = {t.path: t.value if t.measured else sizes[t.path] for t in terms}
    return Adjusted(
        sizes,
        errors,
        read,
        frozenset(t.path for t in terms if not t.measured),
        fixed + sum(t.across * sizes[t.path] for t in terms),
        fixed + sum(t.down * sizes[t.path] for t in terms),
        fixed + sum(t.across * read[t.path] for t in terms),
        fixed + sum(t.down * read[t.path] for t in terms),
        *spreads,
    )
