"""Hypotheses gathered into the layouts that are put before a person, best first, ties marked."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import log
from typing import Final

from catalogue.measurement.adjustment import Adjusted, adjust
from catalogue.measurement.counting import alternate_counts
from catalogue.measurement.estimates import Measures
from catalogue.measurement.evidence import Edge
from catalogue.measurement.field import RAW_EDGE
from catalogue.measurement.judging import Hypothesis, Identity, Judgement
from catalogue.measurement.layouts import ALTERNATE_BLOCKS, Dimensions, Layout, Pieces, Sides, Size
from catalogue.measurement.pieces import count_pieces
from catalogue.measurement.readings import Presence, TapeReadings
from catalogue.measurement.sentences import Account, grounds
from catalogue.measurement.settings import ROOT_3, Plan, Shape

MOST_LAYOUTS: Final = 10
LEAST_PROBABILITY: Final = 0.0005
SAME_SIZE: Final = 0.2  # inches: sizes that no tape tells apart on a quilt
ROOT_TWO_PLAY: Final = 0.014  # 7/5 differs from the root of two by 1 %
SAME_EVIDENCE: Final = log(2.5)
COINCIDENCE: Final = log(6)
LESSER: Final = 0.03  # probability against its partner below which a tie is not worth a word


@dataclass(frozen=True)
class Proposal:
    """One layout by setting, sashing, columns and rows, with its likeliest variant worked out."""

    hypothesis: Hypothesis
    probability: float

    @property
    def plan(self) -> Plan:
        """The likeliest way of setting."""
        return self.hypothesis.candidate.plan

    @property
    def measures(self) -> Measures:
        """The estimates with what was amiss put right."""
        return self.hypothesis.weighing.measures

    @property
    def edge(self) -> Edge:
        """The likeliest edge."""
        return self.hypothesis.weighing.edges[self.hypothesis.candidate.weighed.edge]

    @cached_property
    def adjusted(self) -> Adjusted:
        """All its sizes, adjusted together."""
        candidate = self.hypothesis.candidate
        free = candidate.margin.free is not None
        return adjust(
            self.measures, candidate.plan, candidate.columns, candidate.rows, self.edge, free
        )

    @property
    def predicted(self) -> Size:
        """The sum of the parts as read, solved for where not measured."""
        return Size(self.adjusted.predicted_width, self.adjusted.predicted_length)

    @property
    def evidence(self) -> float:
        """The logarithm of how well the readings suit it, all preference for settings aside."""
        candidate = self.hypothesis.candidate
        return (
            self.hypothesis.variant.evidence
            + candidate.parts.suits
            + candidate.counted
            + candidate.weighed.log_total
        )


def gather(judgement: Judgement) -> list[Proposal]:
    """Hypotheses that differ only in details are one proposal; most probable first."""
    best: dict[Identity, Hypothesis] = {}
    total: dict[Identity, float] = {}
    for hypothesis in judgement.hypotheses:
        identity = hypothesis.identity
        best.setdefault(identity, hypothesis)
        total[identity] = total.get(identity, 0.0) + hypothesis.probability
    ranked = sorted(total, key=lambda identity: -total[identity])
    return [Proposal(best[identity], total[identity]) for identity in ranked]


def layouts(readings: TapeReadings, proposals: Sequence[Proposal]) -> tuple[Layout, ...]:
    """The proposals as layouts, at most ten, ties numbered from 1."""
    shown = [p for p in proposals[:MOST_LAYOUTS] if p.probability >= LEAST_PROBABILITY]
    numbers = tie_numbers(shown)
    return tuple(
        _layout(readings, proposal, number) for proposal, number in zip(shown, numbers, strict=True)
    )


def tie_numbers(proposals: Sequence[Proposal]) -> list[int | None]:
    """A number shared by proposals that the readings cannot tell apart, None for the others."""
    numbers: list[int | None] = [None] * len(proposals)
    following = 1
    for index, proposal in enumerate(proposals):
        if numbers[index] is not None:
            continue
        for other in range(index + 1, len(proposals)):
            if numbers[other] is None and tied(proposal, proposals[other]):
                numbers[index] = numbers[other] = following
        following += numbers[index] is not None
    return numbers


def tied(first: Proposal, second: Proposal) -> bool:
    """Whether the readings cannot tell two proposals apart.

    Either they predict the same sizes from the same parts and suit the readings equally; or one is
    on point and the other straight, and the root of two comes so near a fraction that the
    difference is within what blocks vary.
    """
    if second.probability < LESSER * first.probability:
        return False
    apart = abs(first.evidence - second.evidence)
    wide = abs(first.predicted.width - second.predicted.width)
    long = abs(first.predicted.length - second.predicted.length)
    if max(wide, long) <= SAME_SIZE:
        return apart <= SAME_EVIDENCE and _same_solutions(first.adjusted, second.adjusted)
    coincidence = _turned(first.plan) != _turned(second.plan) and not _solved(first, second)
    play = ROOT_TWO_PLAY * min(first.predicted.width, first.predicted.length)
    return coincidence and apart <= COINCIDENCE and max(wide, long) <= play


def _turned(plan: Plan) -> bool:
    return plan.setting in ("on point", "zigzag")


def _solved(*proposals: Proposal) -> bool:
    """Whether a size that measuring could settle is left open, the binding's aside."""
    return any(proposal.adjusted.solved - {"binding.width"} for proposal in proposals)


