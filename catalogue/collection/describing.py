"""The written description of a quilt: composed from the record, kept or rewritten by a person."""

from __future__ import annotations

from statistics import median

from catalogue.collection.layouts import chosen
from catalogue.collection.measuring import overall_size
from catalogue.collection.records import BlockKind, Border, Quilt
from catalogue.collection.related import Related
from catalogue.collection.vocabulary import SIDES
from catalogue.description.composing import compose, moved_on
from catalogue.description.quilt_facts import (
    BlockFacts,
    BorderFacts,
    DescriptionFacts,
    Inches,
    InscriptionFacts,
    SashingFacts,
)

# A technique as it is named on record, and as it qualifies a quilt.
_AS_DONE = {
    "piecing": "pieced",
    "hand piecing": "pieced",
    "machine piecing": "pieced",
    "piecing over papers": "pieced over papers",
    "foundation piecing": "foundation-pieced",
    "appliqué": "appliquéd",
    "reverse appliqué": "reverse-appliquéd",
    "embroidery": "embroidered",
    "trapunto": "stuffed",
    "patchwork": "patchwork",
}


def composed(quilt: Quilt, related: Related) -> str:
    """Return one paragraph composed from what is on record."""
    return compose(description_facts(quilt, related))


def changed_since(quilt: Quilt, related: Related) -> tuple[str, ...]:
    """Return what the record says otherwise now than the paragraph that was kept."""
    if not quilt.paragraph:
        return ()
    return moved_on(quilt.paragraph, description_facts(quilt, related))


def description_facts(quilt: Quilt, related: Related) -> DescriptionFacts:
    """Return what the description says of a quilt, as plain values."""
    standing = chosen(quilt)
    layout = standing.layout if standing is not None else None
    size = overall_size(quilt)
    top = [material for material in quilt.materials if material.part == "top"]
    techniques = [each for each in quilt.techniques if each.name in _AS_DONE]
    return DescriptionFacts(
        object_type=quilt.object_type,
        techniques=tuple(_AS_DONE[technique.name] for technique in techniques),
        worked=techniques[0].worked if techniques else "",
        fibre=top[0].fibre.split(";")[0].split(",")[0] if top else "",
        colours=top[0].colours if top else "",
        blocks=tuple(
            _block(block, number, quilt, related)
            for number, block in enumerate(quilt.blocks, start=1)
        ),
        alternate_blocks=layout.pieces.alternate_blocks or None if layout is not None else None,
        setting=quilt.setting_seen or (layout.setting if layout is not None else ""),
        columns=layout.columns if layout is not None else quilt.counted_columns,
        rows=layout.rows if layout is not None else quilt.counted_rows,
        has_sashing={"present": True, "none": False}.get(quilt.sashing),
        sashing=_sashing(quilt),
        borders=_borders(quilt),
        quilting_worked=quilt.quilting_worked,
        quilting_design=quilt.quilting_design,
        stitches_per_inch=quilt.stitches_per_inch,
        edge="" if quilt.edge == "unknown" else quilt.edge,
        edge_finish=quilt.edge_finish,
        binding_width=_width(quilt, "binding"),
        binding_cloth=_cloth(quilt, "binding"),
        batting=_cloth(quilt, "batting"),
        backing=_cloth(quilt, "backing"),
        inscriptions=tuple(
            InscriptionFacts(each.text, each.kind, each.where, each.how)
            for each in quilt.inscriptions
        ),
        inscriptions_sought=quilt.no_inscriptions,
        overall_width=size.width if size is not None else None,
        overall_length=size.length if size is not None else None,
    )


def _block(block: BlockKind, number: int, quilt: Quilt, related: Related) -> BlockFacts:
    printing = related.printing(block.printing)
    pattern = related.patterns[block.pattern].name if block.pattern is not None else block.label
    return BlockFacts(
        pattern=pattern,
        published_as=printing.name_as_printed if printing is not None else "",
        published_in=related.publications[printing.publication].name if printing else "",
        certainty=block.certainty,
        count=block.counted,
        width=_width(quilt, "block", number),
        length=_width(quilt, "block", number, "length"),
    )


def _sashing(quilt: Quilt) -> SashingFacts | None:
    if quilt.sashing != "present":
        return None
    cornerstones = {"present": True, "none": False}.get(quilt.cornerstones)
    return SashingFacts(_width(quilt, "sashing"), cornerstones)


def _borders(quilt: Quilt) -> tuple[BorderFacts, ...] | None:
    if quilt.borders_seen == "none":
        return ()
    return (
        tuple(_border(border, n, quilt) for n, border in enumerate(quilt.borders, start=1)) or None
    )


def _border(border: Border, number: int, quilt: Quilt) -> BorderFacts:
    sides = tuple(side for side in SIDES if side in border.sides)
    return BorderFacts(_width(quilt, "border", number), sides, border.note)


def _cloth(quilt: Quilt, part: str) -> str:
    """Return what one part is made of, in the cataloguer's words."""
    words = [material.fibre for material in quilt.materials if material.part == part]
    return " and ".join(word for word in words if word)


def _width(quilt: Quilt, part: str, number: int = 1, dimension: str = "width") -> Inches | None:
    """Return the middle of the readings of one part, None where it was not measured."""
    readings = [
        reading.inches
        for reading in quilt.readings
        if (reading.part, reading.number, reading.dimension) == (part, number, dimension)
    ]
    return median(readings) if readings else None
