"""Strips that run the whole length: bars, strippy and zigzag sets."""

from __future__ import annotations

import numpy as np

from catalogue.photographs.field import Extent, full_seams
from catalogue.photographs.lattice import Lattice
from catalogue.photographs.surface import Surface

_PHASES = 32  # places in a repeat at which a seam is sought
_ABOUT = 2  # pixels to either side of each
_LASTING = 5.0  # colour difference (CIELAB) that shows the whole length where strips meet
_BROKEN = 1 / 3  # of that, which no seam shows the other way


def lies_in_strips(surface: Surface, lattice: Lattice, extent: Extent) -> bool:
    """Whether two kinds of strip take turns, with seams the whole length and none across it."""
    across = _lasting_seam(surface, extent, lattice.period[0])
    down = _lasting_seam(surface.transposed(), extent.transposed(), lattice.period[1])
    if lattice.turns == "columns":
        return across > _LASTING and down < _BROKEN * across
    return lattice.turns == "rows" and down > _LASTING and across < _BROKEN * down


def _lasting_seam(surface: Surface, extent: Extent, period: float) -> float:
    """The colour difference all along an upright seam that most repeats show at one place."""
    seams = full_seams(surface.colour, extent.top, extent.bottom)
    repeats = int((extent.right - extent.left) / period)
    if not repeats:
        return 0.0
    places = extent.left + np.arange(repeats * _PHASES) / _PHASES * period
    strongest = [
        seams[max(0, round(at) - _ABOUT) : round(at) + _ABOUT + 1].max() for at in places.tolist()
    ]
    return float(np.median(np.reshape(strongest, (repeats, _PHASES)), axis=0).max())
