"""Each sentence of a description, or "" where the facts have nothing for it."""

from __future__ import annotations

from catalogue.description.quilt_facts import BlockFacts, BorderFacts, DescriptionFacts, Inches
from catalogue.description.wording import (
    article,
    clean,
    counted,
    listed,
    number_word,
    ordinal,
    sentence,
    size,
    sizes,
)

__all__ = [
    "batting_and_backing",
    "binding",
    "blocks",
    "borders",
    "object_and_pattern",
    "overall_size",
    "quilting",
    "sashing",
    "setting",
]

_CERTAINTY = {"probable": "probably ", "possible": "possibly "}
_SETTINGS = {
    "straight": "set straight",
    "on point": "set on point",
    "strippy": "set in vertical strips",
    "zigzag": "set in zigzag strips",
    "hexagon": "set edge to edge",
}
_TOPS = {
    "bars": "The top is made of bars",
    "medallion": "The top is a medallion, a centre with frames around it",
    "one-patch": "The top repeats a single patch",
    "none": "The top repeats no block",
}
_SQUARE_ENOUGH = 1 / 16  # inches that two sides of a square block may differ when finished


def object_and_pattern(facts: DescriptionFacts) -> str:
    """Say what it is, how it was worked, and in which pattern."""
    techniques = listed([clean(technique) for technique in facts.techniques if clean(technique)])
    kind = clean(facts.object_type) or "quilt"
    words = article(" ".join(filter(None, (techniques, clean(facts.fibre), kind))))
    colours, worked = clean(facts.colours), clean(facts.worked)
    words += f" in {colours}" if colours else ""
    words += f", worked {worked}," if worked and techniques else ""
    if len(facts.blocks) == 1 and clean(facts.blocks[0].pattern):
        words += f" {_in_pattern(facts.blocks[0])}"
    return sentence(words)


def _in_pattern(block: BlockFacts) -> str:
    """Return `in the Flying Wheel pattern, published as “Wheel of Time” in the Weekly`."""
    name = clean(block.pattern)
    if block.certainty == "disputed":
        return f"in a pattern that is disputed, recorded as {name}{_published(block)}"
    bare = name.removeprefix("the ").removeprefix("The ").removesuffix(" pattern")
    lead = _CERTAINTY.get(block.certainty, "")
    return f"{lead}in the {bare} pattern{_published(block)}"


def _published(block: BlockFacts) -> str:
    name, place = clean(block.published_as), clean(block.published_in)
    as_name = f" as “{name}”" if name else ""
    in_place = f" in {place}" if place else ""
    return f", published{as_name}{in_place}" if as_name or in_place else ""


def blocks(facts: DescriptionFacts) -> str:
    """Say how many blocks there are of which kind and size, and what they alternate with."""
    if len(facts.blocks) > 1:
        kinds = [_kind_of_block(block) for block in facts.blocks]
        lead = f"It has blocks of {number_word(len(kinds))} kinds"
        told = sentence(f"{lead}: {'; '.join(kinds[:-1])}; and {kinds[-1]}")
        plain = facts.alternate_blocks
        return told + (f" They alternate with {_plain(plain)}." if plain else "")
    block = facts.blocks[0] if facts.blocks else BlockFacts()
    block_size = _block_size(block)
    if block.count:
        each = f", {'each ' if block.count > 1 else ''}{block_size}" if block_size else ""
        return sentence(f"It has {counted(block.count, 'block')}{each}{_alternating(facts)}")
    if block_size:
        return sentence(f"Each block is {block_size}{_alternating(facts)}")
    if facts.alternate_blocks:
        return sentence(f"The blocks alternate with {_plain(facts.alternate_blocks)}")
    return ""


def _kind_of_block(block: BlockFacts) -> str:
    """Return `20 Flying Wheel blocks, published in the Weekly, each 12 inches square`."""
    name = clean(block.pattern).removesuffix(" pattern").removesuffix(" block")
    kind = f"{name} block" if name else "block"
    certainty = _CERTAINTY.get(block.certainty, "") if name else ""
    many = f"{kind}s" if block.count is None else counted(block.count, kind)
    each = "" if block.count == 1 else "each "
    block_size = _block_size(block)
    return f"{certainty}{many}{_published(block)}" + (f", {each}{block_size}" if block_size else "")


def _block_size(block: BlockFacts) -> str:
    width, length = block.width, block.length
    if not width or not length:
        one, name = (width, "width") if width else (length, "length")
        return f"{size(one)} in {name}" if one else ""
    if abs(float(width) - float(length)) <= _SQUARE_ENOUGH:
        return f"{size(width)} square"
    return sizes((length, "length"), (width, "width"))


def _alternating(facts: DescriptionFacts) -> str:
    count = facts.alternate_blocks
    return f", alternating with {_plain(count)}" if count else ""


def _plain(count: int) -> str:
    return counted(count, "plain block")


