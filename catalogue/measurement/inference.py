"""From a record of tape readings to the layouts they allow, what to measure next, what is amiss."""

from dataclasses import replace
from typing import Final

from catalogue.measurement.cautions import cautions, unfit
from catalogue.measurement.judging import Judgement, judge
from catalogue.measurement.layouts import (
    Dimensions,
    Inference,
    Layout,
    MeasureNext,
    Pieces,
    Size,
)
from catalogue.measurement.next_reading import measure_next
from catalogue.measurement.proposals import MOST_LAYOUTS, gather, layouts
from catalogue.measurement.readings import Counted, Presence, TapeReadings

UNRECORDED_REPEAT: Final = 0.4  # that nothing repeats, where no block is spoken of at all
HOPELESS: Final = -25.0  # natural logarithm of the best fit against a perfect one


def infer(readings: TapeReadings) -> Inference:
    """The layouts that fit the readings, best first, with probabilities, and what does not add up.

    A whole cloth or crazy quilt (setting "none") gives one layout that records no repeat. Where
    nothing fits, there are no layouts and a caution says why.
    """
    if readings.setting == "none":
        return Inference((_no_repeat(readings, 1.0),), None, ())
    if not (readings.overall.width or readings.overall.length):
        return Inference((), MeasureNext("overall.width", _NOTHING, 0.0), unfit(readings))
    judgement = judge(readings)
    if _hopeless(judgement):
        return Inference((), None, unfit(readings))
    proposals = gather(judgement)
    shown = layouts(readings, proposals)
    return Inference(
        _beside_no_repeat(readings, shown),
        measure_next(readings, proposals),
        cautions(readings, judgement, proposals, shown),
    )


_NOTHING: Final = "Nothing can be fitted before the overall width and length are read."


def _hopeless(judgement: Judgement) -> bool:
    if not judgement.hypotheses:
        return True
    weighed = judgement.hypotheses[0].candidate.weighed
    return weighed.log_total - weighed.peak < HOPELESS


def _beside_no_repeat(readings: TapeReadings, shown: tuple[Layout, ...]) -> tuple[Layout, ...]:
    """The layouts, and before them a quilt without any repeat where the record speaks of none."""
    counted = readings.counted
    speaks = (
        readings.setting or readings.block_recorded or readings.sashing.presence is Presence.PRESENT
    )
    if speaks or counted != Counted():
        return shown
    others = (
        replace(layout, probability=layout.probability * (1 - UNRECORDED_REPEAT))
        for layout in shown[: MOST_LAYOUTS - 1]
    )
    return tuple(
        sorted(
            (_no_repeat(readings, UNRECORDED_REPEAT), *others),
            key=lambda layout: -layout.probability,
        )
    )


def _no_repeat(readings: TapeReadings, probability: float) -> Layout:
    """The layout of a quilt in which nothing repeats."""
    width, length = (
        sum(map(float, part)) / len(part) if part else 0.0
        for part in (readings.overall.width, readings.overall.length)
    )
    overall = Size(width, length)
    return Layout(
        "none",
        "none",
        None,
        None,
        (),
        Pieces(0),
        overall,
        Size(0.0, 0.0),
        probability,
        None,
        "No repeat is recorded: as in a whole cloth or crazy quilt, there is no block to count.",
        Dimensions(overall, None, 0.0, None, (), 0.0, None),
    )
