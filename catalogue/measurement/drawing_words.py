"""A layout in words: the title, the description and the labels of its drawing."""

from collections.abc import Iterator

from catalogue.measurement.layouts import (
    CENTRE_ON_POINT,
    FLOATED,
    FRAMED_BLOCKS,
    Layout,
    Pieces,
    Sides,
    Size,
)
from catalogue.values.lengths import Unit, format_inches, format_length

_SETTING = {
    "straight": "Straight set",
    "on point": "Set on point",
    "strippy": "Strippy",
    "bars": "Bars",
    "zigzag": "Zigzag",
    "medallion": "Medallion",
    "hexagon": "Hexagons",
    "one-patch": "One-patch",
    "none": "No repeat recorded",
}
_PIECE = {
    "blocks": ("block", "blocks"),
    "alternate_blocks": ("alternate block", "alternate blocks"),
    "side_triangles": ("side triangle", "side triangles"),
    "corner_triangles": ("corner triangle", "corner triangles"),
    "half_blocks": ("half-block", "half-blocks"),
    "sash_strips": ("sashing strip", "sashing strips"),
    "cornerstones": ("cornerstone", "cornerstones"),
}


def length_label(inches: float, unit: Unit) -> str:
    """A length as it stands in a drawing: "12 1/2 in" with fraction signs, or "31.8 cm"."""
    return format_length(inches, unit, typographic=True)


def bare_label(inches: float, unit: Unit) -> str:
    """A length without its unit."""
    if unit == "in":
        return format_inches(inches, typographic=True)
    return length_label(inches, unit).removesuffix(" cm")


def size_label(size: Size, unit: Unit) -> str:
    """Width by length, with the unit once."""
    return f"{bare_label(size.width, unit)} × {length_label(size.length, unit)}"


def layout_title(layout: Layout) -> str:
    """The layout in a line: "Straight set, 5 × 6, sashing between, alternate blocks"."""
    parts = [_SETTING[layout.setting]]
    if layout.setting == "bars":
        parts = [f"{layout.columns} bars"]
    elif layout.columns and layout.setting != "medallion":
        parts.append(f"{layout.columns} × {layout.rows}")
    if layout.setting == "medallion":
        frames = len(layout.dimensions.borders)
        parts.append(f"{frames} frame{'' if frames == 1 else 's'}")
    elif layout.sashing != "none" and FRAMED_BLOCKS not in layout.details:
        parts.append(f"sashing {layout.sashing}")
    elif layout.sashing == "none" and layout.setting in ("straight", "on point"):
        parts.append("edge to edge")
    return ", ".join((*parts, *layout.details))


def layout_description(layout: Layout, unit: Unit) -> str:
    """The drawing in sentences, for those who do not see it."""
    sentences = [
        f"{layout_title(layout)}.",
        f"Measured {size_label(measured_size(layout), unit)}, width by length;"
        f" predicted {size_label(layout.predicted, unit)}.",
        *_parts(layout, unit),
        *_pieces(layout.pieces if layout.columns else None),
        "Patchwork inside the blocks is not shown.",
    ]
    return " ".join(sentences)


def measured_size(layout: Layout) -> Size:
    """What was measured: the predicted size and the difference together."""
    return Size(
        layout.predicted.width + layout.difference.width,
        layout.predicted.length + layout.difference.length,
    )


def block_label(layout: Layout, unit: Unit) -> str | None:
    """The repeated thing with its size: "block 12 in", "bar 5 in wide", None without repeat."""
    block = layout.dimensions.block
    if block is None:
        return None
    names = {"bars": "bar", "medallion": "centre", "one-patch": "patch", "hexagon": "hexagon"}
    name = names.get(layout.setting, "block")
    if layout.setting == "bars":
        return f"{name} {length_label(block.width, unit)} wide"
    if layout.setting == "hexagon":
        return f"{name} {length_label(block.width, unit)} point to point"
    label = f"{name} {block_size(block, unit)}"
    if layout.setting == "on point" or CENTRE_ON_POINT in layout.details:
        across = (block.width + block.length) / 2**0.5
        label += f", {length_label(across, unit)} across its points"
    return label


def block_size(block: Size, unit: Unit) -> str:
    """One side of a block that prints square, both sides of any other."""
    width, length = length_label(block.width, unit), length_label(block.length, unit)
    return width if width == length else size_label(block, unit)


def border_label(sides: Sides, unit: Unit) -> str:
    """The widths of one border, side by side where they differ."""
    widths = {
        "left": sides.left,
        "right": sides.right,
        "top": sides.top,
        "bottom": sides.bottom,
    }
    by_width: dict[str, list[str]] = {}
    for side, width in widths.items():
        if width > 0:
            by_width.setdefault(length_label(width, unit), []).append(side)
    if len(by_width) == 1 and all(width > 0 for width in widths.values()):
        return next(iter(by_width))
    return ", ".join(f"{width} {' and '.join(on)}" for width, on in by_width.items())


def _parts(layout: Layout, unit: Unit) -> Iterator[str]:
    sizes = layout.dimensions
    block = block_label(layout, unit)
    if block:
        yield f"{block[0].upper()}{block[1:]}."
    if sizes.sashing:
        stones = " with cornerstones" if sizes.cornerstones else ""
        yield f"Sashing {length_label(sizes.sashing, unit)} wide{stones}."
    if sizes.borders:
        listed = "; ".join(border_label(border, unit) for border in sizes.borders)
        yield f"Borders from the inside out: {listed}."
    if sizes.float_margin and FLOATED in layout.details:
        yield f"The blocks float by {border_label(sizes.float_margin, unit)}."
    if sizes.binding:
        yield f"Binding {length_label(sizes.binding, unit)} wide."
    if sizes.raw_edge:
        yield f"A raw edge of {length_label(sizes.raw_edge, unit)} is left on every side."


def _pieces(pieces: Pieces | None) -> Iterator[str]:
    if pieces is None:
        return
    counts = {name: getattr(pieces, name) for name in _PIECE}
    listed = [f"{count} {_PIECE[name][count != 1]}" for name, count in counts.items() if count]
    if listed:
        yield f"{', '.join(listed)}."


def likelihood(probability: float) -> str:
    """A probability for readers: "46 in 100", and never more sure than it is."""
    of_hundred = round(probability * 100)
    if probability < 1 and of_hundred == 100:
        return "more than 99 in 100"
    if probability > 0 and of_hundred == 0:
        return "less than 1 in 100"
    return f"{of_hundred} in 100"
