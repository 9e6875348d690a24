"""A photograph: its file, what is seen on it, and what was read from it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class PhotographColour:
    """One of the main colours of a photograph: trade name, plain word, #rrggbb, share of 1."""

    name: str
    plain: str
    code: str
    share: float
    id: int | None = None


@dataclass(frozen=True)
class TurnedBlock:
    """What a person decided about a block that a photograph shows turned: confirmed or dismissed.

    `across` and `down` count from 1 at the top left; `turn` is 90, 180, 270 or mirrored.
    """

    across: int
    down: int
    turn: str
    decision: str
    by: str
    at: str
    id: int | None = None


@dataclass(frozen=True)
class Photograph:
    """One photograph: `file` is the SHA-256 of the original, which is kept untouched.

    `corners` are those of the quilt, "x,y x,y x,y x,y" in pixels of the upright original, clockwise
    from the top left, and `grey_card` a place on one, "x,y"; both are empty until somebody sets
    them. The colours are what was read between the corners.
    """

    file: str
    format: str
    pixels_wide: int
    pixels_high: int
    view: str = "overall"
    caption: str = ""
    alternative_text: str = ""
    photographer: str = ""
    rights: str = ""
    corners: str = ""
    grey_card: str = ""
    colours: tuple[PhotographColour, ...] = ()
    turned_blocks: tuple[TurnedBlock, ...] = ()
    id: int | None = None
