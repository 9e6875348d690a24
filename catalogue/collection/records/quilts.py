"""The whole record of one quilt, and the rows that hang on it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from catalogue.collection.records.photographs import Photograph
from catalogue.values.dates import HistoricDate
from catalogue.values.lengths import Unit


@dataclass(frozen=True)
class EarlierNumber:
    """A number the quilt bore before, in this collection or another."""

    number: str
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class BlockKind:
    """One kind of block in the quilt, the pattern it follows and the printing it may come from."""

    label: str = ""
    pattern: int | None = None
    printing: int | None = None
    certainty: str = "certain"
    counted: int | None = None
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Border:
    """One border, counted from the inside out; `sides` are separated by commas, empty for all."""

    sides: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Reading:
    """One reading: `part`, `number` and `dimension` say of what, `where` at which place.

    `part` is overall, block, sashing, border, binding or patch; `number` counts the kinds of block
    or the borders from 1; `dimension` is width (across) or length (top to bottom). `error` is None
    for the tape; for a distance read from a photograph, the ± in inches that holds nine in ten.
    """

    part: str
    dimension: str
    written: str
    inches: Fraction
    number: int = 1
    where: str = ""
    by: str = ""
    on: str = ""
    error: Fraction | None = None
    id: int | None = None


@dataclass(frozen=True)
class PhaseMaker:
    """Who did the work of one phase, and how sure that attribution is."""

    party: int
    certainty: str = "certain"
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class PhaseClue:
    """A dating clue ticked on a phase: which one, how sure that it is there and belongs to it.

    `clue` is a key of the clue table, or "inscription", "document" or "memory" with years of its
    own; `role` says whether it sits in original work, in a repair or in a replaced part.
    """

    clue: str
    first_year: int | None = None
    last_year: int | None = None
    present: str = "sure"
    original: str = "sure"
    role: str = "original"
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Phase:
    """One phase of making: designed, pieced, set together, quilted, bound, repaired and so on."""

    kind: str
    date: HistoricDate | None = None
    place: str = ""
    note: str = ""
    makers: tuple[PhaseMaker, ...] = ()
    clues: tuple[PhaseClue, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class Material:
    """The cloth, batting or thread of one part of the quilt, and its colours."""

    part: str
    fibre: str = ""
    colours: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Technique:
    """One way the quilt was worked, by hand or by machine."""

    name: str
    worked: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Inscription:
    """Words on the quilt, verbatim with line breaks; `block` places a signature in the grid."""

    text: str
    kind: str = "inscription"
    where: str = ""
    how: str = ""
    block: str = ""
    date: HistoricDate | None = None
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class OwnershipPeriod:
    """One period of ownership; begin and end lie between two ISO dates, empty if unknown.

    The elements are those of the provenance notation (see `catalogue.provenance.periods`);
    `doubtful` names those that are in doubt, separated by commas; `note` is the ground for the
    period and `citation` where it is written, printed as footnotes.
    """

    party: str
    person: int | None = None
    life: str = ""
    relation: str = ""
    method: str = ""
    agent: str = ""
    place: str = ""
    event: str = ""
    seller_agent: str = ""
    transfer_place: str = ""
    dates: str = ""
    begins_earliest: str = ""
    begins_latest: str = ""
    ends_earliest: str = ""
    ends_latest: str = ""
    stock_number: str = ""
    price: str = ""
    dealer: bool = False
    possibly: bool = False
    doubtful: str = ""
    direct: bool = False
    note: str = ""
    citation: str = ""
    id: int | None = None


@dataclass(frozen=True)
class ConditionReport:
    """The state of the quilt on one day; hazards are recorded as a person reports them."""

    grade: str
    on: str = ""
    by: str = ""
    text: str = ""
    hazard: str = "not examined"
    hazard_note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Location:
    """Where the quilt is kept since a day; the last one entered is where it is now."""

    place: str
    since: str = ""
    by: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class LayoutDecision:
    """What a person decided about an inferred layout: accepted, rejected or left open.

    `layout` and `readings` are JSON, kept as they stood, so that the decision can be judged later.
    """

    decision: str
    layout: str
    readings: str
    by: str
    at: str
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Quilt:
    """The whole record of one quilt."""

    title: str
    accession: str = ""
    object_type: str = "quilt"
    status: str = "offered"
    published: bool = False
    description: str = ""
    history: str = ""
    distinguishing_features: str = ""
    subject: str = ""
    related_material: str = ""
    maker_unknown: bool = False
    no_inscriptions: bool = False
    paragraph: str = ""
    paragraph_revision: int | None = None

    donor: int | None = None
    came_by: str = ""
    received: HistoricDate | None = None
    restrictions: str = ""
    credit_line: str = ""
    insurance_value: str = ""
    insurance_note: str = ""

    setting_seen: str = ""
    counted_columns: int | None = None
    counted_rows: int | None = None
    sashing: str = "unknown"
    cornerstones: str = "unknown"
    borders_seen: str = "unknown"
    binding: str = "unknown"
    binding_within_border: str = "unknown"
    edge: str = "unknown"
    length_unit: Unit = "in"

    quilting_design: str = ""
    quilting_worked: str = ""
    stitches_per_inch: int | None = None
    edge_finish: str = ""

    earlier_numbers: tuple[EarlierNumber, ...] = ()
    blocks: tuple[BlockKind, ...] = ()
    borders: tuple[Border, ...] = ()
    readings: tuple[Reading, ...] = ()
    phases: tuple[Phase, ...] = ()
    materials: tuple[Material, ...] = ()
    techniques: tuple[Technique, ...] = ()
    inscriptions: tuple[Inscription, ...] = ()
    ownership: tuple[OwnershipPeriod, ...] = ()
    conditions: tuple[ConditionReport, ...] = ()
    locations: tuple[Location, ...] = ()
    photographs: tuple[Photograph, ...] = ()
    decisions: tuple[LayoutDecision, ...] = ()

    put_away: str = ""
    id: int | None = None
    revision: int = 0
