"""From a record of tape readings to the layouts they allow, what to measure next, what is amiss."""

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
from catalogue.measurement.proposals import gather, layouts
from catalogue.measurement.readings import TapeReadings

HOPELESS: Final = -25.0  # natural logarithm of the best fit against a perfect one


def infer(readings: TapeReadings) -> Inference:
    """The layouts that fit the readings, best first, with probabilities, and what does not add up.

    A whole cloth or crazy quilt (setting "none") gives one layout that records no repeat. Where
    nothing fits, there are no layouts and a caution says why.
    """
    if readings.setting == "none":
        return Inference((_no_repeat(readings),), None, ())
    if not (readings.overall.width or readings.overall.length):
        return Inference((), MeasureNext("overall.width", _NOTHING, 0.0), unfit(readings))
    judgement = judge(readings)
    if _hopeless(judgement):
        return Inference((), None, unfit(readings))
    proposals = gather(judgement)
    shown = layouts(readings, proposals)
    return Inference(
        shown,
        measure_next(readings, proposals),
        cautions(readings, judgement, proposals, shown),
    )


_NOTHING: Final = "Nothing can be fitted before the overall width and length are read."


def _hopeless(judgement: Judgement) -> bool:
    if not judgement.hypotheses:
        return True
    weighed = judgement.hypotheses[0].candidate.weighed
    return weighed.log_total - weighed.peak < HOPELESS


def _no_repeat(readings: TapeReadings) -> Layout:
    """The one layout of a quilt in which nothing repeats."""
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
        1.0,
        None,
        "No repeat is recorded: the quilt is a whole cloth or crazy quilt.",
        Dimensions(overall, None, 0.0, None, (), 0.0, None),
    )
