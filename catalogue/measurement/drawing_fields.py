"""Where every piece of a layout lies: the field inside the borders, in any setting."""

from collections.abc import Iterator

from catalogue.measurement.drawing_diagonal import (
    centre_on_point,
    columns_on_point,
    on_point,
    zigzag,
)
from catalogue.measurement.drawing_pieces import (
    Field,
    Kind,
    PieceArray,
    Point,
    checkered,
    present,
    rectangle,
)
from catalogue.measurement.layouts import (
    ALTERNATE_BLOCKS,
    CENTRE_ON_POINT,
    COLUMNS_ON_POINT,
    FRAMED_BLOCKS,
    OUTSIDE_STRIPS,
    POINTS_UP,
    Layout,
    Size,
)


def lay_out(layout: Layout) -> Field:
    """The field of the layout at its adjusted sizes, every piece in its place.

    A layout without repeat has a field of no size and no pieces.
    """
    block, sash = layout.dimensions.block, layout.dimensions.sashing
    if block is None or layout.columns is None or layout.rows is None:
        return Field(0, 0, ())
    side = (block.width + block.length) / 2
    if layout.setting == "on point":
        return on_point(layout, side, sash)
    if layout.setting == "zigzag":
        return zigzag(layout, side)
    if layout.setting == "hexagon":
        return _hexagons(layout, block)
    if COLUMNS_ON_POINT in layout.details:
        return columns_on_point(layout, side, sash)
    if CENTRE_ON_POINT in layout.details:
        return centre_on_point(layout, side)
    return _straight(layout, block, sash, layout.columns, layout.rows)


def _straight(layout: Layout, block: Size, sash: float, columns: int, rows: int) -> Field:
    if layout.setting == "strippy":
        return _strippy(layout, block, sash, columns, rows)
    if FRAMED_BLOCKS in layout.details:
        return _framed_blocks(layout, block, sash, columns, rows)
    return _grid(layout, block, sash, columns, rows)


def _grid(layout: Layout, block: Size, sash: float, columns: int, rows: int) -> Field:
    """Blocks in columns and rows, edge to edge or with sashing."""
    if layout.sashing == "none":
        sash = 0.0
    edge = sash if layout.sashing == "framed" else 0.0
    step = (block.width + sash, block.length + sash)
    start = rectangle(edge, edge, block.width, block.length)
    width, length = columns * step[0] - sash + 2 * edge, rows * step[1] - sash + 2 * edge
    arrays = list(_blocks(layout, start, columns, rows, step))
    if layout.sashing != "none":
        draw = _joined_sashing if layout.dimensions.cornerstones else _running_sashing
        arrays += draw(block, sash, columns, rows, layout.sashing == "framed")
    return Field(width, length, present(arrays))


def _blocks(
    layout: Layout, shape: tuple[Point, ...], columns: int, rows: int, step: Point
) -> Iterator[PieceArray]:
    """All blocks: two kinds by turns where they alternate, two shades where they only abut."""
    if ALTERNATE_BLOCKS in layout.details:
        kinds: tuple[Kind, Kind] = ("blocks", "alternate_blocks")
        first, second = kinds if _pieced_at_corner(layout) else reversed(kinds)
        yield from checkered(
            PieceArray(first, shape), PieceArray(second, shape), columns, rows, step
        )
    elif layout.setting in ("bars", "one-patch"):
        shaded = PieceArray("blocks", shape, tone=1)
        yield from checkered(PieceArray("blocks", shape), shaded, columns, rows, step)
    else:
        yield PieceArray("blocks", shape, columns, rows, step)


def _pieced_at_corner(layout: Layout) -> bool:
    return layout.pieces.blocks >= layout.pieces.alternate_blocks


def _joined_sashing(
    block: Size, sash: float, columns: int, rows: int, framed: bool
) -> Iterator[PieceArray]:
    """Strips the length of a block, with a cornerstone wherever they meet."""
    step = (block.width + sash, block.length + sash)
    first_x, first_y = (0.0, 0.0) if framed else (block.width, block.length)
    begin = sash if framed else 0.0
    many = columns + (1 if framed else -1), rows + (1 if framed else -1)
    upright = rectangle(first_x, begin, sash, block.length)
    yield PieceArray("sash_strips", upright, many[0], rows, step)
    level = rectangle(begin, first_y, block.width, sash)
    yield PieceArray("sash_strips", level, columns, many[1], step)
    yield PieceArray("cornerstones", rectangle(first_x, first_y, sash, sash), *many, step)


