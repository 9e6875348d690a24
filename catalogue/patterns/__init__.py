"""Traditional block designs: their names with sources, their drafting, their drawing.

`designs()` gives them all and `design(slug)` one; `find_names(text)` says which a written name may
mean; `parse_draft(text)` reads the drafting notation (see `notation`), `symmetries(draft)` names
the positions that leave a block unchanged and `draw_block(draft, palette)` draws it as SVG.
"""

from catalogue.patterns.coordinates import DraftError
from catalogue.patterns.drafting import (
    Draft,
    Patch,
    Position,
    Role,
    grid_of_roles,
    symmetries,
)
from catalogue.patterns.drawing import CLOTH, describe_draft, draw_block, draw_design
from catalogue.patterns.naming import NameMatch, find_names, name_key, same_design
from catalogue.patterns.notation import parse_draft
from catalogue.patterns.thesaurus import (
    FAMILIES,
    GRID_FAMILIES,
    AlsoNamed,
    Design,
    Publication,
    UnknownDesignError,
    design,
    designs,
)

__all__ = [
    "CLOTH",
    "FAMILIES",
    "GRID_FAMILIES",
    "AlsoNamed",
    "Design",
    "Draft",
    "DraftError",
    "NameMatch",
    "Patch",
    "Position",
    "Publication",
    "Role",
    "UnknownDesignError",
    "describe_draft",
    "design",
    "designs",
    "draw_block",
    "draw_design",
    "find_names",
    "grid_of_roles",
    "name_key",
    "parse_draft",
    "same_design",
    "symmetries",
]
