"""The layout of a quilt: inferred from its readings, and what people decided about it."""

from __future__ import annotations

import dataclasses
import json
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from catalogue.collection.measuring import has_overall_size, readings_for_inference
from catalogue.collection.records import LayoutDecision, Quilt
from catalogue.collection.store import now
from catalogue.measurement.inference import infer
from catalogue.measurement.layouts import (
    Dimensions,
    Inference,
    Layout,
    Pieces,
    Reconciled,
    Sides,
    Size,
)
from catalogue.measurement.readings import ReadingError, TapeReadings, read_readings
from catalogue.measurement.reconciliation import reconcile


@dataclass(frozen=True)
class ChosenLayout:
    """The layout that stands for a quilt: accepted by somebody, or proposed by the readings."""

    layout: Layout
    decision: LayoutDecision | None
    out_of_date: bool = False

    @property
    def accepted(self) -> bool:
        """True where a person accepted it."""
        return self.decision is not None


def inferred(quilt: Quilt) -> Inference | None:
    """Return what the readings mean, None where the quilt has not been measured both ways.

    Raises ReadingError where the record holds readings that cannot stand together.
    """
    if not has_overall_size(quilt):
        return None
    return _infer(read_readings(readings_for_inference(quilt)))


@lru_cache(maxsize=256)
def _infer(readings: TapeReadings) -> Inference:
    return infer(readings)


def chosen(quilt: Quilt) -> ChosenLayout | None:
    """Return the layout accepted last, or else the likeliest that nobody rejected.

    None where the readings allow none, and where the question was left open.
    """
    last = _last_word(quilt)
    if last is not None:
        if last.decision == "left open":
            return None
        out_of_date = last.readings != _readings_text(quilt)
        return ChosenLayout(layout_from_text(last.layout), last, out_of_date)
    try:
        inference = inferred(quilt)
    except ReadingError:
        return None
    rejected = [_identity(layout_from_text(d.layout)) for d in quilt.decisions]
    for layout in inference.layouts if inference is not None else ():
        if _identity(layout) not in rejected:
            return ChosenLayout(layout, None)
    return None


def setting_of(quilt: Quilt) -> str:
    """Return the setting seen, or else that of the layout that stands accepted; empty for none."""
    last = _last_word(quilt)
    if quilt.setting_seen or last is None or last.decision == "left open":
        return quilt.setting_seen
    return layout_from_text(last.layout).setting


def _last_word(quilt: Quilt) -> LayoutDecision | None:
    """Return the last decision that says which layout stands, or that none does."""
    settling = [each for each in quilt.decisions if each.decision in ("accepted", "left open")]
    return settling[-1] if settling else None


def _identity(layout: Layout) -> tuple[str, str, int | None, int | None]:
    """What makes two layouts the same one, whatever their sizes."""
    return layout.setting, layout.sashing, layout.columns, layout.rows


def chance(probability: float) -> str:
    """Return a probability as a percentage that never claims certainty."""
    if probability > 0.99:
        return "over 99 %"
    if probability < 0.01:
        return "under 1 %"
    return f"{probability * 100:.0f} %"


def decide(quilt: Quilt, layout: Layout, decision: str, by: str, note: str = "") -> LayoutDecision:
    """Return a decision about a layout, with the readings as they stand."""
    return LayoutDecision(decision, layout_to_text(layout), _readings_text(quilt), by, now(), note)


def adjusted_readings(quilt: Quilt, layout: Layout) -> tuple[Reconciled, ...]:
    """Return each reading beside its value in the layout, all adjusted together."""
    return reconcile(read_readings(readings_for_inference(quilt)), layout)


def layout_to_text(layout: Layout) -> str:
    """Return a layout as JSON text."""
    return json.dumps(dataclasses.asdict(layout), ensure_ascii=False)


def layout_from_text(text: str) -> Layout:
    """Return the layout that `layout_to_text` wrote."""
    plain: dict[str, Any] = json.loads(text)
    sizes = plain["dimensions"]
    dimensions = Dimensions(
        **sizes
        | {
            "overall": Size(**sizes["overall"]),
            "block": Size(**sizes["block"]) if sizes["block"] else None,
            "borders": tuple(Sides(**border) for border in sizes["borders"]),
            "float_margin": Sides(**sizes["float_margin"]) if sizes["float_margin"] else None,
        }
    )
    return Layout(
        **plain
        | {
            "details": tuple(plain["details"]),
            "pieces": Pieces(**plain["pieces"]),
            "predicted": Size(**plain["predicted"]),
            "difference": Size(**plain["difference"]),
            "dimensions": dimensions,
        }
    )


def _readings_text(quilt: Quilt) -> str:
    return json.dumps(readings_for_inference(quilt), ensure_ascii=False, sort_keys=True)
