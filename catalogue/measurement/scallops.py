"""Scalloped edges: what a reading to the outermost or the innermost points says of the quilt.

The outermost points of the scallops touch the line of the straight edge they were cut from, so the
outermost reading is the overall size that blocks and borders add up to; the innermost is less by
the depth of the scallops on both sides (geometry).
"""

from dataclasses import dataclass
from math import isfinite

FROM_INNERMOST = 0.8
"""Certainty of an overall made up from the innermost points and a depth: judgement, as one scallop
seldom speaks for all (common practice, no source)."""


class ScallopError(ValueError):
    """The readings of a scalloped edge contradict each other; the message quotes them."""


@dataclass(frozen=True, slots=True)
class ScallopedOverall:
    """The overall size behind a scalloped edge, in inches, with its grounds.

    `at_least` is True where only the innermost points were read, so that the size is a lower bound.
    `depth` is that of the scallops, None where unknown. `certainty` is 1 for a reading that is the
    overall itself and 0 for a bare bound.
    """

    overall: float
    depth: float | None
    at_least: bool
    certainty: float
    grounds: str


def overall_from_scallops(
    outermost: float | None = None, innermost: float | None = None, depth: float | None = None
) -> ScallopedOverall:
    """The overall size, in inches, that the inference takes for one axis of a scalloped quilt.

    `outermost` and `innermost` run from edge to edge; `depth` is that of one scallop. Raises
    ScallopError where nothing or something impossible is given, or the three do not agree to
    within half an inch.
    """
    _require_lengths(outermost, innermost, depth)
    if outermost is not None:
        return _to_outermost(outermost, innermost, depth)
    if innermost is None:
        raise ScallopError("Neither the outermost nor the innermost points were measured.")
    if depth is None:
        says = f"{innermost:g} in runs between the innermost points; their depth is not known."
        return ScallopedOverall(innermost, None, True, 0.0, says)
    says = f"{innermost:g} in between the innermost points and two depths of {depth:g} in."
    return ScallopedOverall(innermost + 2 * depth, depth, False, FROM_INNERMOST, says)


def _to_outermost(
    outermost: float, innermost: float | None, depth: float | None
) -> ScallopedOverall:
    says = f"{outermost:g} in runs between the outermost points, where the edge was straight."
    if innermost is None:
        return ScallopedOverall(outermost, depth, False, 1.0, says)
    found = (outermost - innermost) / 2
    if depth is not None and abs(found - depth) > 0.5:
        raise ScallopError(
            f"Between {outermost:g} and {innermost:g} in the scallops would be {found:g} in deep,"
            f" not {depth:g}."
        )
    return ScallopedOverall(outermost, found, False, 1.0, says)


def _require_lengths(outermost: float | None, innermost: float | None, depth: float | None) -> None:
    for value in (outermost, innermost, depth):
        if value is not None and not (isfinite(value) and value > 0):
            raise ScallopError(f"{value} in is not a length of a scalloped edge.")
    if outermost is not None and innermost is not None and innermost >= outermost:
        raise ScallopError(
            f"The innermost points, {innermost:g} in apart, lie outside the outermost,"
            f" {outermost:g} in apart: the two are probably swapped."
        )
