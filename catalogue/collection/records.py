"""What one quilt, one person, one pattern and one publication are on record.

Every class here is a frozen value that maps onto one table of its own name (see `tables`): a plain
field is a column, a `HistoricDate` is five columns, a tuple of records is a table of its own whose
rows keep their order. Text is never None: what is not recorded is the empty string. `put_away` is
the reason why a record is hidden, empty while it stands open.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from catalogue.values.dates import HistoricDate
from catalogue.values.lengths import Unit

# --- what belongs to a quilt -------------------------------------------------------------------


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
class PhotographColour:
    """One of the main colours of a photograph: trade name, plain word, #rrggbb, share of 1."""

    name: str
    plain: str
    code: str
    share: float
    id: int | None = None


@dataclass(frozen=True)
class TurnedBlock:
    """What a person decided about a block that a photograph shows turned: confirmed or dismissed.

    `across` and `down` count from 1 at the top left; `turn` is 90, 180, 270 or mirrored.
    """

    across: int
    down: int
    turn: str
    decision: str
    by: str
    at: str
    id: int | None = None


@dataclass(frozen=True)
class Photograph:
    """One photograph: `file` is the SHA-256 of the original, which is kept untouched.

    `corners` are those of the quilt, "x,y x,y x,y x,y" in pixels of the upright original, clockwise
    from the top left, and `grey_card` a place on one, "x,y"; both are empty until somebody sets
    them. The colours are what was read between the corners.
    """

    file: str
    format: str
    pixels_wide: int
    pixels_high: int
    view: str = "overall"
    caption: str = ""
    alternative_text: str = ""
    photographer: str = ""
    rights: str = ""
    corners: str = ""
    grey_card: str = ""
    colours: tuple[PhotographColour, ...] = ()
    turned_blocks: tuple[TurnedBlock, ...] = ()
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


# --- related material --------------------------------------------------------------------------