def setting(facts: DescriptionFacts) -> str:
    """Say how the blocks are set and in how many columns and rows."""
    if facts.setting in _TOPS:
        bars = facts.setting == "bars" and facts.columns
        return sentence(
            f"The top is made of {counted(bars, 'bar')}" if bars else _TOPS[facts.setting]
        )
    grid = listed(
        [
            counted(number, name)
            for number, name in ((facts.columns, "column"), (facts.rows, "row"))
            if number
        ]
    )
    in_grid = f"in {grid}" if grid and facts.setting in ("", "straight", "on point") else ""
    words = " ".join(filter(None, (_SETTINGS.get(facts.setting, ""), in_grid)))
    if not words:
        return ""
    return sentence(f"The blocks are {words}" if facts.setting else f"The blocks stand {words}")


def sashing(facts: DescriptionFacts) -> str:
    """Say what separates the blocks, or that nothing does."""
    strips = facts.sashing
    if strips is None:
        return {None: "", True: "Sashing separates the blocks.", False: "There is no sashing."}[
            facts.has_sashing
        ]
    words = f"Sashing{_made(strips.cloth, strips.width)}"
    if strips.cornerstones is not None:
        words += (
            f"{',' * (',' in words)} {'with' if strips.cornerstones else 'without'} cornerstones"
        )
    return sentence(f"{words}{',' * (',' in words)} separates the blocks")


def _made(cloth: str, width: Inches | None) -> str:
    """Return ` of green cotton, 2 1/2 inches (6.4 cm) wide` as far as it is known."""
    named = f" of {clean(cloth)}" if clean(cloth) else ""
    wide = f"{size(width)} wide" if width else ""
    return named + (f", {wide}" if named and wide else f" {wide}" if wide else "")


def borders(facts: DescriptionFacts) -> str:
    """Say how many borders there are, from the inside out, or that there is none."""
    if facts.borders is None:
        return ""
    if not facts.borders:
        return "There is no border."
    if len(facts.borders) == 1:
        border = facts.borders[0]
        where = _along(border) or "surrounds the field"
        made = _made(border.cloth, border.width)
        return sentence(f"A border{made}{',' * (',' in made)} {where}")
    details = [
        f"the {ordinal(place)}{_border_detail(border)}"
        for place, border in enumerate(facts.borders, start=1)
        if _border_detail(border)
    ]
    words = f"{number_word(len(facts.borders))} borders surround the field"
    return sentence(words + (f", from the inside out: {'; '.join(details)}" if details else ""))


def _border_detail(border: BorderFacts) -> str:
    made = _made(border.cloth, border.width)
    sides = _named_sides(border)
    return made + (f"{',' * bool(made)} at the {sides} only" if sides else "")


def _along(border: BorderFacts) -> str:
    sides = _named_sides(border)
    many = "sides" if len(border.sides) > 1 else "side"
    return f"runs along the {sides} {many} only" if sides else ""


def _named_sides(border: BorderFacts) -> str:
    return "" if len(set(border.sides)) == 4 else listed([clean(side) for side in border.sides])


def quilting(facts: DescriptionFacts) -> str:
    """Say how it is quilted, in which design, and how finely."""
    worked, design = clean(facts.quilting_worked), clean(facts.quilting_design)
    if worked == "not quilted":
        return "It is not quilted."
    if worked == "tied":
        return sentence("It is tied, not quilted" + (f": {design}" if design else ""))
    stitches = facts.stitches_per_inch
    count = f"with {counted(stitches, 'stitch', 'stitches')} to the inch" if stitches else ""
    how = (
        design if design.lower().startswith(("in ", "with ")) else f"in {design}" if design else ""
    )
    words = " ".join(filter(None, (worked, how)))
    if not words and not count:
        return ""
    return sentence(f"It is quilted {words}{',' * bool(words and count)} {count}")


def binding(facts: DescriptionFacts) -> str:
    """Say how the edge is finished."""
    cloth, finish = clean(facts.binding_cloth), clean(facts.edge_finish)
    width = f"{size(facts.binding_width)} wide" if facts.binding_width else ""
    if facts.edge == "bound" or cloth or width:
        words = "The edge is bound" + (f" in {cloth}" if cloth else "")
        words += f", {width}" if width else ""
        return sentence(words + (f": {finish}" if finish else ""))
    if finish:
        return sentence(f"The edge finish is {finish}")
    return "The edge is raw." if facts.edge == "raw" else ""


def batting_and_backing(facts: DescriptionFacts) -> str:
    """Say what lies between top and back, and what the back is."""
    parts = [
        f"there is no {name}"
        if clean(cloth).lower() in ("none", "no")
        else f"the {name} is {clean(cloth)}"
        for name, cloth in (("batting", facts.batting), ("backing", facts.backing))
        if clean(cloth)
    ]
    return sentence(listed(parts)) if parts else ""


def overall_size(facts: DescriptionFacts) -> str:
    """Say the overall size, length by width, both named, in inches and centimetres."""
    width, length = facts.overall_width, facts.overall_length
    if width and length:
        return sentence(f"It measures {sizes((length, 'length'), (width, 'width'))}")
    one, name, other = (width, "width", "length") if width else (length, "length", "width")
    if not one:
        return ""
    return sentence(f"It measures {size(one)} in {name}; the {other} is not recorded")
