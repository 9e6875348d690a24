"""The `catalogue infer` contract: the answer to one quilt, as one JSON object."""

import json
from dataclasses import asdict
from typing import Final

from catalogue.measurement.inference import infer
from catalogue.measurement.layouts import Inference, Layout, Size
from catalogue.measurement.readings import ReadingError, read_readings
from catalogue.values.lengths import quoted

MOST_CHARACTERS: Final = 200_000


def answer_line(line: str) -> dict[str, object]:
    """The answer to one line of text, an object with "error" where it cannot be understood."""
    if len(line) > MOST_CHARACTERS:
        return _error(None, f"A line of {len(line)} characters is too long for one quilt.")
    try:
        decoded = json.loads(line)
    except (ValueError, RecursionError):
        return _error(None, f"{quoted(line.strip())} is not a JSON object.")
    return answer(decoded)


def answer(obj: object) -> dict[str, object]:
    """The answer to one decoded record, an object with "error" where it cannot be understood."""
    identity = _identity(obj)
    try:
        readings = read_readings(obj)
    except ReadingError as error:
        return _error(identity, str(error))
    return {"id": identity, **as_json(infer(readings))}


def as_json(inference: Inference) -> dict[str, object]:
    """The inference as the contract's JSON, lengths in inches to 1/1000."""
    following = inference.measure_next
    return {
        "layouts": [_layout(layout) for layout in inference.layouts],
        "measure_next": None if following is None else asdict(following),
        "cautions": [asdict(caution) for caution in inference.cautions],
    }


def _layout(layout: Layout) -> dict[str, object]:
    return {
        "setting": layout.setting,
        "sashing": layout.sashing,
        "columns": layout.columns,
        "rows": layout.rows,
        "details": list(layout.details),
        "pieces": asdict(layout.pieces),
        "predicted": _size(layout.predicted),
        "difference": _size(layout.difference),
        "probability": round(layout.probability - 0.5e-6, 6),
        "tie": layout.tie,
        "grounds": layout.grounds,
    }


def _size(size: Size) -> dict[str, float]:
    return {"width": round(size.width, 3), "length": round(size.length, 3)}


def _error(identity: object, sentence: str) -> dict[str, object]:
    return {"id": _text(identity), "error": _clean(sentence)}


def _identity(obj: object) -> object:
    """The record's own id, null where it has none that can be given back."""
    found = obj.get("id") if isinstance(obj, dict) else None
    return _text(found)


def _text(value: object) -> object:
    if isinstance(value, str):
        return _clean(value)
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**18:
        return value
    return None


def _clean(text: str) -> str:
    """The text with half characters replaced, so that it can always be written as UTF-8."""
    return text.encode("utf-8", "replace").decode("utf-8")
