"""The answer of `catalogue photo`: what one file tells, as plain values."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from catalogue.photographs.colours import Colour, main_colours
from catalogue.photographs.derivatives import SIZES
from catalogue.photographs.homography import checked_corners
from catalogue.photographs.opening import opened
from catalogue.photographs.reading import PhotographReading, TurnedBlock, read_photograph
from catalogue.photographs.upright import upright


def answer_photograph(
    data: bytes,
    corners: Sequence[Sequence[float]],
    width: float | None = None,
    length: float | None = None,
) -> dict[str, Any]:
    """The layout, turned blocks, cautions and main colours of a photograph, ready for JSON.

    `corners` are those of the whole quilt in pixels of the upright picture, clockwise from the top
    left; `width` and `length` are inches. Raises PhotographError and CornersError.
    """
    checked = checked_corners(corners)
    with opened(data) as image:
        longest = max(image.size)
    picture = upright(data, SIZES["large"])
    share = max(picture.size) / longest
    reduced = [(x * share, y * share) for x, y in checked]
    reading = read_photograph(picture, reduced, width=width, length=length)
    return {**_layout(reading), "colours": _colours(main_colours(picture, reduced))}


def _layout(reading: PhotographReading) -> dict[str, Any]:
    return {
        "setting": reading.setting,
        "sashing": reading.sashing,
        "columns": reading.columns,
        "rows": reading.rows,
        "confidence": reading.confidence,
        "turned": [_turned(block) for block in reading.turned],
        "cautions": list(reading.cautions),
    }


def _turned(block: TurnedBlock) -> dict[str, Any]:
    return {
        "column": block.column,
        "row": block.row,
        "turn": block.turn,
        "confidence": block.confidence,
    }


def _colours(colours: Sequence[Colour]) -> list[dict[str, Any]]:
    return [{"name": each.name, "hex": each.hex, "share": round(each.share, 2)} for each in colours]
