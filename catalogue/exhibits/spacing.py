"""The quilts of one bay spaced as evenly as its obstacles allow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from catalogue.exhibits.bays import Bay, Span, left_edges
from catalogue.exhibits.hanging_rules import HangingRules
from catalogue.exhibits.walls import QuiltToHang

_SWEEPS = 40  # more move a dozen quilts by less than an inch
_FINENESS = 64  # positions are moved by whole 64ths of an inch


@dataclass(frozen=True)
class Row:
    """The quilts of one bay, in order; positions are those of their left edges."""

    bay: Bay
    quilts: Sequence[QuiltToHang]
    rules: HangingRules

    @property
    def gap(self) -> Fraction:
        """Least room between neighbours."""
        return self.bay.wall.gap(self.rules)

    def spaced(self) -> list[Fraction]:
        """The same gap everywhere where nothing is in the way, else as even as may be."""
        wished = list(_even(self.bay, self.quilts, self.gap))
        edges = self._nearest_to(wished)
        return edges if edges == wished else self._evened(edges)

    def _nearest_to(self, wished: Sequence[Fraction]) -> list[Fraction]:
        """Positions that may be, each as near to the one wished for as those before it allow."""
        found: list[Fraction] = []
        least = self.bay.usable[0]
        for quilt, wish, limit in zip(self.quilts, wished, self._rightmost(), strict=True):
            spans = left_edges(quilt, self.bay, self.rules)
            found.append(_nearest(wish, spans, least, limit))
            least = found[-1] + Fraction(quilt.width) + self.gap
        return found

    def _evened(self, edges: Sequence[Fraction]) -> list[Fraction]:
        """The positions after each quilt was moved, time and again, midway between its neighbours.

        What bounds a quilt is its neighbour or the obstacle that it must not cross.
        """
        spans = [
            next(
                span for span in left_edges(quilt, self.bay, self.rules) if span[0] <= x <= span[1]
            )
            for quilt, x in zip(self.quilts, edges, strict=True)
        ]
        found = list(edges)
        for _ in range(_SWEEPS):
            for index, span in enumerate(spans):
                found[index] = self._midway(index, span, found)
        return found

    def _midway(self, index: int, span: Span, edges: Sequence[Fraction]) -> Fraction:
        """The middle of the room that the quilt has, as near to it as the gaps allow."""
        width, (low, high) = Fraction(self.quilts[index].width), span
        left, right = self._bare_sides(width, span)
        if index:
            end = edges[index - 1] + Fraction(self.quilts[index - 1].width)
            left, low = max(left, end), max(low, end + self.gap)
        if index + 1 < len(edges):
            begin = edges[index + 1]
            right, high = min(right, begin), min(high, begin - self.gap - width)
        middle = Fraction(round((left + right - width) / 2 * _FINENESS), _FINENESS)
        return min(max(middle, low), high)

    def _bare_sides(self, width: Fraction, span: Span) -> Span:
        """What bounds the span itself: the ends of the bay, or the sides of obstacles."""
        (low, high), bay = span, self.bay
        left = bay.bare[0] if low == bay.usable[0] else low - self.rules.obstacle_gap
        at_end = high + width == bay.usable[1]
        return left, bay.bare[1] if at_end else high + width + self.rules.obstacle_gap

    def _rightmost(self) -> list[Fraction]:
        """How far right each may be so that those after it still find their places."""
        limits: list[Fraction] = []
        end = self.bay.usable[1] + self.gap
        for quilt in reversed(self.quilts):
            most = end - self.gap - Fraction(quilt.width)
            edges = left_edges(quilt, self.bay, self.rules)
            end = max(min(high, most) for low, high in edges if low <= most)
            limits.append(end)
        return limits[::-1]


def _even(bay: Bay, quilts: Sequence[QuiltToHang], gap: Fraction) -> Iterator[Fraction]:
    """Left edges with the same gap between all and at both ends, or nearly so where it is tight."""
    total = sum((Fraction(quilt.width) for quilt in quilts), Fraction(0))
    (left, right), (nearest, furthest) = bay.bare, bay.usable
    between = max((right - left - total) / (len(quilts) + 1), gap)
    if len(quilts) > 1:
        between = min(between, (furthest - nearest - total) / (len(quilts) - 1))
    covered = total + between * (len(quilts) - 1)
    x = min(max((left + right - covered) / 2, nearest), furthest - covered)
    for quilt in quilts:
        yield x
        x += Fraction(quilt.width) + between


def _nearest(wished: Fraction, spans: Sequence[Span], least: Fraction, most: Fraction) -> Fraction:
    """The point of the spans between `least` and `most` that is nearest to the one wished for."""
    inside = [(max(low, least), min(high, most)) for low, high in spans]
    points = [min(max(wished, low), high) for low, high in inside if low <= high]
    return min(points, key=lambda point: abs(point - wished))