def _same_solutions(first: Adjusted, second: Adjusted) -> bool:
    """Whether measuring what is missing would not tell the two apart either."""
    if first.solved != second.solved:
        return False
    return all(abs(first.sizes[path] - second.sizes[path]) <= 0.1 for path in first.solved)


def _layout(readings: TapeReadings, proposal: Proposal, tie: int | None) -> Layout:
    candidate, plan = proposal.hypothesis.candidate, proposal.plan
    pieces, details = _pieces(proposal, readings.sashing.cornerstones)
    measured = proposal.measures
    predicted = proposal.predicted
    difference = Size(
        measured.width.mean - predicted.width if measured.width else 0.0,
        measured.length.mean - predicted.length if measured.length else 0.0,
    )
    return Layout(
        plan.setting,
        plan.sashing,
        candidate.columns,
        candidate.rows,
        details,
        pieces,
        predicted,
        difference,
        min(1.0, proposal.probability),
        tie,
        grounds(account(proposal)),
        dimensions(proposal),
    )


def account(proposal: Proposal) -> Account:
    """A proposal as it is put into words."""
    candidate = proposal.hypothesis.candidate
    return Account(
        proposal.hypothesis.variant.readings,
        proposal.measures,
        candidate.plan,
        candidate.columns,
        candidate.rows,
        proposal.edge,
        proposal.adjusted,
    )


def _pieces(proposal: Proposal, cornerstones: bool | None) -> tuple[Pieces, tuple[str, ...]]:
    """The pieces and details, with alternate blocks where the count of pieced blocks shows them."""
    candidate, plan = proposal.hypothesis.candidate, proposal.plan
    pieces = count_pieces(plan, candidate.columns, candidate.rows, cornerstones)
    counted = proposal.measures.counted.pieced_blocks
    if counted is None or counted == pieces.blocks:
        return pieces, plan.details
    if counted in alternate_counts(plan, candidate.columns, candidate.rows, pieces):
        split = replace(pieces, blocks=counted, alternate_blocks=pieces.blocks - counted)
        return split, (ALTERNATE_BLOCKS, *plan.details)
    return pieces, plan.details


def dimensions(proposal: Proposal) -> Dimensions:
    """The adjusted sizes of a proposal, adding up to its overall size."""
    adjusted, plan, sizes = proposal.adjusted, proposal.plan, proposal.adjusted.sizes
    readings = proposal.hypothesis.variant.readings
    binding = sizes.get("binding.width", 0.0)
    borders = _borders(readings, sizes)
    if proposal.edge.kind == "within":
        binding, borders = _within(proposal, borders)
    ease = sizes.get("float")
    return Dimensions(
        Size(adjusted.width, adjusted.length),
        _block(plan, sizes),
        sizes.get("sashing.width", 0.0),
        readings.sashing.cornerstones if plan.sashed else None,
        borders,
        binding,
        None if ease is None else Sides(ease, ease, ease, ease),
        RAW_EDGE / 2 if proposal.edge.kind == "raw" else 0.0,
        proposal.edge.kind == "within" and binding > 0,
    )


def _block(plan: Plan, sizes: dict[str, float]) -> Size:
    width = sizes["block.width"]
    if plan.shape in (Shape.RECTANGLE, Shape.BAR):
        return Size(width, sizes["block.length"])
    return Size(width, width * (ROOT_3 / 2 if plan.shape is Shape.HEXAGON else 1.0))


def _borders(readings: TapeReadings, sizes: dict[str, float]) -> tuple[Sides, ...]:
    if not readings.borders:
        width = sizes.get("borders")
        return () if width is None else (Sides(width, width, width, width),)
    return tuple(
        Sides(
            *(sizes.get(f"borders.{index}.width", 0.0) * (side in border.sides) for side in ORDER)
        )
        for index, border in enumerate(readings.borders)
    )


ORDER: Final = ("left", "right", "top", "bottom")


def _within(proposal: Proposal, borders: tuple[Sides, ...]) -> tuple[float, tuple[Sides, ...]]:
    """The binding's width, taken off the outermost border on each side.

    Where a side has no border wide enough the binding hides part of the blocks: the borders stay as
    quoted, and no width is given to the binding.
    """
    width = proposal.measures.binding_width
    binding = width.mean if width else 0.0
    if proposal.measures.binding is not Presence.PRESENT or not borders:
        return 0.0, borders
    left = dict.fromkeys(ORDER, binding)
    found = []
    for border in reversed(borders):
        shown = {}
        for side in ORDER:
            quoted = getattr(border, side)
            taken = min(quoted, left[side])
            left[side] -= taken
            shown[side] = quoted - taken
        found.append(Sides(**shown))
    if max(left.values()) > 0:
        return 0.0, borders
    return binding, tuple(reversed(found))
