"""What an inference proposes: layouts with their sizes, pieces, certainty and grounds."""

from dataclasses import dataclass
from typing import Final, Literal

Setting = Literal[
    "straight",
    "on point",
    "strippy",
    "bars",
    "zigzag",
    "medallion",
    "hexagon",
    "one-patch",
    "none",
]
Sashing = Literal["none", "between", "framed"]
CautionKind = Literal[
    "outlier",
    "swapped",
    "wrong unit",
    "dropped fraction",
    "transposed digits",
    "counted twice",
    "binding",
    "raw edge",
    "count",
    "out of square",
    "does not fit",
    "ambiguous",
]

# The words of `Layout.details`: variants that leave setting, sashing, columns and rows alone.
ALTERNATE_BLOCKS: Final = "alternate blocks"  # every second block plain, or of a second pattern
FRAMED_BLOCKS: Final = "framed blocks"  # each block in strips of its own; two meet at a seam
RECTANGULAR_BLOCKS: Final = "rectangular blocks"  # blocks wider than long, or longer than wide
FLOATED: Final = "floated"  # setting triangles cut large; the outer points stand off the edge
CORNERSTONE_CENTRED: Final = "cornerstone-centred"  # whole pitches across, half-blocks at the edge
COLUMNS_ON_POINT: Final = "columns on point"  # a strippy whose blocks stand on their points
OUTSIDE_STRIPS: Final = "outside strips"  # a strippy that begins and ends with a strip
POINTS_UP: Final = "points up"  # hexagons with a point at top and bottom, in level rows
FLAT_SIDE_UP: Final = "flat side up"  # hexagons with a flat side at the top, in upright columns
CENTRE_ON_POINT: Final = "centre on point"  # a medallion whose centre stands on its point

DETAILS: Final = (
    ALTERNATE_BLOCKS,
    FRAMED_BLOCKS,
    RECTANGULAR_BLOCKS,
    FLOATED,
    CORNERSTONE_CENTRED,
    COLUMNS_ON_POINT,
    OUTSIDE_STRIPS,
    POINTS_UP,
    FLAT_SIDE_UP,
    CENTRE_ON_POINT,
)


@dataclass(frozen=True, slots=True)
class Size:
    """Inches across (`width`) and from top to bottom (`length`)."""

    width: float
    length: float


@dataclass(frozen=True, slots=True)
class Sides:
    """Inches on each side of the quilt as it is looked at; 0 where a side has none."""

    left: float
    right: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Pieces:
    """How many of each piece the layout takes; pieces cut through by the edge count apart."""

    blocks: int
    alternate_blocks: int = 0
    side_triangles: int = 0
    corner_triangles: int = 0
    half_blocks: int = 0
    sash_strips: int = 0
    cornerstones: int = 0


@dataclass(frozen=True, slots=True)
class Dimensions:
    """The sizes of a layout after all readings are adjusted together, in inches.

    They add up: what the blocks and sashing make, the float margin, the borders, the binding and
    the raw-edge allowance on every side together are `overall`.

    `block` is the finished block along its own sides; for a hexagon point to point (width) and flat
    to flat (length); for bars one bar; for a medallion its centre; None where nothing repeats.
    `sashing` is 0 where there is none. `borders` run from the inside out, each as it shows (a
    binding that was quoted within the outer border is taken off it). `binding` is its visible width
    on every side, `raw_edge` the seam allowance left on every side, `float_margin` the distance
    from the outermost points to the inner edge of the first border, None where nothing floats.
    `binding_within` says that the outer border was quoted with the binding in it.
    """

    overall: Size
    block: Size | None
    sashing: float
    cornerstones: bool | None
    borders: tuple[Sides, ...]
    binding: float
    float_margin: Sides | None
    raw_edge: float = 0.0
    binding_within: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """One layout that the readings allow, how probable it is, and why.

    On point, `columns` x `rows` count the main grid; bars are n x 1; a strippy counts columns x
    blocks in a column; zigzag and hexagon take the longest row; a medallion is 1 x 1; both are None
    where no repeat is recorded. `predicted` is the sum of the parts as they were read (solved for
    where they were not), with borders, binding and raw-edge allowance; `difference` is measured
    minus predicted. Layouts with the same `tie` cannot be told apart by the readings.
    """

    setting: Setting
    sashing: Sashing
    columns: int | None
    rows: int | None
    details: tuple[str, ...]
    pieces: Pieces
    predicted: Size
    difference: Size
    probability: float
    tie: int | None
    grounds: str
    dimensions: Dimensions


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """The reading expected to settle most: its path in the record, why, and how much it settles.

    `settles` is the expected probability of the best layout once the reading is taken.
    """

    what: str
    why: str
    settles: float


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that does not add up: the path it is about, its kind, and one sentence."""

    about: str
    kind: CautionKind
    says: str


@dataclass(frozen=True, slots=True)
class Inference:
    """The layouts the readings allow, best first, what to measure next, and what is amiss."""

    layouts: tuple[Layout, ...]
    measure_next: MeasureNext | None
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class Reconciled:
    """One reading beside its value in the adjusted layout; `residual` is reading minus adjusted.

    `path` is the reading's place in the record, as "borders.0.width.1". Inches throughout.
    """

    path: str
    reading: float
    adjusted: float
    residual: float
