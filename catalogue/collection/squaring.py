"""Where the quilt lies in a photograph, and what its colours are there: kept on the record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from catalogue.collection import photographs
from catalogue.collection.folder import Collection
from catalogue.collection.measuring import overall_size
from catalogue.collection.records import Photograph, PhotographColour, Quilt, Reading
from catalogue.photographs.colours import read_colours
from catalogue.photographs.corners import ProposedCorners, propose_corners
from catalogue.photographs.derivatives import SIZES, Picture
from catalogue.photographs.homography import Corners, Point, checked_corners
from catalogue.photographs.squaring import Distance, Squared, squared
from catalogue.photographs.upright import upright

# Views that show the whole quilt, whose size the tape knows.
WHOLE = ("overall", "back")
FROM_PHOTOGRAPH = "from photograph"
# What may be read from a photograph. The overall size is what it takes its scale from.
READABLE = ("block", "sashing", "border", "patch")


@dataclass(frozen=True)
class Shown:
    """The picture that is looked at, reduced, and how many of its pixels make one of the original.

    All places on record are in pixels of the upright original.
    """

    picture: Picture
    share: float

    def scaled(self, corners: Corners) -> Corners:
        """Corners of the original as those of this picture."""
        return _scaled(corners, self.share)

    def original(self, corners: Corners) -> Corners:
        """Corners of this picture as those of the original."""
        return _scaled(corners, 1 / self.share)


def _scaled(corners: Corners, share: float) -> Corners:
    points = [(round(x * share, 2), round(y * share, 2)) for x, y in corners]
    return points[0], points[1], points[2], points[3]


def shown(collection: Collection, photograph: Photograph) -> Shown:
    """Return the picture of a photograph to look at.

    Raises FileNotFoundError where the original is missing, PhotographError where it is damaged.
    """
    data = photographs.smaller(collection, photograph, "large", "jpg").read_bytes()
    picture = upright(data, SIZES["large"])
    return Shown(picture, picture.width / photograph.pixels_wide)


def corners_from_text(text: str) -> Corners | None:
    """Return corners as they are kept on record, None where there are none. Raises CornersError."""
    if not text:
        return None
    return checked_corners([[float(part) for part in point.split(",")] for point in text.split()])


def corners_to_text(corners: Corners) -> str:
    """Return corners as the record keeps them, to a tenth of a pixel."""
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in corners)


def proposed(collection: Collection, photograph: Photograph) -> ProposedCorners:
    """Return where the corners may lie. Raises as `shown` does."""
    seen = shown(collection, photograph)
    found = propose_corners(seen.picture)
    return replace(found, corners=seen.original(found.corners))


def with_corners(
    collection: Collection, photograph: Photograph, corners: Corners, grey_card: str
) -> Photograph:
    """Return the photograph with its corners, and the colours between them. Raises as `shown`."""
    seen = shown(collection, photograph)
    place: Point | None = None
    if grey_card:
        x, y = (float(part) * seen.share for part in grey_card.split(","))
        place = x, y
    colours = read_colours(seen.picture, seen.scaled(corners), place).colours
    return replace(
        photograph,
        corners=corners_to_text(corners),
        grey_card=grey_card,
        colours=tuple(PhotographColour(c.name, c.plain, c.hex, c.share) for c in colours),
    )


def lies(quilt: Quilt, photograph: Photograph) -> Squared | None:
    """Return how the quilt lies in the photograph, None until its corners are set."""
    corners = corners_from_text(photograph.corners)
    if corners is None:
        return None
    width, length = scale_of(quilt, photograph) or (None, None)
    return squared(corners, (photograph.pixels_wide, photograph.pixels_high), width, length)


def scale_of(quilt: Quilt, photograph: Photograph) -> tuple[float, float] | None:
    """Return the tape's width and length, where the photograph shows the whole quilt."""
    size = overall_size(quilt) if photograph.view in WHOLE else None
    return (float(size.width), float(size.length)) if size is not None else None


def reading_of(
    distance: Distance, part: str, number: int, dimension: str, by: str, on: str
) -> Reading:
    """Return a distance on a photograph as a reading, to an eighth of an inch, with its error."""
    inches = Fraction(round(distance.inches * 8), 8)
    error = max(Fraction(round(distance.error * 16), 16), Fraction(1, 16))
    written = f"{float(inches):g} in"
    return Reading(part, dimension, written, inches, number, FROM_PHOTOGRAPH, by, on, error)
