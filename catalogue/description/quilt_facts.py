"""What a written description is composed from: plain values, each empty where nothing is known."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

__all__ = [
    "BlockFacts",
    "BorderFacts",
    "DescriptionFacts",
    "Inches",
    "InscriptionFacts",
    "SashingFacts",
]

Inches = Fraction | float | int
"""A length in inches."""


@dataclass(frozen=True)
class BlockFacts:
    """One kind of block: its pattern as we call it, and the name under which it was published.

    `certainty` is certain, probable, possible or disputed. Sizes are finished sizes, width across.
    """

    pattern: str = ""
    published_as: str = ""
    published_in: str = ""
    certainty: str = "certain"
    count: int | None = None
    width: Inches | None = None
    length: Inches | None = None


@dataclass(frozen=True)
class SashingFacts:
    """Strips between the blocks; `cornerstones` is None where nobody looked."""

    width: Inches | None = None
    cornerstones: bool | None = None
    cloth: str = ""


@dataclass(frozen=True)
class BorderFacts:
    """One border; `sides` is empty for all four, else some of left, right, top, bottom."""

    width: Inches | None = None
    sides: tuple[str, ...] = ()
    cloth: str = ""


@dataclass(frozen=True)
class InscriptionFacts:
    """Words on the quilt, verbatim with their line breaks; `how` they were made ("embroidered")."""

    text: str
    kind: str = "inscription"
    where: str = ""
    how: str = ""


@dataclass(frozen=True)
class DescriptionFacts:
    """Everything the description says, in the trade's order.

    `sashing` and `borders` are None where nobody looked; `has_sashing` False and an empty tuple of
    borders say that there is none. `quilting_worked` is by hand, by machine, by hand and machine,
    tied or not quilted; `edge` is bound or raw. `inscriptions_sought` with no inscription says that
    none were found. `unit` is the house's unit for which size is printed first.
    """

    object_type: str = "quilt"
    techniques: tuple[str, ...] = ()
    worked: str = ""
    fibre: str = ""
    colours: str = ""
    blocks: tuple[BlockFacts, ...] = ()
    alternate_blocks: int | None = None
    setting: str = ""
    columns: int | None = None
    rows: int | None = None
    has_sashing: bool | None = None
    sashing: SashingFacts | None = None
    borders: tuple[BorderFacts, ...] | None = None
    quilting_worked: str = ""
    quilting_design: str = ""
    stitches_per_inch: int | None = None
    edge: str = ""
    edge_finish: str = ""
    binding_width: Inches | None = None
    binding_cloth: str = ""
    batting: str = ""
    backing: str = ""
    inscriptions: tuple[InscriptionFacts, ...] = ()
    inscriptions_sought: bool = False
    overall_width: Inches | None = None
    overall_length: Inches | None = None
