"""The drawing of a measuring sheet: where to hold the tape, each place numbered."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, cos, hypot, sin

from catalogue.measurement.drawing_pieces import Kind, PieceArray, Point
from catalogue.measurement.drawing_quilt import Frame, Quilt, quilt_markup, quilt_of
from catalogue.measurement.drawing_svg import Pen, labelled, number
from catalogue.measurement.layouts import Dimensions, Layout, Pieces, Sides, Size

EXAMPLE = Layout(
    setting="straight",
    sashing="framed",
    columns=3,
    rows=4,
    details=(),
    pieces=Pieces(12, sash_strips=31, cornerstones=20),
    predicted=Size(58, 74),
    difference=Size(0, 0),
    probability=1.0,
    tie=None,
    grounds="An invented quilt with every part there is to measure.",
    dimensions=Dimensions(
        Size(58, 74), Size(12, 12), 2, True, (Sides(6.5, 6.5, 7.5, 7.5),), 0.5, None
    ),
)
"""The quilt on a sheet printed before anything is known."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where to hold the tape: its number on the drawing, the reading it gives, and how.

    `path` is the place of the reading in the record, as "overall.width". `start` and `end` are
    inches from the quilt's top left corner; `mark` is where the number stands.
    """

    number: int
    path: str
    says: str
    start: Point
    end: Point
    mark: Point


def measuring_places(layout: Layout = EXAMPLE) -> tuple[Place, ...]:
    """Every place to measure on such a quilt, numbered from the overall size inwards."""
    quilt = quilt_of(layout)
    found = [*_overall(quilt), *_block(quilt), *_sash(quilt), *_borders(quilt), *_binding(quilt)]
    return tuple(
        Place(index, path, says, start, end, mark)
        for index, (path, says, start, end, mark) in enumerate(found, 1)
    )


def draw_measuring_sheet(
    layout: Layout = EXAMPLE, *, prefix: str = "sheet", plain_colours: bool = False
) -> str:
    """The quilt in lines, with the tape laid where it is to be read and every place numbered.

    The numbers are those of `measuring_places`, which says in words what each one is.
    """
    pen = Pen(prefix, plain_colours, line_drawing=True)
    quilt = quilt_of(layout)
    places = measuring_places(layout)
    radius = _radius(quilt)
    marks = "".join(_marked(place, radius, pen) for place in places)
    edge = radius * 4
    view = (-edge, -edge, quilt.width + 2 * edge, quilt.length + edge * 1.5)
    listed = " ".join(f"{place.number}: {place.says}." for place in places)
    return labelled(
        pen,
        "Where to measure",
        f"A quilt with {len(places)} numbered places to hold the tape. {listed}",
        " ".join(number(value) for value in view),
        quilt_markup(quilt, pen) + f'<g class="drawing-places">{marks}</g>',
    )


_Found = tuple[str, str, Point, Point, Point]


def _radius(quilt: Quilt) -> float:
    return max(quilt.width, quilt.length) * 0.024


def _overall(quilt: Quilt) -> Iterator[_Found]:
    """Three readings each way, near both edges and in the middle."""
    out = _radius(quilt) * 2
    across = (("near the top", 1 / 12), ("across the middle", 0.5), ("near the bottom", 11 / 12))
    for where, share in across:
        y = quilt.length * share
        says = f"Overall width {where}, edge to edge"
        yield "overall.width", says, (0, y), (quilt.width, y), (-out, y)
    down = (("near the left", 1 / 12), ("down the middle", 0.5), ("near the right", 11 / 12))
    for where, share in down:
        x = quilt.width * share
        says = f"Overall length {where}, edge to edge"
        yield "overall.length", says, (x, 0), (x, quilt.length), (x, -out)


def _block(quilt: Quilt) -> Iterator[_Found]:
    """A block along its own two sides, seam to seam; two to five blocks are to be measured."""
    shape = _near(quilt, "blocks", (0.3, 0.3))
    if shape is None:
        return
    if quilt.layout.setting == "hexagon":
        yield from _hexagon(quilt, shape)
        return
    again = "along its own side, seam to seam; repeat on two to five blocks"
    for path, name, start, end in (
        ("block.width", "Block width", shape[0], shape[1]),
        ("block.length", "Block length", shape[1], shape[2]),
    ):
        mark = _beyond(_centre(shape), _between(start, end), _radius(quilt) * 1.5)
        yield path, f"{name} {again}", start, end, mark


def _hexagon(quilt: Quilt, shape: Sequence[Point]) -> Iterator[_Found]:
    out = _radius(quilt) * 1.5
    sides = (shape[0], shape[3]), (_between(shape[1], shape[2]), _between(shape[4], shape[5]))
    (point, opposite), (flat, other) = sides
    yield "block.width", "Hexagon, point to point", point, opposite, _beyond(opposite, point, out)
    yield "block.length", "Hexagon, flat side to flat side", flat, other, _beyond(other, flat, out)


def _sash(quilt: Quilt) -> Iterator[_Found]:
    """Across a strip, which is narrower than it is long."""
    shape = _near(quilt, "sash_strips", (0.7, 0.3))
    if shape is None:
        return
    a, b, c, d = shape[:4]
    if _distance(a, b) > _distance(b, c):
        a, b, c, d = b, c, d, a
    start, end = _towards(a, d, 0.4), _towards(b, c, 0.4)
    mark = _beyond(_between(c, d), _between(start, end), _radius(quilt) * 1.5)
    yield "sashing.width", "Sashing, seam to seam across the strip", start, end, mark


def _borders(quilt: Quilt) -> Iterator[_Found]:
    """Each border from the inside out, on a side that has it."""
    borders = quilt.layout.dimensions.borders
    frames = quilt.frames[len(quilt.frames) - 1 - len(borders) : -1]
    for index, (sides, frame) in enumerate(zip(borders, reversed(frames), strict=True)):
        says = f"Border {index + 1} from the inside, seam to seam"
        place = _border_place(quilt, sides, frame, _radius(quilt) * 2.4 * (index + 1))
        yield f"borders.{index}.width", says, *place


def _border_place(
    quilt: Quilt, sides: Sides, frame: Frame, shift: float
) -> tuple[Point, Point, Point]:
    """Across the border at the left, or on another side where it has none there."""
    beside = _radius(quilt) * 1.4
    x, y = quilt.width * 0.72 - shift, quilt.length * 0.6 + shift
    ways = (
        (sides.left, (frame.x, y), (1, 0)),
        (sides.right, (frame.x + frame.width, y), (-1, 0)),
        (sides.top, (x, frame.y), (0, 1)),
        (sides.bottom, (x, frame.y + frame.length), (0, -1)),
    )
    width, start, (right, below) = next((way for way in ways if way[0]), ways[0])
    end = start[0] + right * width, start[1] + below * width
    middle = _between(start, end)
    return start, end, (middle[0] + abs(below) * beside, middle[1] + abs(right) * beside)


def _binding(quilt: Quilt) -> Iterator[_Found]:
    wide = quilt.layout.dimensions.binding
    if not wide:
        return
    y, out = quilt.length * 0.7, _radius(quilt) * 2
    says = "Binding as it shows from the front; say whether the border includes it"
    yield "binding.width", says, (quilt.width - wide, y), (quilt.width, y), (quilt.width + out, y)


def _near(quilt: Quilt, kind: Kind, target: Point) -> tuple[Point, ...] | None:
    """The piece of that kind nearest to a place given in shares of the quilt, where there is one.

    Off the middle, so that its numbers keep clear of the tape laid over the whole quilt.
    """
    aim = quilt.width * target[0], quilt.length * target[1]
    pieces = [
        _nearest(array.moved(*quilt.origin), aim)
        for array in quilt.field.arrays
        if array.kind == kind
    ]
    return min(pieces, key=lambda shape: _distance(_centre(shape), aim), default=None)


def _nearest(array: PieceArray, aim: Point) -> tuple[Point, ...]:
    x, y = _centre(array.shape)
    column = _index(aim[0] - x, array.step[0], array.across)
    row = _index(aim[1] - y, array.step[1], array.down)
    return array.moved(column * array.step[0], row * array.step[1]).shape


def _index(off: float, step: float, count: int) -> int:
    return min(count - 1, max(0, round(off / step))) if step else 0


def _marked(place: Place, radius: float, pen: Pen) -> str:
    """The tape with its two ends and the number in a disc."""
    ink, paper = pen.colour("measured"), pen.colour("ground")
    (x, y), (ax, ay), (bx, by) = place.mark, place.start, place.end
    turn = atan2(by - ay, bx - ax)
    tick_x, tick_y = radius * 0.5 * sin(turn), -radius * 0.5 * cos(turn)
    ends = "".join(
        f"M{number(px - tick_x)} {number(py - tick_y)}L{number(px + tick_x)} {number(py + tick_y)}"
        for px, py in (place.start, place.end)
    )
    return (
        f'<g class="drawing-place"><path d="M{number(ax)} {number(ay)}L{number(bx)} {number(by)}'
        f'{ends}" fill="none" stroke="{ink}" stroke-width="{number(radius * 0.16)}"/>'
        f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}" fill="{paper}"'
        f' stroke="{ink}" stroke-width="{number(radius * 0.12)}"/>'
        f'<text x="{number(x)}" y="{number(y + radius * 0.42)}" font-size="{number(radius * 1.2)}"'
        f' text-anchor="middle" fill="{pen.colour("ink")}">{place.number}</text></g>'
    )


def _centre(shape: Sequence[Point]) -> Point:
    return sum(x for x, _ in shape) / len(shape), sum(y for _, y in shape) / len(shape)


def _between(a: Point, b: Point) -> Point:
    return _towards(a, b, 0.5)


def _towards(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _beyond(a: Point, b: Point, out: float) -> Point:
    """The point `out` further on than b, seen from a."""
    return _towards(a, b, 1 + out / (_distance(a, b) or 1))


def _distance(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])