def _running_sashing(
    block: Size, sash: float, columns: int, rows: int, framed: bool
) -> Iterator[PieceArray]:
    """Short strips between the blocks of a row, and strips that run through between rows."""
    step = (block.width + sash, block.length + sash)
    edge = sash if framed else 0.0
    run = columns * step[0] - sash
    short = rectangle(edge + block.width, edge, sash, block.length)
    yield PieceArray("sash_strips", short, columns - 1, rows, step)
    level = rectangle(edge, 0.0 if framed else block.length, run, sash)
    yield PieceArray("sash_strips", level, 1, rows + (1 if framed else -1), step)
    if framed:
        side = rectangle(0, 0, sash, rows * step[1] + sash)
        yield PieceArray("sash_strips", side, 2, 1, (run + sash, 0))


def _framed_blocks(layout: Layout, block: Size, sash: float, columns: int, rows: int) -> Field:
    """Blocks each in strips of their own, so that two strips meet between neighbours."""
    step = (block.width + 2 * sash, block.length + 2 * sash)
    start = rectangle(sash, sash, block.width, block.length)
    arrays = list(_blocks(layout, start, columns, rows, step))
    joined = bool(layout.dimensions.cornerstones)
    begin, run = (sash, block.width) if joined else (0.0, step[0])
    for x in (0.0, sash + block.width):
        upright = rectangle(x, sash, sash, block.length)
        arrays.append(PieceArray("sash_strips", upright, columns, rows, step))
    for y in (0.0, sash + block.length):
        level = rectangle(begin, y, run, sash)
        arrays.append(PieceArray("sash_strips", level, columns, rows, step))
        for x in (0.0, sash + block.width) if joined else ():
            corner = rectangle(x, y, sash, sash)
            arrays.append(PieceArray("cornerstones", corner, columns, rows, step))
    return Field(columns * step[0], rows * step[1], present(arrays))


def _strippy(layout: Layout, block: Size, sash: float, columns: int, rows: int) -> Field:
    """Columns of blocks with a strip the whole length between them."""
    outside = OUTSIDE_STRIPS in layout.details or layout.sashing == "framed"
    first, strips = (sash, columns + 1) if outside else (0.0, columns - 1)
    step, length = (block.width + sash, block.length), rows * block.length
    strip = rectangle(0.0 if outside else block.width, 0, sash, length)
    start = rectangle(first, 0, block.width, block.length)
    arrays = [
        *_blocks(layout, start, columns, rows, step),
        PieceArray("sash_strips", strip, strips, 1, step),
    ]
    return Field(columns * block.width + strips * sash, length, present(arrays))


def _hexagons(layout: Layout, block: Size) -> Field:
    """Hexagons in lines of n and n - 1 by turns; `block` is point to point and flat to flat."""
    upright = POINTS_UP in layout.details
    columns, rows = layout.columns or 1, layout.rows or 1
    longest, lines = (columns, rows) if upright else (rows, columns)
    across, pitch = block.length, block.width * 3 / 4
    whole = _hexagon(across, block.width)
    arrays = [
        PieceArray("blocks", whole, longest, (lines + 1) // 2, (across, 2 * pitch)),
        PieceArray("blocks", whole, longest - 1, lines // 2, (across, 2 * pitch), tone=1).moved(
            across / 2, pitch
        ),
    ]
    field = Field(longest * across, lines * pitch + block.width / 4, present(arrays))
    return field if upright else _turned(field)


def _hexagon(across: float, tall: float) -> tuple[Point, ...]:
    """A hexagon with points up in a box of its own size."""
    quarter = tall / 4
    return (
        (across / 2, 0.0),
        (across, quarter),
        (across, 3 * quarter),
        (across / 2, tall),
        (0.0, 3 * quarter),
        (0.0, quarter),
    )


def _turned(field: Field) -> Field:
    """The field with across and down exchanged."""
    return Field(
        field.length,
        field.width,
        tuple(
            PieceArray(
                array.kind,
                tuple((y, x) for x, y in array.shape),
                array.down,
                array.across,
                (array.step[1], array.step[0]),
                array.tone,
            )
            for array in field.arrays
        ),
    )
