"""The closed lists of the record: what a field may hold, in the order in which it is offered."""

from __future__ import annotations

OBJECT_TYPES = ("quilt", "quilt top", "coverlet", "wall quilt", "crib quilt", "set of blocks")
STATUSES = ("offered", "accepted", "accessioned", "declined")
CAME_BY = ("gift", "bequest", "purchase", "exchange", "transfer", "loan", "found in the collection")
CERTAINTIES = ("certain", "probable", "possible", "disputed")
UNKNOWN_OR_THERE = ("unknown", "none", "present")
UNKNOWN_OR_YES = ("unknown", "yes", "no")
EDGES = ("unknown", "bound", "raw")
LENGTH_UNITS = ("in", "cm")

# The settings a cataloguer can name by eye, as `catalogue infer` takes them.
SETTINGS = (
    "straight",
    "on point",
    "strippy",
    "bars",
    "zigzag",
    "medallion",
    "hexagon",
    "one-patch",
    "none",
)

READING_PARTS = ("overall", "block", "sashing", "border", "binding", "patch")
DIMENSIONS = ("width", "length")
SIDES = ("left", "right", "top", "bottom")

PHASES = (
    "designed",
    "pieced",
    "appliquéd",
    "embroidered",
    "set together",
    "quilted",
    "bound",
    "repaired",
)
# Work that does not date a quilt as an object: a design may be older, a repair is later.
NOT_DATING = ("designed", "repaired")
DATES_IT = f"kind NOT IN {NOT_DATING}"
"""The same of a row of `phase`, in SQL."""
CLUE_ROLES = ("original", "repair", "replacement")
SURENESS = ("sure", "likely", "possible", "doubtful")
MATERIAL_PARTS = ("top", "backing", "batting", "binding", "thread", "trimming")
WORKED = ("", "by hand", "by machine", "by hand and machine")
QUILTING_WORKED = ("", "by hand", "by machine", "by hand and machine", "tied", "not quilted")
INSCRIPTION_KINDS = ("label", "inscription", "signature", "date", "maker's mark")
CONDITION_GRADES = ("excellent", "good", "fair", "poor", "fragile")

# Hazards are reported by people, never inferred from a colour.
HAZARD_STATES = ("not examined", "suspected", "tested: present", "tested: none found", "cleared")

PHOTOGRAPH_VIEWS = ("overall", "back", "block", "border", "label", "quilting", "damage", "detail")
DECISIONS = ("accepted", "rejected", "left open")
TURNS = ("90", "180", "270", "mirrored")
TURNED_DECISIONS = ("confirmed", "dismissed")

PARTY_KINDS = ("person", "group", "organisation")
NAME_FORMS = (
    "birth name",
    "married name",
    "also known as",
    "short form",
    "pen name",
    "earlier name",
)
# What the relative is to the person on whose record the tie stands.
RELATIONS = (
    *("mother", "father", "daughter", "son", "wife", "husband", "sister", "brother"),
    *("grandmother", "grandfather", "granddaughter", "grandson", "aunt", "uncle"),
    *("niece", "nephew", "cousin", "mother-in-law", "father-in-law", "daughter-in-law"),
    *("son-in-law", "sister-in-law", "brother-in-law", "stepdaughter", "stepson", "relative"),
)
RELATED_KINDS = (
    "letter",
    "photograph",
    "pattern leaflet",
    "newspaper page",
    "diary or account book",
    "recording",
    "garment",
    "cloth",
    "tool",
    "other",
)
PUBLICATION_KINDS = (
    "newspaper column",
    "magazine",
    "mail-order catalogue",
    "leaflet",
    "kit",
    "book",
    "batting wrapper",
    "hand-copied",
    "other",
)
OBSTACLES = (
    *("door", "opening", "window", "outlet", "switch", "radiator", "vent", "case", "sign"),
    "other",
)
VENUE_GRADES = ("", *CONDITION_GRADES)
TALK_ITEMS = (
    *("quilt", "borrowed quilt", "pattern", "publication", "related material", "person"),
    "heading",
)

# Which field of which record holds which list.
CLOSED: dict[str, dict[str, tuple[str, ...]]] = {
    "Quilt": {
        "object_type": OBJECT_TYPES,
        "status": STATUSES,
        "came_by": ("", *CAME_BY),
        "setting_seen": ("", *SETTINGS),
        "sashing": UNKNOWN_OR_THERE,
        "cornerstones": UNKNOWN_OR_THERE,
        "borders_seen": UNKNOWN_OR_THERE,
        "binding": UNKNOWN_OR_THERE,
        "binding_within_border": UNKNOWN_OR_YES,
        "edge": EDGES,
        "length_unit": LENGTH_UNITS,
        "quilting_worked": QUILTING_WORKED,
    },
    "BlockKind": {"certainty": CERTAINTIES},
    "Reading": {"part": READING_PARTS, "dimension": DIMENSIONS},
    "Phase": {"kind": PHASES},
    "PhaseMaker": {"certainty": CERTAINTIES},
    "PhaseClue": {"present": SURENESS, "original": SURENESS, "role": CLUE_ROLES},
    "Material": {"part": MATERIAL_PARTS},
    "Technique": {"worked": WORKED},
    "Inscription": {"kind": INSCRIPTION_KINDS},
    "ConditionReport": {"grade": CONDITION_GRADES, "hazard": HAZARD_STATES},
    "Photograph": {"view": PHOTOGRAPH_VIEWS},
    "TurnedBlock": {"turn": TURNS, "decision": TURNED_DECISIONS},
    "LayoutDecision": {"decision": DECISIONS},
    "Party": {"kind": PARTY_KINDS},
    "PartyName": {"form": NAME_FORMS},
    "FamilyTie": {"relation": RELATIONS},
    "Printing": {"house_name": UNKNOWN_OR_YES},
    "Publication": {"kind": PUBLICATION_KINDS},
    "RelatedItem": {"kind": RELATED_KINDS},
    "WallObstacle": {"kind": OBSTACLES},
    "GivenItem": {"kind": TALK_ITEMS},
    "ExhibitQuilt": {"out_grade": VENUE_GRADES, "back_grade": VENUE_GRADES},
}
