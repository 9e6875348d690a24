"""Quilt tops drawn flat: cloth, blocks, setting, borders, with the truth about each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from math import cos, pi, sin, sqrt

import numpy as np
from PIL import Image, ImageDraw
from simulated_blocks import Block, answers, blocks, invented, moved, then
from simulated_cloth import SIDE, Shade, kinds, smooth_noise, tile

from catalogue.patterns import Position

ROOT2 = sqrt(2)
VALUES = ("clear", "low", "overlapping")
SETTINGS = ("straight", "between", "framed", "on point")


@dataclass(frozen=True)
class Plan:
    """A quilt as it was made; sizes in inches, places counted from 0 at the top left."""

    setting: str
    columns: int
    rows: int
    block: Block
    size: float
    values: str
    scrappy: str
    sash: float = 0.0
    cornerstones: bool = False
    borders: tuple[float, ...] = ()
    binding: float = 0.5
    turned: tuple[int, int] | None = None
    move: Position = Position.AS_DRAFTED
    alternate: str = ""  # "", "plain" or "pieced": every other block of a straight set
    second: Block | None = None
    turns: str = "none"  # turns that are the design: see TURNS

    @property
    def field(self) -> tuple[float, float]:
        """Width and length inside the borders."""
        if self.setting == "on point":
            return self.columns * self.size * ROOT2, self.rows * self.size * ROOT2
        more = {"between": -1, "framed": 1}.get(self.setting, 0)
        step = self.size + self.sash
        return tuple(
            count * step + (more * self.sash if more > 0 else -self.sash if more < 0 else 0)
            for count in (self.columns, self.rows)
        )

    @property
    def overall(self) -> tuple[float, float]:
        """Width and length of the finished quilt."""
        edge = 2 * (sum(self.borders) + self.binding)
        return self.field[0] + edge, self.field[1] + edge

    @property
    def answers(self) -> frozenset[str]:
        """The turns that describe the turned block rightly."""
        return answers(self.block, self.move)


@dataclass
class Top:
    """Pieces of cloth in the order in which they cover: outline in inches, and cloth."""

    pieces: list[tuple[np.ndarray, int]] = field(default_factory=list)
    tiles: list[np.ndarray] = field(default_factory=list)

    def add(self, outline: np.ndarray, cloth: int) -> None:
        self.pieces.append((outline, cloth))

    def box(self, x0: float, y0: float, x1: float, y1: float, cloth: int) -> None:
        self.add(np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]), cloth)


class Cupboard:
    """The cloth of one quilt: a few for each role, of the lightness that the role asks for."""

    def __init__(self, plan: Plan, top: Top, inch: float, random: np.random.Generator) -> None:
        self.plan, self.top, self.inch, self.random = plan, top, inch, random
        self.lightness = self._lightness()
        self.spread = {"clear": 5.0, "low": 2.5, "overlapping": 17.0}[plan.values]
        self.hues = {role: random.normal(0, 14, 2) for role in self.lightness}
        many = int(random.integers(4, 11))
        self.pools = {
            role: [self._new(role) for _ in range(1 if plan.scrappy == "no" else many)]
            for role in ("background", "light", "medium", "dark", "accent")
        }
        self.chosen: dict[str, int] = {}

    def _lightness(self) -> dict[str, float]:
        low = self.plan.values == "low"
        gap = self.random.uniform(7, 12) if low else self.random.uniform(13, 17)
        middle = self.random.uniform(35, 65) if low else 52.0
        order = ["background", "light", "medium", "accent", "dark"]
        if "background" not in self.plan.block.roles:
            order = ["light", "accent", "medium", "dark", "background"]
        # A block of two or three roles keeps them well apart, as a maker would.
        used = [role for role in order if role in self.plan.block.roles]
        steps = np.linspace(2, -2, len(used)) if not low else np.arange(len(used))[::-1] * 1.0
        steps = steps - steps.mean()
        sign = -1 if self.random.random() < 0.25 else 1
        values = dict(zip(used, middle + sign * gap * steps, strict=True))
        return {role: values.get(role, middle) for role in order}

    def _new(self, role: str) -> int:
        lightness = self.lightness[role] + self.random.normal(0, self.spread)
        hue = self.hues[role] + (
            self.random.normal(0, 14, 2) if self.plan.scrappy != "no" else np.zeros(2)
        )
        shade = Shade(float(np.clip(lightness, 12, 93)), *map(float, hue))
        return self.any(shade)

    def any(self, shade: Shade | None = None) -> int:
        """One more cloth, of this mean colour or of any."""
        if shade is None:
            a, b = self.random.normal(0, 16, 2)
            shade = Shade(self.random.uniform(22, 88), float(a), float(b))
        weights = np.array([0.2, 0.16, 0.16, 0.2, 0.08, 0.1, 0.1])
        kind = str(self.random.choice(kinds(), p=weights))
        self.top.tiles.append(tile(shade, kind, self.inch, self.random))
        return len(self.top.tiles) - 1

    def pick(self, role: str) -> int:
        """The cloth for one patch."""
        if self.plan.scrappy == "patch" or role not in self.chosen:
            self.chosen[role] = int(self.random.choice(self.pools[role]))
        return self.chosen[role]


def plan(random: np.random.Generator, **wanted: object) -> Plan:
    """A quilt drawn at random, with whatever is `wanted` of the fields of Plan held fixed."""
    setting = str(wanted.get("setting") or random.choice(SETTINGS))
    values = str(wanted.get("values") or random.choice(VALUES))
    scrappy = "patch" if values == "overlapping" else str(random.choice(["no", "block", "patch"]))
    block = wanted.get("block") or choose_block(random, setting)
    size = float(random.uniform(7, 13))
    sashed = setting in ("between", "framed")
    made: dict[str, object] = {
        "setting": setting,
        "columns": int(random.integers(3, 7)),
        "rows": int(random.integers(3, 8)),
        "block": block,
        "size": size,
        "values": values,
        "scrappy": scrappy,
        "sash": size * random.uniform(0.12, 0.35) if sashed else 0.0,
        "cornerstones": bool(sashed and random.random() < 0.5),
        "borders": _border_widths(random, size),
        "binding": float(random.choice([0.0, 0.375, 0.5])),
    }
    return Plan(**{**made, **wanted})  # type: ignore[arg-type]


def _border_widths(random: np.random.Generator, size: float) -> tuple[float, ...]:
    """None to three borders, from the inside out, together no wider than 1.4 blocks."""
    widths = random.uniform(0.1, 0.8, int(random.integers(0, 4))) * size
    return tuple(float(width) for width in widths * min(1, 1.4 * size / max(widths.sum(), 1e-9)))


def choose_block(random: np.random.Generator, setting: str) -> Block:
    """A design that can be counted in this setting."""
    if random.random() < 0.2:
        return invented(random)
    countable = [b for b in blocks() if setting != "straight" or not b.plain_repeat]
    return countable[int(random.integers(len(countable)))]


def turn_one(plan: Plan, random: np.random.Generator) -> Plan:
    """The same quilt with one block turned or mirrored so that it shows."""
    from dataclasses import replace

    moves = [move for move in Position if not plan.block.hides(move)]
    if not moves:
        raise ValueError(f"{plan.block.name} hides every move.")
    pieced = [place for place in _places(plan.columns, plan.rows) if not _is_plain(plan, *place)]
    at = pieced[int(random.integers(len(pieced)))]
    return replace(plan, turned=at, move=moves[int(random.integers(len(moves)))])


TURNS = {
    "none": lambda c, r: 0,
    "chequered": lambda c, r: (c + r) % 2,
    "by column": lambda c, r: 2 * (c % 2),
    "by row": lambda c, r: 2 * (r % 2),
    "pinwheel": lambda c, r: (0, 1, 3, 2)[c % 2 + 2 * (r % 2)],
}
_QUARTERS = (
    Position.AS_DRAFTED,
    Position.TURNED_90,
    Position.TURNED_180,
    Position.TURNED_270,
)


def draw(plan: Plan, inch: float, random: np.random.Generator) -> np.ndarray:
    """The top as CIELAB floats at `inch` pixels to the inch."""
    top = Top()
    cupboard = Cupboard(plan, top, inch, random)
    _borders(plan, top, cupboard)
    if plan.setting == "on point":
        _on_point(plan, top, cupboard)
    else:
        _straight(plan, top, cupboard)
    return render(top, plan.overall, inch, random)


def _borders(plan: Plan, top: Top, cupboard: Cupboard) -> None:
    width, length = plan.overall
    edge = 0.0
    for strip in (plan.binding, *reversed(plan.borders)):
        if strip:
            top.box(edge, edge, width - edge, length - edge, cupboard.any())
        edge += strip


def _sew(top: Top, cupboard: Cupboard, block: Block, place: np.ndarray, move: Position) -> None:
    """One block; `place` is its top left corner and its two sides, as three points."""
    cupboard.chosen = {} if cupboard.plan.scrappy != "no" else cupboard.chosen
    origin, across, down = place
    for role, outline in block.pieces:
        unit = moved(outline, move)
        top.add(origin + unit[:, :1] * across + unit[:, 1:] * down, cupboard.pick(role))


def _straight(plan: Plan, top: Top, cupboard: Cupboard) -> None:
    margin = plan.binding + sum(plan.borders)
    width, length = plan.field
    if plan.sash:
        top.box(margin, margin, margin + width, margin + length, cupboard.any())
        _cornerstones(plan, top, cupboard, margin)
    start = margin + (plan.sash if plan.setting == "framed" else 0)
    plain = cupboard.any()
    for column, row in _places(plan.columns, plan.rows):
        corner = np.array([column, row]) * (plan.size + plan.sash) + start
        sides = np.array([(plan.size, 0.0), (0.0, plan.size)])
        odd = (column + row) % 2 == 1
        if _is_plain(plan, column, row):
            top.box(*corner, *(corner + plan.size), plain)
            continue
        block = plan.second if odd and plan.second else plan.block
        _sew(top, cupboard, block, np.vstack([corner, sides]), _move(plan, column, row))


def _places(columns: int, rows: int) -> Iterator[tuple[int, int]]:
    return ((column, row) for row in range(rows) for column in range(columns))


def _is_plain(plan: Plan, column: int, row: int) -> bool:
    """Whether this place of a straight set is taken by a plain block."""
    return plan.setting == "straight" and plan.alternate == "plain" and (column + row) % 2 == 1


def _move(plan: Plan, column: int, row: int) -> Position:
    meant = _QUARTERS[TURNS[plan.turns](column, row)]
    return then(plan.move, meant) if plan.turned == (column, row) else meant


def _cornerstones(plan: Plan, top: Top, cupboard: Cupboard, margin: float) -> None:
    if not plan.cornerstones:
        return
    cloth = cupboard.any()
    first = 0 if plan.setting == "framed" else 1
    step = plan.size + plan.sash
    for column in range(first, plan.columns + 1 - first):
        for row in range(first, plan.rows + 1 - first):
            x, y = (margin + k * step - (plan.sash if first else 0) for k in (column, row))
            top.box(x, y, x + plan.sash, y + plan.sash, cloth)


def _on_point(plan: Plan, top: Top, cupboard: Cupboard) -> None:
    margin = plan.binding + sum(plan.borders)
    width, length = plan.field
    alternate = cupboard.any()
    triangle = alternate if cupboard.random.random() < 0.5 else cupboard.any()
    top.box(margin, margin, margin + width, margin + length, triangle)
    step = plan.size * ROOT2
    half = plan.size / ROOT2
    # Which corner of the drafted block points up is the maker's choice, for the whole quilt.
    along, down = np.array([half, half]), np.array([-half, half])
    for column, row in _places(plan.columns - 1, plan.rows - 1):
        point = np.array([(column + 1) * step, row * step + step / 2]) + margin
        corners = np.array([point, point + along, point + along + down, point + down])
        if plan.alternate == "pieced":
            place = np.vstack([point, along, down])
            _sew(top, cupboard, plan.block, place, Position.AS_DRAFTED)
        else:
            top.add(corners, alternate)
    for column, row in _places(plan.columns, plan.rows):
        point = np.array([(column + 0.5) * step, row * step]) + margin
        place = np.vstack([point, along, down])
        _sew(top, cupboard, plan.block, place, _move(plan, column, row))


def crazy(size: tuple[float, float], inch: float, random: np.random.Generator) -> np.ndarray:
    """A crazy quilt: irregular patches, on foundation squares or not, seams embroidered or not."""
    top = Top()
    clear = Plan("straight", 1, 1, blocks()[0], 10, "overlapping", "patch")
    cupboard = Cupboard(clear, top, inch, random)
    cloths = [cupboard.any() for _ in range(24)]
    foundations = int(random.integers(3, 6)) if random.random() < 0.5 else 1
    across = np.linspace(0, size[0], foundations + 1)
    down = np.linspace(0, size[1], foundations + 1)
    for x0, x1 in pairwise(across):
        for y0, y1 in pairwise(down):
            count = int(random.integers(10, 20)) if foundations > 1 else 140
            for outline in _shards((x0, y0, x1, y1), count, random):
                top.add(outline, int(random.choice(cloths)))
    return render(top, size, inch, random)


def _shards(
    box: tuple[float, float, float, float], count: int, random: np.random.Generator
) -> Iterator[np.ndarray]:
    """Irregular patches: a box cut again and again by lines at any angle."""
    x0, y0, x1, y1 = box
    patches = [np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])]
    while len(patches) < count:
        patches.sort(key=_area)
        whole = patches.pop()
        centre = whole.mean(0) + random.normal(0, 0.12, 2) * np.ptp(whole, axis=0)
        angle = random.uniform(0, pi)
        normal = np.array([cos(angle), sin(angle)])
        for sign in (1, -1):
            half = _cut(whole, sign * normal, sign * float(centre @ normal))
            if len(half) >= 3:
                patches.append(half)
    yield from patches


def _area(outline: np.ndarray) -> float:
    x, y = outline.T
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2


def _cut(outline: np.ndarray, normal: np.ndarray, limit: float) -> np.ndarray:
    kept = []
    for here, there in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        a, b = float(here @ normal) - limit, float(there @ normal) - limit
        if a >= 0:
            kept.append(here)
        if (a > 0 > b) or (a < 0 < b):
            kept.append(here + (there - here) * a / (a - b))
    return np.array(kept)


def landscape(size: tuple[float, float], inch: float, random: np.random.Generator) -> np.ndarray:
    """A picture instead of blocks: sky, ridges one behind the other, trees or roofs, water."""
    width, length = (round(side * inch) for side in size)
    y, x = np.mgrid[0:length, 0:width] / length
    lab = np.empty((length, width, 3), np.float32)
    lab[..., 0] = random.uniform(60, 85) + 18 * y
    lab[..., 1:] = random.normal(0, 8, 2) + (y * 10)[..., None]
    lab[..., 0] += 3 * smooth_noise((length, width), length / 6, random)
    ridges = int(random.integers(2, 6))
    for number in range(ridges):
        height = 0.25 + 0.65 * (number + random.uniform(0, 0.7)) / ridges
        run = smooth_noise((1, 2 * width), width / random.uniform(2, 9), random)[0, :width]
        below = y > height + 0.05 * run[None, :]
        shade = [random.uniform(20, 70), *random.normal(0, 15, 2)]
        lab[below] = shade + 4 * smooth_noise((length, width), 5, random)[below][:, None] * [
            1,
            0,
            0,
        ]
    for _ in range(int(random.integers(0, 25))):
        cx, cy, r = (
            random.uniform(0, width / length),
            random.uniform(0.35, 1),
            random.uniform(0.02, 0.1),
        )
        spot = np.hypot(x - cx, (y - cy) * random.uniform(0.6, 1.4)) < r
        lab[spot] = [random.uniform(15, 75), *random.normal(0, 18, 2)]
    return lab


def render(
    top: Top, size: tuple[float, float], inch: float, random: np.random.Generator
) -> np.ndarray:
    """Every piece cut from its cloth at a place of its own, seams in shadow, quilting in relief."""
    width, length = (round(side * inch) for side in size)
    labels = Image.new("I", (width, length))
    pencil = ImageDraw.Draw(labels)
    for number, (outline, _) in enumerate(top.pieces):
        pencil.polygon([tuple(p) for p in outline * inch], fill=number)
    piece = np.asarray(labels)
    count = len(top.pieces)
    cloth = np.array([cloth for _, cloth in top.pieces])
    shift = random.integers(0, SIDE, (2, count))
    crossed = random.random(count) < 0.35
    y, x = np.mgrid[0:length, 0:width].astype(np.int32)
    y, x = np.where(crossed[piece], x, y), np.where(crossed[piece], y, x)
    tiles = np.stack(top.tiles)
    lab = tiles[cloth[piece], (y + shift[0][piece]) % SIDE, (x + shift[1][piece]) % SIDE]
    seam = np.zeros(piece.shape, np.float32)
    seam[:, 1:] += piece[:, 1:] != piece[:, :-1]
    seam[1:] += piece[1:] != piece[:-1]
    lab[..., 0] -= random.uniform(0, 9) * np.minimum(seam, 1)
    lab[..., 0] += random.uniform(0.5, 2) * smooth_noise(piece.shape, 0.8 * inch, random)
    lab[..., 0] -= random.uniform(0, 4) * _quilting(piece.shape, inch, random)
    return lab


def _quilting(shape: tuple[int, int], inch: float, random: np.random.Generator) -> np.ndarray:
    """Lines of quilting over everything, crossed at a slant, in no relation to the blocks."""
    step = random.uniform(1, 3) * inch
    angle = random.uniform(0.6, 1.0)
    y, x = np.mgrid[0 : shape[0], 0 : shape[1]]
    one = (x * cos(angle) + y * sin(angle)) / step % 1
    other = (x * cos(angle) - y * sin(angle)) / step % 1
    return ((one < 1 / step) | (other < 1 / step)).astype(np.float32)
