"""What does not add up, each in one sentence with the numbers."""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from catalogue.measurement.blunders import blunders
from catalogue.measurement.counting import ways_to_count
from catalogue.measurement.estimates import Estimate
from catalogue.measurement.field import RAW_EDGE
from catalogue.measurement.judging import Judgement
from catalogue.measurement.layouts import Caution, Layout
from catalogue.measurement.proposals import Proposal
from catalogue.measurement.readings import Presence, TapeReadings
from catalogue.values.lengths import format_length

EDGE_NAMED: Final = 0.5
LOOSE_NAMED: Final = 0.9
UNSETTLED: Final = 0.2
MISMATCH: Final = 0.7  # inches, where the overall size was read but once
MISMATCH_SPREADS: Final = 1.5
NARROWEST: Final = 0.75  # inches: strips hardly come narrower
STRAIN: Final = 6.0
OUT_OF_SQUARE: Final = 1.5


def cautions(
    readings: TapeReadings,
    judgement: Judgement,
    proposals: Sequence[Proposal],
    layouts: Sequence[Layout],
) -> tuple[Caution, ...]:
    """Everything amiss with a record for which there are layouts, gravest first."""
    best, layout = proposals[0], layouts[0]
    found = [*blunders(judgement)]
    found += _counts(readings, best)
    if not found:
        found += _misfit(readings, best, layout)
    found += _strips(readings, best)
    found += _edges(readings, best)
    found += _out_of_square(readings, best)
    found += _ambiguous(layouts)
    return tuple(found)


def unfit(readings: TapeReadings) -> tuple[Caution, ...]:
    """Why there is no layout at all."""
    if not (readings.overall.width or readings.overall.length):
        says = "No overall size was read, so there is nothing that blocks could be fitted into."
        return (Caution("overall.width", "does not fit", says),)
    blocks = [float(reading) for reading in readings.block.width]
    shown = format_length(sum(blocks) / len(blocks), readings.unit) if blocks else "any size"
    setting = f"{readings.setting} layout" if readings.setting else "layout"
    says = (
        f"No {setting} of blocks of {shown}, with the strips and borders as recorded, comes near"
        f" the overall size of {overall_said(readings)}."
    )
    return (Caution("overall.width", "does not fit", says),)


def overall_said(readings: TapeReadings) -> str:
    """Overall width and length as read, by their means."""
    named = {"width": readings.overall.width, "length": readings.overall.length}
    shown = [
        f"{format_length(sum(map(float, read)) / len(read), readings.unit)} ({name})"
        for name, read in named.items()
        if read
    ]
    return " x ".join(shown)


def _counts(readings: TapeReadings, best: Proposal) -> Iterator[Caution]:
    """Counts by eye that the likeliest layout contradicts."""
    candidate, counted = best.hypothesis.candidate, readings.counted
    for name, seen, fits in (
        ("columns", counted.columns, candidate.columns),
        ("rows", counted.rows, candidate.rows),
    ):
        if seen is not None and seen != fits:
            says = f"{seen} {name} were counted, but the readings of the tape make {fits}."
            yield Caution(f"counted.{name}", "count", says)
    pieced = counted.pieced_blocks
    ways = ways_to_count(best.plan, candidate.columns, candidate.rows)
    if pieced is not None and pieced not in ways and best.plan.setting != "medallion":
        likely = " or ".join(str(way) for way in sorted(ways))
        says = (
            f"{pieced} pieced blocks were counted, but {candidate.columns} x {candidate.rows}"
            f" {best.plan.setting} would have {likely}."
        )
        yield Caution("counted.pieced_blocks", "count", says)


class _Axis(NamedTuple):
    """One axis of a layout: overall size as read, as the parts make it, and how sure that is."""

    name: str
    overall: Estimate | None
    off: float
    made: float
    spread: float


def _misfit(readings: TapeReadings, best: Proposal, layout: Layout) -> Iterator[Caution]:
    """Parts that do not make the whole."""
    off, made, sums = layout.difference, layout.predicted, best.adjusted
    width = _Axis("width", best.measures.width, off.width, made.width, sums.spread_width)
    length = _Axis("length", best.measures.length, off.length, made.length, sums.spread_length)
    worst = max(width, length, key=lambda axis: abs(axis.off) / axis.spread)
    overall = worst.overall
    if overall is not None and _is_misfit(best, worst):
        parts, read, apart = (
            format_length(size, readings.unit)
            for size in (worst.made, overall.mean, abs(worst.off))
        )
        more = "more" if worst.off > 0 else "less"
        says = f"The parts make {parts}, but the overall {worst.name} reads {read}: {apart} {more}."
        yield Caution(f"overall.{worst.name}", "does not fit", says)


