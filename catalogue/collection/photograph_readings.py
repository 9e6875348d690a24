"""What photographs tell, read once and kept beside their smaller pictures: a shadow, remade freely.

A reading is found again by the original's hash, the corners and the proportion. One is made at a
time, however many ask.
"""

from __future__ import annotations

import hashlib
import json
import threading
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path
from typing import Any

from catalogue.collection.folder import Collection
from catalogue.collection.photographs import is_whole
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.squaring import Shown, lies, scale_of, shown
from catalogue.collection.whole_files import write_whole
from catalogue.patterns import designs, grid_of_roles
from catalogue.photographs.blocks import DraftingFit, cut_block, median_block, rank_draftings
from catalogue.photographs.derivatives import Picture, as_webp
from catalogue.photographs.homography import Corners
from catalogue.photographs.reading import PhotographReading, TurnedBlock, read_photograph
from catalogue.photographs.squaring import Squared

_MADE_BY = 3  # goes up with every change of what is read, so that older readings are made again
_SQUARED = 1400  # pixels on the longer side of the squared-up picture
_BLOCK = 360  # pixels on the side of a block's picture
_DIVISIONS = 24  # of the plain grids that draftings are handed over as
_one_at_a_time = threading.Lock()


@dataclass(frozen=True)
class KeptReading:
    """A photograph's layout, places in pixels of the original, and the draftings that fit."""

    reading: PhotographReading
    draftings: tuple[DraftingFit, ...]


def kept_reading(collection: Collection, quilt: Quilt, photograph: Photograph) -> KeptReading:
    """Return what the photograph tells; its corners have to be set.

    Raises as `squaring.shown` does.
    """
    file = _file(collection, quilt, photograph, "read.json")
    with _one_at_a_time:
        if not file.exists():
            made = _read(collection, quilt, photograph)
            write_whole(file, json.dumps(asdict(made), ensure_ascii=False).encode())
    return _from_plain(json.loads(file.read_text("utf-8")))


def squared_picture(collection: Collection, quilt: Quilt, photograph: Photograph) -> Path:
    """Return the file of the squared-up picture; raises as `kept_reading` does."""
    file = _file(collection, quilt, photograph, "squared.webp")
    with _one_at_a_time:
        if not is_whole(file):
            seen, how = shown(collection, photograph), _lies(quilt, photograph)
            moved = Squared(seen.scaled(how.corners), how.width, how.length)
            _write_webp(file, moved.picture(seen.picture, _SQUARED))
    return file


def block_picture(
    collection: Collection, quilt: Quilt, photograph: Photograph, number: int | None
) -> Path:
    """Return the file of one block's picture, counted from 1 row by row, or of their median.

    Raises FileNotFoundError where there is no such block, and as `kept_reading` does.
    """
    blocks = kept_reading(collection, quilt, photograph).reading.blocks
    if not blocks or (number is not None and not 0 < number <= len(blocks)):
        raise FileNotFoundError("The photograph shows no such block.")
    file = _file(collection, quilt, photograph, f"block-{number or 'median'}.webp")
    with _one_at_a_time:
        if not is_whole(file):
            seen = shown(collection, photograph)
            _write_webp(file, _picture_of_block(seen, blocks, number))
    return file


def _picture_of_block(seen: Shown, blocks: tuple[Corners, ...], number: int | None) -> Picture:
    outlines = [seen.scaled(each) for each in blocks]
    if number is None:
        return median_block(seen.picture, outlines, _BLOCK)
    return cut_block(seen.picture, outlines[number - 1], _BLOCK)


def _read(collection: Collection, quilt: Quilt, photograph: Photograph) -> KeptReading:
    seen, how = shown(collection, photograph), _lies(quilt, photograph)
    reading = read_photograph(
        seen.picture, seen.scaled(how.corners), width=how.width, length=how.length
    )
    fits: tuple[DraftingFit, ...] = ()
    if reading.blocks:
        fits = rank_draftings(median_block(seen.picture, reading.blocks, _BLOCK), _draftings())
    turned = tuple(
        TurnedBlock(**vars(block) | {"quad": seen.original(block.quad)}) for block in reading.turned
    )
    blocks = tuple(seen.original(each) for each in reading.blocks)
    placed = PhotographReading(**vars(reading) | {"turned": turned, "blocks": blocks})
    return KeptReading(placed, fits)


@cache
def _draftings() -> dict[str, tuple[tuple[str, ...], ...]]:
    """Every square design of the thesaurus as a plain grid of colour roles."""
    return {
        design.slug: grid_of_roles(design.draft, _DIVISIONS)
        for design in designs()
        if design.draft.height == 1
    }


def _lies(quilt: Quilt, photograph: Photograph) -> Squared:
    how = lies(quilt, photograph)
    assert how is not None
    return how


def _file(collection: Collection, quilt: Quilt, photograph: Photograph, name: str) -> Path:
    asked = json.dumps([_MADE_BY, photograph.corners, scale_of(quilt, photograph)])
    key = hashlib.sha256(asked.encode()).hexdigest()[:16]
    folder = collection.photographs / "smaller" / photograph.file[:2]
    return folder / f"{photograph.file}-{key}-{name}"


def _write_webp(file: Path, picture: Picture) -> None:
    write_whole(file, as_webp(picture))


def _from_plain(plain: dict[str, Any]) -> KeptReading:
    reading = plain["reading"]
    turned = tuple(
        TurnedBlock(**each | {"quad": _corners(each["quad"])}) for each in reading["turned"]
    )
    placed = PhotographReading(
        **reading
        | {
            "turned": turned,
            "cautions": tuple(reading["cautions"]),
            "blocks": tuple(_corners(each) for each in reading["blocks"]),
        }
    )
    return KeptReading(placed, tuple(DraftingFit(**each) for each in plain["draftings"]))


def _corners(plain: list[list[float]]) -> Corners:
    points = [(point[0], point[1]) for point in plain]
    return points[0], points[1], points[2], points[3]
