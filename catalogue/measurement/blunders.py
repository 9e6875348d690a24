"""The blunders that are likelier than not, each named in one sentence with the numbers."""

from collections.abc import Iterator
from typing import Final

from catalogue.measurement.adjustment import length_ratio
from catalogue.measurement.judging import Hypothesis, Judgement
from catalogue.measurement.layouts import Caution, CautionKind
from catalogue.measurement.misreadings import Version
from catalogue.measurement.proposals import Proposal
from catalogue.measurement.sentences import listed, reading_name
from catalogue.values.lengths import Unit, format_length

NAMED: Final = 0.5  # probability from which a blunder is named


def blunders(judgement: Judgement) -> Iterator[Caution]:
    """What a list of readings shows by itself to be amiss, and what all of them together show."""
    if not judgement.hypotheses:
        return
    best = judgement.hypotheses[0]
    for path, version in judgement.record.likeliest.versions.items():
        if version.kind is not None:
            yield Caution(path, version.kind, _says(judgement, best, path, version.kind, version))
    hypothesis = _likeliest_blunder(judgement)
    if hypothesis is not None and hypothesis.variant.kind is not None:
        variant, kind = hypothesis.variant, hypothesis.variant.kind
        version = variant.versions.get(variant.about, _NOTHING)
        says = _says(judgement, hypothesis, variant.about, kind, version)
        yield Caution(variant.about, kind, says)


_NOTHING: Final = Version((), 0.0)


def _likeliest_blunder(judgement: Judgement) -> Hypothesis | None:
    """The likeliest hypothesis of the blunder whose kind or place is likelier than not."""
    by_kind: dict[str, float] = {}
    by_place: dict[str, float] = {}
    for hypothesis in judgement.hypotheses:
        variant, share = hypothesis.variant, hypothesis.probability
        if variant.kind is not None:
            by_kind[variant.kind] = by_kind.get(variant.kind, 0.0) + share
            by_place[variant.about] = by_place.get(variant.about, 0.0) + share
    for hypothesis in judgement.hypotheses:
        variant = hypothesis.variant
        if variant.kind is not None:
            shares = by_kind[variant.kind], by_place[variant.about]
            if max(shares) > NAMED:
                return hypothesis
    return None


def _says(
    judgement: Judgement, hypothesis: Hypothesis, path: str, kind: CautionKind, version: Version
) -> str:
    made = Proposal(hypothesis, hypothesis.probability)
    unit = judgement.record.readings.unit
    overall = f"{_shown(made.adjusted.width, unit)} wide and {_shown(made.adjusted.length, unit)}"
    if kind == "swapped":
        part = "overall width and length" if path.startswith("overall") else "block's two sides"
        return f"The {part} agree with the rest only when exchanged: {overall} long overall."
    if path == "unit":
        return f"The readings make a likely quilt only in the other unit: {overall} long overall."
    if kind == "counted twice" and _left_out(judgement, hypothesis):
        return (
            f"The {reading_name(path)} seems to be entered twice: counted once, the parts make the"
            f" quilt {overall} long."
        )
    return _misread(judgement, path, kind, version, _shown(_expected(made, path), unit))


def _misread(
    judgement: Judgement, path: str, kind: CautionKind, version: Version, size: str
) -> str:
    start = f"{_written(judgement, path, version)} for the {reading_name(path)}"
    return {
        "outlier": f"{start} is left out: the other readings make it {size}.",
        "wrong unit": f"{start} agrees with the rest only in the other unit, as {size}.",
        "transposed digits": f"{start} agrees with the rest if two digits change places: {size}.",
        "dropped fraction": f"{start} seems to lack its fraction: the rest makes it {size}.",
    }.get(kind, f"{start} seems to be two sides added together: the rest makes it {size}.")


def _left_out(judgement: Judgement, hypothesis: Hypothesis) -> bool:
    """Whether a border is left out, not halved."""
    return hypothesis.variant.readings is not judgement.record.readings


def _shown(inches: float, unit: Unit) -> str:
    return format_length(inches, unit)


def _expected(made: Proposal, path: str) -> float:
    """What the layout makes of a reading."""
    adjusted = made.adjusted
    if path.startswith("overall."):
        return adjusted.width if path.endswith("width") else adjusted.length
    if path == "block.length" and path not in adjusted.sizes:
        return adjusted.sizes["block.width"] * length_ratio(made.plan)
    return adjusted.sizes.get(path, 0.0)


def _written(judgement: Judgement, path: str, version: Version) -> str:
    """The reading at fault as it was written, or the whole list."""
    part = judgement.record.lists.get(path, ())
    if version.index is not None and version.index < len(part):
        return f"“{part[version.index].written}”"
    return listed([f"“{reading.written}”" for reading in part[:5]])
