"""Where the pieces of sets on point, zigzags, and columns on point lie."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from catalogue.measurement.drawing_pieces import Field, Kind, PieceArray, Point, present
from catalogue.measurement.layouts import (
    ALTERNATE_BLOCKS,
    CORNERSTONE_CENTRED,
    OUTSIDE_STRIPS,
    Layout,
    Sides,
)

ROOT_2 = sqrt(2)
NO_FLOAT = Sides(0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class _Net:
    """The net that blocks on point hang in: pitch from point to point, half a block across its
    points, and `reach` from the centre of an outer block to the edge of the net."""

    columns: int
    rows: int
    block: float
    sash: float
    framed: bool
    joined: bool

    @property
    def pitch(self) -> float:
        return (self.block + self.sash) * ROOT_2

    @property
    def half(self) -> float:
        return self.block / ROOT_2

    @property
    def reach(self) -> float:
        return self.pitch / 2 if self.framed else self.half

    @property
    def width(self) -> float:
        return (self.columns - 1) * self.pitch + 2 * self.reach

    @property
    def length(self) -> float:
        return (self.rows - 1) * self.pitch + 2 * self.reach

    def array(self, kind: Kind, shape: tuple[Point, ...], across: int, down: int) -> PieceArray:
        """A shape repeated at every pitch."""
        return PieceArray(kind, shape, across, down, (self.pitch, self.pitch))


def on_point(layout: Layout, block: float, sash: float) -> Field:
    """A set on point in any of its sashings, the triangles cut large where it floats."""
    joined = bool(layout.dimensions.cornerstones)
    framed = layout.sashing == "framed" or CORNERSTONE_CENTRED in layout.details
    net = _Net(layout.columns or 1, layout.rows or 1, block, sash, framed, joined)
    if CORNERSTONE_CENTRED in layout.details:
        return Field(net.width, net.length, present(_cornerstone_centred(net)))
    margin = layout.dimensions.float_margin or NO_FLOAT
    arrays = [*_triangles(net, margin), *_blocks(layout, net)]
    if layout.sashing != "none":
        arrays += _sashing(net)
    return Field(
        net.width + margin.left + margin.right,
        net.length + margin.top + margin.bottom,
        present(array.moved(margin.left, margin.top) for array in arrays),
    )


def columns_on_point(layout: Layout, block: float, sash: float) -> Field:
    """A strippy whose columns of blocks stand on their points, with strips between."""
    columns, rows, across = layout.columns or 1, layout.rows or 1, block * ROOT_2
    outside = OUTSIDE_STRIPS in layout.details or layout.sashing == "framed"
    first, strips = (sash, columns + 1) if outside else (0.0, columns - 1)
    strip_at = 0.0 if outside else across
    step, length = across + sash, rows * across
    strip = _upright(strip_at, sash, length)
    arrays = [
        PieceArray("sash_strips", strip, strips, 1, (step, 0)),
        *_column(first, columns, step, across / 2, rows),
    ]
    width = columns * across + strips * sash
    return Field(width, length, present(arrays))


def zigzag(layout: Layout, block: float) -> Field:
    """Columns of blocks on point, every second one dropped by half a block."""
    columns, rows, across = layout.columns or 1, layout.rows or 1, block * ROOT_2
    full, dropped = columns - columns // 2, columns // 2
    arrays = [
        *_column(0.0, full, 2 * across, across / 2, rows),
        *_dropped_column(across, dropped, 2 * across, across / 2, rows),
    ]
    return Field(columns * across, rows * across, present(arrays))


def centre_on_point(layout: Layout, block: float) -> Field:
    """The centre of a medallion standing on its point, squared up by corner triangles."""
    net = _Net(1, 1, block, 0, framed=False, joined=False)
    corners = _corners(net, NO_FLOAT) if layout.pieces.corner_triangles else ()
    centre = net.array("blocks", diamond(net.half, net.half, net.half), 1, 1)
    return Field(net.width, net.length, present([*corners, centre]))


def diamond(x: float, y: float, half: float) -> tuple[Point, ...]:
    """A square on its point about (x, y), `half` from its centre to each point."""
    return ((x, y - half), (x + half, y), (x, y + half), (x - half, y))


def _upright(x: float, width: float, length: float) -> tuple[Point, ...]:
    return ((x, 0.0), (x + width, 0.0), (x + width, length), (x, length))


def _blocks(layout: Layout, net: _Net) -> Iterator[PieceArray]:
    main, inner = _kinds(layout, net.columns * net.rows)
    yield net.array(main, diamond(net.reach, net.reach, net.half), net.columns, net.rows)
    start = net.reach + net.pitch / 2
    yield net.array(inner, diamond(start, start, net.half), net.columns - 1, net.rows - 1)


def _kinds(layout: Layout, main: int) -> tuple[Kind, Kind]:
    """Which kind the main grid and the blocks between are; the pieced ones may be either."""
    if ALTERNATE_BLOCKS not in layout.details:
        return "blocks", "blocks"
    pieced_main = layout.pieces.blocks == main
    return ("blocks", "alternate_blocks") if pieced_main else ("alternate_blocks", "blocks")


def _sashing(net: _Net) -> Iterator[PieceArray]:
    """Strips on all sides of the outer blocks, or only of the blocks between them."""
    joints = list(_joints(net))
    if net.framed:
        joints += _cut_joints(net, 0)
    if not net.joined:
        yield from joints
    if net.framed:
        yield from _strips(net, net.reach, net.columns, net.rows)
    else:
        yield from _strips(net, net.reach + net.pitch / 2, net.columns - 1, net.rows - 1)
    if net.joined:
        yield from joints


def _joints(net: _Net) -> Iterator[PieceArray]:
    """Where strips meet: cornerstones, or else the ground that strips running through cover."""
    kind: Kind = "cornerstones" if net.joined else "cut_strips"
    point, between = net.sash / ROOT_2, net.reach + net.pitch / 2
    yield net.array(kind, diamond(between, net.reach, point), net.columns - 1, net.rows)
    yield net.array(kind, diamond(net.reach, between, point), net.columns, net.rows - 1)


def _strips(
    net: _Net, start: float, across: int, down: int, *, radial: bool = False
) -> Iterator[PieceArray]:
    """The four strips about each place, round a block or, `radial`, out from a joint.

    Without cornerstones those one way run through, each to the middle of the joints at its ends.
    """
    away = net.pitch / 4
    for right, below in ((1, -1), (1, 1), (-1, 1), (-1, -1)):
        slope = right * below if radial else -right * below
        long = net.block if net.joined or slope < 0 else net.block + net.sash
        shape = _strip(start + right * away, start + below * away, long, net.sash, slope)
        yield net.array("sash_strips", shape, across, down)


def _strip(x: float, y: float, long: float, wide: float, slope: int) -> tuple[Point, ...]:
    """A strip about (x, y) at 45 degrees, falling to the right where `slope` is 1."""
    a, b = (long + wide) / 2 / ROOT_2, (long - wide) / 2 / ROOT_2
    corners = ((-b, -a), (a, b), (b, a), (-a, -b))
    return tuple((x + px, y + py * slope) for px, py in corners)


def _cut_joints(net: _Net, first: float) -> Iterator[PieceArray]:
    """The half joints where sashing on point meets the straight edge, `first` from the corner."""
    kind: Kind = "cut_cornerstones" if net.joined else "cut_strips"
    point = net.sash / ROOT_2
    begin = net.pitch / 2 + first
    fewer = 1 if first else 0
    across, down = net.columns - fewer, net.rows - fewer
    for edge, inward in ((0.0, point), (net.length, -point)):
        shape = ((begin - point, edge), (begin + point, edge), (begin, edge + inward))
        yield net.array(kind, shape, across, 1)
    for edge, inward in ((0.0, point), (net.width, -point)):
        shape = ((edge, begin - point), (edge, begin + point), (edge + inward, begin))
        yield net.array(kind, shape, 1, down)


def _triangles(net: _Net, margin: Sides) -> Iterator[PieceArray]:
    """Side and corner triangles, each drawn out over the float margin on its side."""
    inset = net.reach - net.half
    begin, base = net.reach + inset, net.pitch - 2 * inset
    for far, sign, out in ((0.0, 1, margin.top), (net.length, -1, margin.bottom)):
        level = tuple((u, far + sign * v) for u, v in _drawn_out(begin, base, inset, out))
        yield net.array("side_triangles", level, net.columns - 1, 1)
    for far, sign, out in ((0.0, 1, margin.left), (net.width, -1, margin.right)):
        upright = tuple((far + sign * v, u) for u, v in _drawn_out(begin, base, inset, out))
        yield net.array("side_triangles", upright, 1, net.rows - 1)
    yield from _corners(net, margin)


def _drawn_out(begin: float, base: float, inset: float, out: float) -> tuple[Point, ...]:
    """A side triangle by distance along the edge and inwards from it, with `out` beyond it.

    What lies beyond reaches `inset` further both ways, to the middle of the blocks' points.
    """
    end = begin + base
    triangle = ((end, 0.0), (begin + base / 2, base / 2), (begin, 0.0))
    if not out:
        return triangle
    beyond = ((begin - inset, -out), (end + inset, -out))
    if not inset:
        return (*beyond, *triangle)
    return (*beyond, (end + inset, 0.0), *triangle, (begin - inset, 0.0))


def _corners(net: _Net, margin: Sides) -> Iterator[PieceArray]:
    leg, reach = net.half, net.reach
    for far_x, right, out_x in ((0.0, 1, margin.left), (net.width, -1, margin.right)):
        for far_y, below, out_y in ((0.0, 1, margin.top), (net.length, -1, margin.bottom)):
            corner = [(-out_x, -out_y), (leg, -out_y), (leg, 0.0), (0.0, leg), (-out_x, leg)]
            if reach > leg and (out_x or out_y):
                corner[1:2] = [(reach, -out_y), (reach, 0.0)]
                corner[-1:] = [(0.0, reach), (-out_x, reach)]
            shape = tuple((far_x + right * u, far_y + below * v) for u, v in corner)
            yield net.array("corner_triangles", shape, 1, 1)


def _cornerstone_centred(net: _Net) -> Iterator[PieceArray]:
    """Blocks on the edges of the net of pitches, cornerstones on its centres and inner corners."""
    pitch, half = net.pitch, net.half
    columns, rows = net.columns, net.rows
    yield net.array("blocks", diamond(pitch, pitch / 2, half), columns - 1, rows)
    yield net.array("blocks", diamond(pitch / 2, pitch, half), columns, rows - 1)
    for edge, inward in ((0.0, half), (net.length, -half)):
        shape = ((pitch / 2 - half, edge), (pitch / 2 + half, edge), (pitch / 2, edge + inward))
        yield net.array("half_blocks", shape, columns, 1)
    for edge, inward in ((0.0, half), (net.width, -half)):
        shape = ((edge, pitch / 2 - half), (edge, pitch / 2 + half), (edge + inward, pitch / 2))
        yield net.array("half_blocks", shape, 1, rows)
    joints = [
        *_centred_joints(net),
        *_cut_joints(net, pitch / 2),
        *_quarter_joints(net),
    ]
    if not net.joined:
        yield from joints
    yield from _strips(net, pitch / 2, columns, rows, radial=True)
    if net.joined:
        yield from joints


def _centred_joints(net: _Net) -> Iterator[PieceArray]:
    kind: Kind = "cornerstones" if net.joined else "cut_strips"
    pitch, point = net.pitch, net.sash / ROOT_2
    yield net.array(kind, diamond(pitch / 2, pitch / 2, point), net.columns, net.rows)
    yield net.array(kind, diamond(pitch, pitch, point), net.columns - 1, net.rows - 1)


def _quarter_joints(net: _Net) -> Iterator[PieceArray]:
    kind: Kind = "cut_cornerstones" if net.joined else "cut_strips"
    point = net.sash / ROOT_2
    for x, right in ((0.0, point), (net.width, -point)):
        for y, below in ((0.0, point), (net.length, -point)):
            yield net.array(kind, ((x, y), (x + right, y), (x, y + below)), 1, 1)


def _column(left: float, many: int, step: float, half: float, rows: int) -> Iterator[PieceArray]:
    """Columns of whole blocks on point from x = `left` on, with their side and corner triangles."""
    middle, right, long = left + half, left + 2 * half, 2 * half
    apart = (step, long)
    yield PieceArray("blocks", diamond(middle, half, half), many, rows, apart)
    for edge in (left, right):
        side = ((edge, half), (edge, half + long), (middle, long))
        yield PieceArray("side_triangles", side, many, rows - 1, apart)
        for far, inward in ((0.0, half), (rows * long, -half)):
            corner = ((edge, far), (middle, far), (edge, far + inward))
            yield PieceArray("corner_triangles", corner, many, 1, apart)


def _dropped_column(
    left: float, many: int, step: float, half: float, rows: int
) -> Iterator[PieceArray]:
    """Columns that begin and end with half a block, cut across its points."""
    middle, right, long = left + half, left + 2 * half, 2 * half
    apart = (step, long)
    yield PieceArray("blocks", diamond(middle, long, half), many, rows - 1, apart)
    for far, inward in ((0.0, half), (rows * long, -half)):
        cut = ((left, far), (right, far), (middle, far + inward))
        yield PieceArray("half_blocks", cut, many, 1, apart)
    for edge in (left, right):
        side = ((edge, 0.0), (edge, long), (middle, half))
        yield PieceArray("side_triangles", side, many, rows, apart)
