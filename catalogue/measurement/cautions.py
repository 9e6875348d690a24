"""What does not add up, each in one sentence with the numbers."""

from collections.abc import Iterator, Sequence
from typing import Final

from catalogue.measurement.counting import ways_to_count
from catalogue.measurement.estimates import reading_lists
from catalogue.measurement.judging import Judgement
from catalogue.measurement.layouts import Caution, CautionKind, Layout
from catalogue.measurement.misreadings import Version
from catalogue.measurement.next_reading import reading_name
from catalogue.measurement.proposals import Proposal
from catalogue.measurement.readings import Presence, TapeReadings
from catalogue.measurement.variants import Variant
from catalogue.values.lengths import format_length

NAMED: Final = 0.5  # probability from which a blunder is named
EDGE_NAMED: Final = 0.6
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
    found = [*_blunders(readings, judgement)]
    found += _counts(readings, best)
    if not found:
        found += _misfit(readings, best, layout)
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
    setting = f" set {readings.setting}" if readings.setting else ""
    says = (
        f"No number of blocks of {shown}{setting}, with the strips and borders as recorded,"
        f" comes near the overall size of {overall_said(readings)}."
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


def _blunders(readings: TapeReadings, judgement: Judgement) -> Iterator[Caution]:
    """The blunders that are likelier than not: shown by a list itself, or by all taken together."""
    record = judgement.record
    for path, version in record.likeliest.versions.items():
        if version.kind is not None:
            yield Caution(path, version.kind, _says(readings, path, version.kind, version))
    variant = _likeliest_blunder(judgement)
    if variant is not None and variant.kind is not None:
        amiss = variant.versions.get(variant.about)
        says = _says(readings, variant.about, variant.kind, amiss)
        yield Caution(variant.about, variant.kind, says)


def _likeliest_blunder(judgement: Judgement) -> Variant | None:
    """The likeliest blunder of a kind, or else in a place, that is likelier than not."""
    by_kind: dict[str, float] = {}
    by_place: dict[str, float] = {}
    for hypothesis in judgement.hypotheses:
        variant = hypothesis.variant
        if variant.kind is not None:
            share = hypothesis.probability
            by_kind[variant.kind] = by_kind.get(variant.kind, 0.0) + share
            by_place[variant.about] = by_place.get(variant.about, 0.0) + share
    for hypothesis in judgement.hypotheses:
        variant = hypothesis.variant
        if variant.kind is not None:
            shares = by_kind[variant.kind], by_place[variant.about]
            if max(shares) > NAMED:
                return variant
    return None


def _says(readings: TapeReadings, path: str, kind: CautionKind, version: Version | None) -> str:
    name = reading_name(path)
    written = _written(readings, path, version)
    if kind == "outlier":
        return f"{written} does not agree with the other readings and is left out: {name.lower()}."
    if kind == "swapped":
        part = path.partition(".")[0]
        return f"Width and length of the {part} size agree with the rest only when exchanged."
    if kind == "wrong unit":
        return f"{written} agrees with the rest only in the other unit: {name.lower()}."
    if kind == "transposed digits":
        meant = version.meant if version else None
        shown = format_length(meant, readings.unit) if meant else "another value"
        return f"{written} agrees with the rest if two digits changed places: {shown}."
    if kind == "dropped fraction":
        return f"{written} is short of the rest by part of an inch; a fraction seems dropped."
    return f"{name} seems to have been counted twice: without it the sizes agree."


def _written(readings: TapeReadings, path: str, version: Version | None) -> str:
    part = reading_lists(readings).get(path, ())
    if version is not None and version.index is not None and version.index < len(part):
        return f"“{part[version.index].written}”"
    return ", ".join(f"“{reading.written}”" for reading in part[:4])


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


def _misfit(readings: TapeReadings, best: Proposal, layout: Layout) -> Iterator[Caution]:
    """The parts that do not make the whole."""
    weighed = best.hypothesis.candidate.weighed
    loose = weighed.loose_share > LOOSE_NAMED
    axes = (
        (
            "width",
            best.measures.width,
            layout.difference.width,
            layout.predicted.width,
            best.adjusted.spread_width,
        ),
        (
            "length",
            best.measures.length,
            layout.difference.length,
            layout.predicted.length,
            best.adjusted.spread_length,
        ),
    )
    name, overall, off, made, spread = max(axes, key=lambda axis: abs(axis[2]) / axis[4])
    if overall is None:
        return
    strained = best.adjusted.strain > STRAIN or abs(off) >= MISMATCH_SPREADS * spread
    once = overall.count == 1 and abs(off) >= MISMATCH and strained
    if loose or once:
        unit = readings.unit
        more = "more" if off > 0 else "less"
        says = (
            f"The parts make {format_length(made, unit)}, but the overall {name} reads"
            f" {format_length(overall.mean, unit)}: {format_length(abs(off), unit)} {more}."
        )
        yield Caution(f"overall.{name}", "does not fit", says)
    sash = best.adjusted.sizes.get("sashing.width", 1.0)
    error = best.adjusted.errors.get("sashing.width", 0.0)
    if "sashing.width" in best.adjusted.solved and sash + 2 * error < NARROWEST:
        says = (
            "Strips between the blocks are recorded, but blocks, borders and overall size leave"
            f" no room for them (they would be {format_length(sash, readings.unit)} wide)."
        )
        yield Caution("sashing.width", "does not fit", says)


def _edges(readings: TapeReadings, best: Proposal) -> Iterator[Caution]:
    """A binding or raw edge against what the record says of it, where the numbers can show it."""
    edge, weighed = best.edge, best.hypothesis.candidate.weighed
    if edge.share > 0.1 or weighed.edge_share * (1 - weighed.loose_share) < EDGE_NAMED:
        return
    if readings.edge == "raw" or edge.kind == "raw":
        says = (
            "The sizes agree better with a bound edge than with the raw edge recorded."
            if readings.edge == "raw"
            else "The overall size is 1/2 in over the parts, as if measured to a raw edge."
        )
        yield Caution("edge", "raw edge", f"Possibly: {says[0].lower()}{says[1:]}")
    elif readings.binding.presence is Presence.PRESENT:
        place = "inside" if edge.kind == "within" else "outside"
        other = "outside" if edge.kind == "within" else "inside"
        says = (
            f"The sizes agree if the binding lies {place} the quoted border, not {other} it"
            " as recorded."
        )
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