@dataclass(frozen=True)
class Link:
    """What a piece of related material belongs to; just one of the four is filled in."""

    quilt: int | None = None
    pattern: int | None = None
    publication: int | None = None
    party: int | None = None
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class RelatedItem:
    """What belongs to a quilt's story without being a quilt: a letter, a leaflet, a photograph."""

    title: str
    kind: str = "letter"
    description: str = ""
    date: HistoricDate | None = None
    kept: str = ""
    rights: str = ""
    published: bool = False
    links: tuple[Link, ...] = ()
    photographs: tuple[Photograph, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0


# --- exhibits ----------------------------------------------------------------------------------


@dataclass(frozen=True)
class WallObstacle:
    """Something on a wall that quilts keep clear of; inches from its left end and the floor."""

    kind: str
    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    name: str = ""
    may_be_covered: bool = False
    id: int | None = None


@dataclass(frozen=True)
class ExhibitWall:
    """One stretch of wall between two corners, in inches."""

    name: str
    length: Fraction
    height: Fraction
    obstacles: tuple[WallObstacle, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class ExhibitQuilt:
    """A quilt in an exhibit: its label's text, where it hangs, its papers, its state out and back.

    `x` is its left edge along the wall, `bottom` its lower edge above the floor, in inches; both
    are None where it has no place yet.
    """

    quilt: int
    label_text: str = ""
    wall: str = ""
    x: Fraction | None = None
    bottom: Fraction | None = None
    loan_papers: str = ""
    out_on: str = ""
    out_by: str = ""
    out_grade: str = ""
    out_text: str = ""
    back_on: str = ""
    back_by: str = ""
    back_grade: str = ""
    back_text: str = ""
    photographs: tuple[Photograph, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class Exhibit:
    """A show: where, when, in what light, on which walls, with which quilts in which order.

    `dark_days` are the weekdays without light, Monday is 0, separated by commas.
    """

    title: str
    text: str = ""
    venue: str = ""
    begins: str = ""
    ends: str = ""
    hours_a_day: float | None = None
    lux: float | None = None
    ultraviolet: float | None = None
    dark_days: str = ""
    published: bool = False
    walls: tuple[ExhibitWall, ...] = ()
    quilts: tuple[ExhibitQuilt, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0


# --- talks -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class TalkItem:
    """One item of a talk: a record, or in words a borrowed quilt or a heading.

    At most one of the five ids is filled in, and `words` only where none is; `notes` is Markdown.
    """

    words: str = ""
    borrowed: bool = False
    quilt: int | None = None
    pattern: int | None = None
    publication: int | None = None
    related_item: int | None = None
    party: int | None = None
    minutes: int | None = None
    notes: str = ""
    id: int | None = None


@dataclass(frozen=True)
class GivenItem:
    """An item of a talk as it stood when the talk was given, in words that no longer change."""

    kind: str
    title: str
    lines: str = ""
    quilt: int | None = None
    minutes: int | None = None
    notes: str = ""
    id: int | None = None


@dataclass(frozen=True)
class TalkGiven:
    """A talk as it was given, once: when, where, to whom, and everything that was in it."""

    title: str
    on: str
    place: str = ""
    audience: str = ""
    speaker: str = ""
    notes: str = ""
    by: str = ""
    at: str = ""
    items: tuple[GivenItem, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class Talk:
    """A talk: what is told with which quilts, in which order, in how many minutes.

    `on` is an ISO date and `begins` a time of day such as 14:30, both empty until set; `notes` and
    `further_reading` are Markdown. A talk that was given keeps its version as given.
    """

    title: str
    on: str = ""
    begins: str = ""
    place: str = ""
    audience: str = ""
    speaker: str = ""
    minutes: int | None = None
    notes: str = ""
    further_reading: str = ""
    published: bool = False
    items: tuple[TalkItem, ...] = ()
    givings: tuple[TalkGiven, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0


# --- people, patterns, publications ------------------------------------------------------------


@dataclass(frozen=True)
class PartyName:
    """Another form of a party's name: birth, married, short, pen or earlier name."""

    name: str
    form: str = "also known as"
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class FamilyTie:
    """What a relative is to the person: parent, child, husband or wife, sibling and so on."""

    relative: int
    relation: str
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Contact:
    """How to reach a party; private, and kept in a table of its own."""

    address: str = ""
    telephone: str = ""
    email: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Party:
    """A person, a group or an organisation; a guild or a church circle can be a maker."""

    name: str
    kind: str = "person"
    sort_name: str = ""
    born: HistoricDate | None = None
    died: HistoricDate | None = None
    living: bool = False
    place: str = ""
    biography: str = ""
    names: tuple[PartyName, ...] = ()
    ties: tuple[FamilyTie, ...] = ()
    contacts: tuple[Contact, ...] = ()
    merged_into: int | None = None
    put_away: str = ""
    id: int | None = None
    revision: int = 0


@dataclass(frozen=True)
class Publication:
    """Where patterns were printed: a newspaper column, a magazine, a catalogue, a book, a kit."""

    name: str
    kind: str = "newspaper column"
    publisher: str = ""
    place: str = ""
    dates: HistoricDate | None = None
    note: str = ""
    put_away: str = ""
    id: int | None = None
    revision: int = 0


@dataclass(frozen=True)
class Printing:
    """One printing of a pattern, with the names as they stood on the page."""

    publication: int
    number: str = ""
    date: HistoricDate | None = None
    page: str = ""
    name_as_printed: str = ""
    designer_as_printed: str = ""
    house_name: str = "unknown"
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class PatternName:
    """Another name of the design, with who uses it."""

    name: str
    source: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Pattern:
    """One design; `design` is its key in the thesaurus of traditional blocks, or empty."""

    name: str
    design: str = ""
    family: str = ""
    note: str = ""
    names: tuple[PatternName, ...] = ()
    printings: tuple[Printing, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0