def _is_misfit(best: Proposal, axis: _Axis) -> bool:
    """Whether the work is looser than drafted, or single readings differ by more than they may.

    Several readings settle among themselves how far they may be off; single ones are taken at
    their word.
    """
    if best.hypothesis.candidate.weighed.loose_share > LOOSE_NAMED:
        return True
    once = axis.overall is not None and axis.overall.count == 1
    strained = best.adjusted.strain > STRAIN or abs(axis.off) >= MISMATCH_SPREADS * axis.spread
    return once and abs(axis.off) >= MISMATCH and strained


def _strips(readings: TapeReadings, best: Proposal) -> Iterator[Caution]:
    """Strips recorded where there is no room for them, or where the setting has none."""
    setting, presence = best.plan.setting, readings.sashing.presence
    width = best.adjusted.sizes.get("sashing.width", 0.0)
    error = best.adjusted.errors.get("sashing.width", 0.0)
    says = ""
    if presence is Presence.PRESENT and not best.plan.sashed:
        says = f"Strips between the blocks are recorded, but {setting} has none; they are left out."
    elif presence is Presence.ABSENT and best.plan.sashed:
        says = f"No strips are recorded, but {setting} has them between its columns."
    elif "sashing.width" in best.adjusted.solved and width + 2 * error < NARROWEST:
        says = (
            "Strips between the blocks are recorded, but blocks, borders and overall size leave"
            f" no room for them: they would be {format_length(width, readings.unit)} wide."
        )
    if says:
        yield Caution("sashing.width", "does not fit", says)


def _edges(readings: TapeReadings, best: Proposal) -> Iterator[Caution]:
    """A binding or raw edge against what the record says of it, where the numbers can show it."""
    edge, weighed = best.edge, best.hypothesis.candidate.weighed
    if edge.share > 0.1 or weighed.edge_share * (1 - weighed.loose_share) < EDGE_NAMED:
        return
    allowance = format_length(RAW_EDGE, readings.unit)
    if readings.edge == "raw":
        says = f"Possibly a bound edge: the overall size lacks the {allowance} of raw edges."
        yield Caution("edge", "raw edge", says)
    elif edge.kind == "raw":
        says = f"Possibly measured to raw edges: the overall size is {allowance} over its parts."
        yield Caution("edge", "raw edge", says)
    elif readings.binding.presence is Presence.PRESENT:
        place, other = ("inside", "outside") if edge.kind == "within" else ("outside", "inside")
        says = f"The sizes agree if the binding lies {place} the quoted border, not {other} it."
        yield Caution("binding.within_border", "binding", says)


def _out_of_square(readings: TapeReadings, best: Proposal) -> Iterator[Caution]:
    """Sides of unequal length, blunders put right."""
    for name in ("width", "length"):
        values = best.hypothesis.variant.versions[f"overall.{name}"].values
        if len(values) < 2 or max(values) - min(values) < OUT_OF_SQUARE:
            continue
        low, high = (format_length(value, readings.unit) for value in (min(values), max(values)))
        says = (
            f"The readings of the overall {name} run from {low} to {high}: the quilt is out of"
            " square or tapers."
        )
        yield Caution(f"overall.{name}", "out of square", says)


def _ambiguous(layouts: Sequence[Layout]) -> Iterator[Caution]:
    """A tie that leaves the counts open."""
    first = layouts[0]
    if first.tie is None:
        return
    rivals = [
        layout
        for layout in layouts[1:]
        if layout.tie == first.tie
        and (layout.columns, layout.rows) != (first.columns, first.rows)
        and layout.probability >= UNSETTLED * first.probability
    ]
    if rivals:
        shown = [f"{r.columns} x {r.rows} {r.setting}" for r in rivals]
        says = (
            f"The readings fit {first.columns} x {first.rows} {first.setting} and"
            f" {' and '.join(shown)} alike; the tape cannot tell them apart."
        )
        yield Caution("overall.width", "ambiguous", says)
