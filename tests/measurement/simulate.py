"""Quilts drawn at random over all settings, read with an honest tape, for holding the inference to.

The geometry is written out here a second time, from the trade's own rules, and shares nothing with
the inference: only its public contract (the record that goes in) is used. One quilt's block mean
drifts from the draft by a standard deviation of 0.6 %, single blocks vary by 0.1 in, overall
readings by 0.3 in; three overall readings a side, two to five of the block each way, on a tape read
to 1/8 or 1/4 in.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import sqrt
from random import Random
from typing import Any

DRIFT = 0.006
BLOCK_SCATTER = 0.1
OVERALL_SCATTER = 0.3
STRIP_SCATTER = 0.08
SMALLEST, LARGEST = 30.0, 115.0

Record = dict[str, Any]


@dataclass(frozen=True)
class Quilt:
    """One quilt as it was made: `block` and `sash` are drafted sizes, borders (width, sides)."""

    setting: str
    sashing: str
    columns: int
    rows: int
    block: tuple[float, float]
    sash: float = 0.0
    cornerstones: bool = False
    borders: tuple[tuple[float, tuple[str, ...]], ...] = ()
    binding: float | None = None
    within_border: bool = False
    raw: bool = False
    pieced: int | None = None
    ease: float = 0.0
    field: Callable[[float, float, float], tuple[float, float]] = field(
        default=lambda w, h, s: (w, h), compare=False
    )

    @property
    def identity(self) -> tuple[str, str, int, int]:
        """What a layout is told apart by."""
        return self.setting, self.sashing, self.columns, self.rows

    def overall(self, scale: float = 1.0) -> tuple[float, float]:
        """Width and length, the blocks `scale` times as large as drafted."""
        width, length = self.field(self.block[0] * scale, self.block[1] * scale, self.sash)
        for size, sides in self.borders:
            width += size * (("left" in sides) + ("right" in sides))
            length += size * (("top" in sides) + ("bottom" in sides))
        outside = 2 * self.ease + (0.5 if self.raw else 0.0)
        if self.binding is not None and not (self.within_border and self.borders):
            outside += 2 * self.binding
        return width + outside, length + outside


ALL_SIDES = ("left", "right", "top", "bottom")
ROOT_2 = sqrt(2)
ROOT_3 = sqrt(3)


def _drafted(rng: Random, low: float, high: float) -> float:
    """A size in whole, half or quarter inches."""
    step = rng.choice((1.0, 1.0, 0.5, 0.25))
    return rng.randint(round(low / step), round(high / step)) * step


def _count(rng: Random, pitch: float, least: int = 2) -> int:
    most = max(least, int(90 / pitch))
    return rng.randint(max(least, min(most, int(26 / pitch))), most)


def _straight_edge(rng: Random) -> Quilt:
    b = _drafted(rng, 5, 16)
    c, r = _count(rng, b), _count(rng, b)
    return Quilt("straight", "none", c, r, (b, b), field=lambda w, h, s: (c * w, r * h))


def _straight_rectangular(rng: Random) -> Quilt:
    w, h = _drafted(rng, 5, 14), _drafted(rng, 5, 14)
    while abs(w - h) < 0.75:
        h = _drafted(rng, 5, 14)
    c, r = _count(rng, w), _count(rng, h)
    return Quilt("straight", "none", c, r, (w, h), field=lambda w, h, s: (c * w, r * h))


def _alternate(rng: Random) -> Quilt:
    quilt = _straight_edge(rng)
    return replace(quilt, pieced=(quilt.columns * quilt.rows + 1) // 2)


def _straight_between(rng: Random) -> Quilt:
    b, s = _drafted(rng, 5, 16), _drafted(rng, 1, 4)
    c, r = _count(rng, b + s), _count(rng, b + s)
    return Quilt(
        "straight",
        "between",
        c,
        r,
        (b, b),
        s,
        rng.random() < 0.5,
        field=lambda w, h, s: (c * w + (c - 1) * s, r * h + (r - 1) * s),
    )


def _straight_framed(rng: Random) -> Quilt:
    quilt = _straight_between(rng)
    c, r = quilt.columns, quilt.rows
    return replace(
        quilt, sashing="framed", field=lambda w, h, s: (c * w + (c + 1) * s, r * h + (r + 1) * s)
    )


def _own_frames(rng: Random) -> Quilt:
    b, s = _drafted(rng, 5, 14), _drafted(rng, 1, 2)
    c, r = _count(rng, b + 2 * s), _count(rng, b + 2 * s)
    return Quilt(
        "straight",
        "framed",
        c,
        r,
        (b, b),
        s,
        field=lambda w, h, s: (c * (w + 2 * s), r * (h + 2 * s)),
    )


def _point_edge(rng: Random) -> Quilt:
    b = _drafted(rng, 5, 14)
    c, r = _count(rng, b * ROOT_2), _count(rng, b * ROOT_2)
    return Quilt(
        "on point", "none", c, r, (b, b), field=lambda w, h, s: (c * w * ROOT_2, r * h * ROOT_2)
    )


def _point_alternate(rng: Random) -> Quilt:
    quilt = _point_edge(rng)
    return replace(quilt, pieced=quilt.columns * quilt.rows)


def _floated(rng: Random) -> Quilt:
    return replace(_point_edge(rng), ease=rng.choice((0.5, 0.75, 1.0, 1.25, 1.5)))


def _point_framed(rng: Random) -> Quilt:
    b, s = _drafted(rng, 5, 12), _drafted(rng, 1, 3)
    pitch = (b + s) * ROOT_2
    c, r = _count(rng, pitch), _count(rng, pitch)
    return Quilt(
        "on point",
        "framed",
        c,
        r,
        (b, b),
        s,
        rng.random() < 0.5,
        field=lambda w, h, s: (c * (w + s) * ROOT_2, r * (h + s) * ROOT_2),
    )


def _point_between(rng: Random) -> Quilt:
    quilt = _point_framed(rng)
    c, r = quilt.columns, quilt.rows

    def size(w: float, h: float, s: float) -> tuple[float, float]:
        across = (c - 1) * (w + s) * ROOT_2 + w * ROOT_2
        return across, (r - 1) * (h + s) * ROOT_2 + h * ROOT_2

    return replace(quilt, sashing="between", field=size)


def _cornerstone_centred(rng: Random) -> Quilt:
    quilt = replace(_point_framed(rng), sashing="between", cornerstones=True)
    c, r = quilt.columns, quilt.rows
    return replace(quilt, pieced=(c - 1) * r + c * (r - 1))


def _bars(rng: Random) -> Quilt:
    w, h = _drafted(rng, 3, 9), float(rng.randint(34, 80))
    c = _count(rng, w, 3)
    return Quilt("bars", "none", c, 1, (w, h), field=lambda w, h, s: (c * w, h))


def _strippy(rng: Random) -> Quilt:
    on_point, outside = rng.random() < 0.5, rng.random() < 0.5
    b, s = _drafted(rng, 4, 10), _drafted(rng, 2, 7)
    d = b * (ROOT_2 if on_point else 1)
    c, r = _count(rng, d + s), _count(rng, d, 3)
    strips = c + 1 if outside else c - 1
    times = ROOT_2 if on_point else 1.0
    return Quilt(
        "strippy",
        "framed" if outside else "between",
        c,
        r,
        (b, b),
        s,
        field=lambda w, h, s: (c * w * times + strips * s, r * h * times),
    )


def _zigzag(rng: Random) -> Quilt:
    b = _drafted(rng, 4, 10)
    c, r = _count(rng, b * ROOT_2, 3), _count(rng, b * ROOT_2, 3)
    whole = (c - c // 2) * r + c // 2 * (r - 1)
    return Quilt(
        "zigzag",
        "none",
        c,
        r,
        (b, b),
        pieced=whole,
        field=lambda w, h, s: (c * w * ROOT_2, r * h * ROOT_2),
    )


def _medallion(rng: Random) -> Quilt:
    times = rng.choice((1.0, ROOT_2))
    b = _drafted(rng, 12, 28)
    return Quilt("medallion", "none", 1, 1, (b, b), field=lambda w, h, s: (w * times, h * times))


def _one_patch(rng: Random) -> Quilt:
    b = _drafted(rng, 2, 4)
    c, r = _count(rng, b, 8), _count(rng, b, 8)
    return Quilt("one-patch", "none", c, r, (b, b), field=lambda w, h, s: (c * w, r * h))


def _hexagon(rng: Random) -> Quilt:
    side = _drafted(rng, 1.5, 5)
    up = rng.random() < 0.6
    c = _count(rng, side * (ROOT_3 if up else 1.5), 4)
    r = _count(rng, side * (1.5 if up else ROOT_3), 4)

    def size(w: float, h: float, s: float) -> tuple[float, float]:
        a = w / 2
        if up:
            return c * ROOT_3 * a, (1.5 * r + 0.5) * a
        return (1.5 * c + 0.5) * a, r * ROOT_3 * a

    return Quilt("hexagon", "none", c, r, (2 * side, ROOT_3 * side), field=size)


FAMILIES: dict[str, Callable[[Random], Quilt]] = {
    "straight edge to edge": _straight_edge,
    "straight rectangular": _straight_rectangular,
    "straight alternate": _alternate,
    "straight sashed between": _straight_between,
    "straight sashed and framed": _straight_framed,
    "straight own frames": _own_frames,
    "on point edge to edge": _point_edge,
    "on point alternate": _point_alternate,
    "on point floated": _floated,
    "on point sashed and framed": _point_framed,
    "on point sashed between": _point_between,
    "on point cornerstone-centred": _cornerstone_centred,
    "bars": _bars,
    "strippy": _strippy,
    "zigzag": _zigzag,
    "medallion": _medallion,
    "one-patch": _one_patch,
    "hexagon": _hexagon,
}


def draw(rng: Random, family: str | None = None) -> Quilt:
    """A quilt of a family, any where none is named, of a size that beds and walls take."""
    while True:
        quilt = FAMILIES[family or rng.choice(list(FAMILIES))](rng)
        quilt = _finished(quilt, rng)
        width, length = quilt.overall()
        fits = min(width, length) >= SMALLEST and max(width, length) <= LARGEST
        if fits and 0.62 <= width / length <= 1.45:
            return quilt


def _finished(quilt: Quilt, rng: Random) -> Quilt:
    """Borders, alike on all sides or not, and an edge."""
    least = 1 if quilt.setting == "medallion" else 0
    borders = []
    for _ in range(rng.choices((0, 1, 2, 3), (3, 4, 3, 1))[0] or least):
        sides = ALL_SIDES
        if rng.random() < 0.08:
            sides = rng.choice((("left", "right"), ("top", "bottom"), ("left", "right", "top")))
        borders.append((_drafted(rng, 1, 9), sides))
    edge = rng.choices(("plain", "binding", "raw"), (5, 4, 1))[0]
    return replace(
        quilt,
        borders=tuple(borders),
        binding=rng.choice((0.25, 0.375, 0.5, 0.75)) if edge == "binding" else None,
        within_border=bool(borders) and rng.random() < 0.5,
        raw=edge == "raw",
    )


@dataclass(frozen=True)
class Told:
    """What the record says beyond the tape: how often setting and counts are given."""

    setting: float = 0.35
    counts: float = 0.35
    pieced: float = 0.6  # where only some blocks are pieced, or the count tells the setting
    follows: float = 0.5  # how often the whole quilt follows the drift of its measured blocks


AS_USUAL = Told()


def read(quilt: Quilt, rng: Random, told: Told = AS_USUAL) -> Record:
    """The record an honest cataloguer makes of a quilt: every part read or said to be absent."""
    tape = rng.choice((0.125, 0.25))
    drift = 1 + rng.gauss(0, DRIFT)
    overall = quilt.overall(drift if rng.random() < told.follows else 1.0)
    read = _tape(rng, tape)
    many = rng.randint
    record: Record = {
        "overall": {
            "width": [read(overall[0], OVERALL_SCATTER) for _ in range(3)],
            "length": [read(overall[1], OVERALL_SCATTER) for _ in range(3)],
        },
        "block": {
            "width": [read(quilt.block[0] * drift, BLOCK_SCATTER) for _ in range(many(2, 5))],
            "length": [read(quilt.block[1] * drift, BLOCK_SCATTER) for _ in range(many(2, 5))],
        },
        "sashing": None,
        "borders": [],
        "binding": None,
        "edge": "raw" if quilt.raw else "bound",
    }
    if quilt.sash:
        strips = [read(quilt.sash, STRIP_SCATTER) for _ in range(many(1, 3))]
        record["sashing"] = {"width": strips, "cornerstones": quilt.cornerstones}
    for size, sides in quilt.borders:
        border: Record = {"width": [read(size, STRIP_SCATTER) for _ in range(many(1, 3))]}
        if sides != ALL_SIDES:
            border["sides"] = list(sides)
        record["borders"].append(border)
    if quilt.binding is not None:
        record["binding"] = {
            "width": [read(quilt.binding, 0.03)],
            "within_border": quilt.within_border,
        }
    if rng.random() < told.setting:
        record["setting"] = quilt.setting
    if rng.random() < told.counts:
        record["counted"] = {"columns": quilt.columns, "rows": quilt.rows}
    if quilt.pieced is not None and rng.random() < told.pieced:
        record.setdefault("counted", {})["pieced_blocks"] = quilt.pieced
    return record


def _tape(rng: Random, mark: float) -> Callable[[float, float], str]:
    def read(size: float, scatter: float) -> str:
        marks = max(1, round((size + rng.gauss(0, scatter)) / mark))
        return written(marks * mark)

    return read


def written(inches: float) -> str:
    """Eighths of an inch as people write them."""
    eighths = round(inches * 8)
    whole, rest = divmod(eighths, 8)
    if not rest:
        return str(whole)
    under = 8
    while rest % 2 == 0:
        rest, under = rest // 2, under // 2
    return f"{whole} {rest}/{under}" if whole else f"{rest}/{under}"
