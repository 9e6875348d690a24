"""Places on a picture, typed as numbers or moved by hand: four corners, a grey card, a ruler."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite

from catalogue.collection.squaring import FROM_PHOTOGRAPH, READABLE
from catalogue.photographs.homography import CORNERS, Corners, CornersError, checked_corners
from catalogue.values.lengths import LengthError, parse_length
from catalogue.web.addresses import whole_number

__all__ = ["FROM_PHOTOGRAPH", "REACH", "READABLE", "CornersForm", "Place", "RulerForm"]


REACH = 0.25  # of the picture's longer side by which a corner may lie outside of it
MOST_PARTS = 20


@dataclass
class Place:
    """One place on the picture: what it is, the names of its two boxes, and what was typed."""

    label: str
    name: str
    x: str = ""
    y: str = ""
    error: str = ""


class CornersForm:
    """The four corners and, if there is one, a place on a grey card, in pixels of the original."""

    def __init__(self, pixels: tuple[int, int], corners: Corners, grey_card: str = "") -> None:
        self.pixels = pixels
        self.error = ""
        self.places = [
            Place(label, f"corner{number}", f"{x:g}", f"{y:g}")
            for number, (label, (x, y)) in enumerate(zip(CORNERS, corners, strict=True))
        ]
        self.card = Place("grey card", "card", *grey_card.split(",", 1))

    def fill(self, form: Mapping[str, str]) -> None:
        """Take over what was typed, right or wrong."""
        for place in (*self.places, self.card):
            place.x = form.get(f"{place.name}-x", "").strip()[:20]
            place.y = form.get(f"{place.name}-y", "").strip()[:20]

    def corners(self) -> Corners | None:
        """Return the corners, None where something is wrong; the form then says what."""
        # A corner may lie a little outside of what the camera caught.
        points = [self._point(place, REACH * max(self.pixels)) for place in self.places]
        if any(point is None for point in points):
            return None
        try:
            return checked_corners([point for point in points if point is not None])
        except CornersError as error:
            self.error = str(error)
            return None

    def grey_card(self) -> str | None:
        """Return the place on the grey card as the record keeps it, None where it is wrong."""
        if not (self.card.x or self.card.y):
            return ""
        point = self._point(self.card, 0)
        return f"{point[0]:.1f},{point[1]:.1f}" if point is not None else None

    def _point(self, place: Place, reach: float) -> tuple[float, float] | None:
        values = [_number(text) for text in (place.x, place.y)]
        if None in values:
            place.error = f"“{place.x}, {place.y}” are not two numbers."
            return None
        x, y = (float(value) for value in values if value is not None)
        if not (-reach <= x <= self.pixels[0] + reach and -reach <= y <= self.pixels[1] + reach):
            far = "far " if reach else ""
            place.error = f"{place.x}, {place.y} lies {far}outside of the picture."
            return None
        return x, y


def _number(text: str) -> float | None:
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        return None
    return value if isfinite(value) else None


class RulerForm:
    """Two places on the squared-up picture, in inches from its top left corner."""

    def __init__(self, width: float, length: float, arguments: Mapping[str, str]) -> None:
        self.size = width, length
        self.ends = [
            Place("from", "from", f"{width / 4:.2f}", f"{length / 2:.2f}"),
            Place("to", "to", f"{3 * width / 4:.2f}", f"{length / 2:.2f}"),
        ]
        self.which = arguments.get("which", "").strip()[:20] or "1"
        self.which_error = ""
        for place in self.ends:
            place.x = arguments.get(f"{place.name}-x", place.x).strip()[:20]
            place.y = arguments.get(f"{place.name}-y", place.y).strip()[:20]

    def typed(self) -> dict[str, str]:
        """Return what was typed, by the names of the boxes."""
        places = {f"{end.name}-{axis}": getattr(end, axis) for end in self.ends for axis in "xy"}
        return {**places, "which": self.which}

    def number(self) -> int | None:
        """Return which of several parts is meant, None where that is no number; it says so then."""
        found = whole_number(self.which, MOST_PARTS)
        if not found:
            self.which_error = f"“{self.which}” is not a whole number from 1 to {MOST_PARTS}."
        return found or None

    def points(self) -> list[tuple[float, float]] | None:
        """Return both places in inches, None where one is wrong; it then says what."""
        found = [self._point(place) for place in self.ends]
        return None if None in found else [point for point in found if point is not None]

    def _point(self, place: Place) -> tuple[float, float] | None:
        values = []
        for text, most in zip((place.x, place.y), self.size, strict=True):
            try:
                # A place may be 0 across or down, though no length is.
                at_edge = _number(text.removesuffix("in")) == 0
                inches = 0.0 if at_edge else float(parse_length(text, "in"))
            except LengthError as error:
                place.error = str(error)
                return None
            if not 0 <= inches <= most + 0.01:
                place.error = f"{text} in lies beside the quilt, which measures {most:g} in there."
                return None
            values.append(inches)
        return values[0], values[1]
