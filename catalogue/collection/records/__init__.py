"""What one quilt, one person, one pattern and one publication are on record.

Every class here is a frozen value that maps onto one table of its own name (see `tables`): a plain
field is a column, a `HistoricDate` is five columns, a tuple of records is a table of its own whose
rows keep their order. Text is never None: what is not recorded is the empty string. `put_away` is
the reason why a record is hidden, empty while it stands open.
"""

from catalogue.collection.records.exhibits import Exhibit, ExhibitQuilt, ExhibitWall, WallObstacle
from catalogue.collection.records.patterns import Pattern, PatternName, Printing, Publication
from catalogue.collection.records.people import Contact, FamilyTie, Party, PartyName
from catalogue.collection.records.photographs import Photograph, PhotographColour, TurnedBlock
from catalogue.collection.records.quilts import (
    BlockKind,
    Border,
    ConditionReport,
    EarlierNumber,
    Inscription,
    LayoutDecision,
    Location,
    Material,
    OwnershipPeriod,
    Phase,
    PhaseClue,
    PhaseMaker,
    Quilt,
    Reading,
    Technique,
)
from catalogue.collection.records.related import Link, RelatedItem
from catalogue.collection.records.talks import GivenItem, Talk, TalkGiven, TalkItem

__all__ = [
    "BlockKind",
    "Border",
    "ConditionReport",
    "Contact",
    "EarlierNumber",
    "Exhibit",
    "ExhibitQuilt",
    "ExhibitWall",
    "FamilyTie",
    "GivenItem",
    "Inscription",
    "LayoutDecision",
    "Link",
    "Location",
    "Material",
    "OwnershipPeriod",
    "Party",
    "PartyName",
    "Pattern",
    "PatternName",
    "Phase",
    "PhaseClue",
    "PhaseMaker",
    "Photograph",
    "PhotographColour",
    "Printing",
    "Publication",
    "Quilt",
    "Reading",
    "RelatedItem",
    "Talk",
    "TalkGiven",
    "TalkItem",
    "Technique",
    "TurnedBlock",
    "WallObstacle",
]
