"""What is printed or woven on cloth: one function for each kind of figure."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import cos, pi, sin

import numpy as np
from PIL import Image

from sample_collection.studio.brush import TILE, Brush, Colour, Spot, rgb


@dataclass(frozen=True)
class Fabric:
    """The recipe of one cloth: its kind, ground, figure colours and the repeat in inches."""

    name: str
    kind: str
    ground: str
    figures: tuple[str, ...] = ()
    repeat: float = 1.0
    size: float = 0.25
    weave: float = 1.0
    sheen: float = 0.0


def lattice(fabric: Fabric, brush: Brush, drop: bool = True, jitter: float = 0.0) -> Iterator[Spot]:
    """Places in a half-drop lattice that closes round the tile, in the recipe's repeat."""
    count = max(2, 2 * round(TILE / fabric.repeat / 2))
    step = TILE / count
    for column in range(count):
        for row in range(count):
            x = column * step
            y = (row + (0.5 if drop and column % 2 else 0.0)) * step
            wander = brush.random.uniform(-jitter, jitter, 2) * step
            yield (x + wander[0]) % TILE, (y + wander[1]) % TILE


def leaf(length: float, width: float) -> list[Spot]:
    """A pointed oval from the origin along the first axis."""
    ts = [k / 7 for k in range(8)]
    upper = [(length * t, -width / 2 * sin(pi * t)) for t in ts]
    return upper + [(length * t, width / 2 * sin(pi * t)) for t in reversed(ts)]


def _flower(
    brush: Brush, at: Spot, radius: float, petals: Colour, heart: Colour, count: int
) -> None:
    turn = brush.random.uniform(0, 2 * pi)
    for k in range(count):
        angle = turn + 2 * pi * k / count
        centre = at[0] + radius * 0.58 * cos(angle), at[1] + radius * 0.58 * sin(angle)
        brush.dot(centre, radius * 0.46, petals)
    brush.dot(at, radius * 0.3, heart)


def _plain(brush: Brush, fabric: Fabric) -> None:
    for colour in map(rgb, fabric.figures):  # flecks, slubs
        for _ in range(60):
            x, y = brush.random.uniform(0, TILE, 2)
            length = brush.random.uniform(0.03, 0.2)
            brush.line([(x, y), (x + length, y)], colour, 0.012)


def _dots(brush: Brush, fabric: Fabric) -> None:
    for number, at in enumerate(lattice(fabric, brush)):
        colour = rgb(fabric.figures[number % len(fabric.figures)])
        brush.dot(at, fabric.size / 2, colour)


def _rings(brush: Brush, fabric: Fabric) -> None:
    colours = [rgb(text) for text in fabric.figures]
    for at in lattice(fabric, brush):
        brush.ring(at, fabric.size / 2, colours[0], fabric.size * 0.2)
        brush.dot(at, fabric.size * 0.14, colours[-1])


def _sprig(brush: Brush, fabric: Fabric) -> None:
    """Small flowers with a stem and two leaves, spaced on the ground."""
    flower, stem, *rest = [rgb(text) for text in fabric.figures]
    heart = rest[0] if rest else rgb(fabric.ground)
    s = fabric.size
    for at in lattice(fabric, brush, jitter=0.06):
        lean = brush.random.uniform(-0.6, 0.6)
        foot = at[0] + s * 0.75 * sin(lean), at[1] + s * 0.75 * cos(lean)
        brush.line([at, foot], stem, s * 0.09)
        for side in (-1, 1):
            brush.shape(foot, leaf(s * 0.5, s * 0.22), stem, -pi / 2 - lean + side * 0.9)
        _flower(brush, at, s * 0.34, flower, heart, 5)


def _ditsy(brush: Brush, fabric: Fabric) -> None:
    """Dense little figures that leave hardly any ground: the double pinks and their like."""
    colours = [rgb(text) for text in fabric.figures]
    s = fabric.size
    for number, at in enumerate(lattice(fabric, brush, jitter=0.3)):
        colour = colours[number % len(colours)]
        turn = brush.random.uniform(0, 2 * pi)
        brush.shape(at, leaf(s, s * 0.42), colour, turn)
        brush.shape(at, leaf(s * 0.8, s * 0.4), colour, turn + 2.2)
        if number % 2:
            brush.dot((at[0] - s * 0.3, at[1] + s * 0.2), s * 0.2, colours[-1])


def _paisley(brush: Brush, fabric: Fabric) -> None:
    cone, line, *rest = [rgb(text) for text in fabric.figures]
    s = fabric.size
    for number, at in enumerate(lattice(fabric, brush)):
        turn = (number % 2) * pi + brush.random.uniform(-0.3, 0.3)
        brush.shape(at, _cone(s), line, turn)
        brush.shape(at, _cone(s * 0.74), cone, turn)
        brush.dot(at, s * 0.14, rest[0] if rest else line)


def _cone(size: float) -> list[Spot]:
    points = []
    for k in range(17):
        t = 2 * pi * k / 16
        narrow = 0.34 + 0.2 * sin(t)
        points.append(
            (size * (narrow * cos(t) + 0.16 * (sin(t) - 1) ** 2 * 0.4), -size * 0.6 * sin(t))
        )
    return points


def _chintz(brush: Brush, fabric: Fabric) -> None:
    """Large flowers on trailing stems with leaves and buds."""
    petal, shade, green, dark, *rest = [rgb(text) for text in fabric.figures]
    heart = rest[0] if rest else shade
    s = fabric.size
    for at in lattice(fabric, brush, jitter=0.12):
        away = brush.random.uniform(0, 2 * pi)
        path = [
            (at[0] + s * t * cos(away + 0.9 * t), at[1] + s * t * sin(away + 0.9 * t))
            for t in (0, 0.5, 1.0, 1.5, 1.9)
        ]
        brush.line(path, dark, s * 0.05)
        for k, place in enumerate(path[1:], start=1):
            turn = away + 0.9 * k * 0.5 + (1.2 if k % 2 else -1.0)
            brush.shape(place, leaf(s * 0.75, s * 0.34), green if k % 2 else dark, turn)
        _flower(brush, path[-1], s * 0.2, petal, heart, 5)
        for radius, colour, count in ((1.0, petal, 7), (0.72, shade, 6), (0.5, petal, 5)):
            _flower(brush, at, s * 0.62 * radius, colour, heart, count)
        brush.dot(at, s * 0.1, heart)


def _stripe(brush: Brush, fabric: Fabric) -> None:
    """Stripes of changing width across the repeat; a small figure runs down the widest ones."""
    colours = [rgb(text) for text in fabric.figures]
    count = max(1, round(TILE / fabric.repeat))
    step = TILE / count
    shares = (0.34, 0.08, 0.2, 0.05)
    for number in range(count):
        at = number * step
        for k, colour in enumerate(colours):
            width = shares[k % 4] * step
            brush.band(at, width, colour)
            at += width + step * 0.06
        figure = colours[1 % len(colours)]
        rows = max(4, round(TILE / 0.22))
        for row in range(rows):
            y = row * TILE / rows
            brush.shape(
                (number * step + step * 0.17, y),
                leaf(fabric.size * 0.5, fabric.size * 0.3),
                figure,
                0.8,
            )


def _pinstripe(brush: Brush, fabric: Fabric) -> None:
    count = round(TILE / fabric.repeat)
    for number in range(count):
        colour = rgb(fabric.figures[number % len(fabric.figures)])
        brush.band(number * TILE / count, fabric.size, colour)


def _check(brush: Brush, fabric: Fabric) -> None:
    """A woven check or plaid: warp and weft of one order, mixed where they cross."""
    ground = np.array(rgb(fabric.ground), dtype=np.float32)
    side = brush.canvas.size[0]
    warp = np.tile(ground, (side, 1))
    count = max(1, round(TILE / fabric.repeat))
    step = side / count
    shares = ((0.0, 0.5), (0.62, 0.1), (0.8, 0.06))
    for number in range(count):
        for colour, (start, width) in zip(map(rgb, fabric.figures), shares, strict=False):
            low = round((number + start) * step)
            warp[low : round((number + start + width) * step)] = colour
    mixed = (warp[None, :, :] + warp[:, None, :]) / 2
    picture = Image.fromarray(mixed.astype(np.uint8))
    brush.canvas.paste(picture)


def _shirting(brush: Brush, fabric: Fabric) -> None:
    """Sparse tiny figures on a light ground: dashes, crosses, clusters, by the recipe's size."""
    colours = [rgb(text) for text in fabric.figures]
    s = fabric.size
    style = zlib.crc32(fabric.name.encode()) % 4
    for number, at in enumerate(lattice(fabric, brush)):
        colour = colours[number % len(colours)]
        if style == 0:
            brush.shape(at, leaf(s, s * 0.25), colour, 0.7)
        elif style == 1:
            brush.line([(at[0] - s / 2, at[1]), (at[0] + s / 2, at[1])], colour, s * 0.18)
            brush.line([(at[0], at[1] - s / 2), (at[0], at[1] + s / 2)], colour, s * 0.18)
        elif style == 2:
            for k in range(3):
                angle = 2 * pi * k / 3
                brush.dot(
                    (at[0] + s * 0.4 * cos(angle), at[1] + s * 0.4 * sin(angle)), s * 0.2, colour
                )
        else:
            brush.ring(at, s * 0.45, colour, s * 0.16)


def _thirties(brush: Brush, fabric: Fabric) -> None:
    """Cheerful flowers and leaves in clear colours, as on dress prints and sacks of the 1930s."""
    colours = [rgb(text) for text in fabric.figures]
    white = (252, 248, 238)
    s = fabric.size
    for number, at in enumerate(lattice(fabric, brush, jitter=0.18)):
        colour = colours[number % len(colours)]
        side = colours[(number + 1) % len(colours)]
        if number % 3 == 2:
            turn = brush.random.uniform(0, 2 * pi)
            brush.shape(at, leaf(s * 0.9, s * 0.4), side, turn)
            brush.shape(at, leaf(s * 0.9, s * 0.4), colour, turn + 1.1)
        else:
            _flower(brush, at, s * 0.5, colour, white if number % 2 else side, 5)


def _wool(brush: Brush, fabric: Fabric) -> None:
    for _ in range(2600):
        colour = rgb(fabric.figures[int(brush.random.integers(len(fabric.figures)))])
        x, y = brush.random.uniform(0, TILE, 2)
        turn = brush.random.uniform(0, pi)
        brush.line([(x, y), (x + 0.05 * cos(turn), y + 0.05 * sin(turn))], colour, 0.012)


def _velvet(brush: Brush, fabric: Fabric) -> None:
    colours = [rgb(text) for text in fabric.figures] or [rgb(fabric.ground)]
    for _ in range(900):
        x, y = brush.random.uniform(0, TILE, 2)
        brush.shape((x, y), leaf(0.3, 0.05), colours[int(brush.random.integers(len(colours)))], 1.5)


def _moire(brush: Brush, fabric: Fabric) -> None:
    colour = rgb(fabric.figures[0])
    for number in range(36):
        x = number * TILE / 36
        sway = brush.random.uniform(0.03, 0.12)
        points = [
            (x + sway * sin(2 * pi * y / TILE * 3 + number), y) for y in np.linspace(0, TILE, 25)
        ]
        brush.line([(float(a), float(b)) for a, b in points], colour, 0.03)


KINDS: dict[str, Callable[[Brush, Fabric], None]] = {
    "plain": _plain,
    "dots": _dots,
    "rings": _rings,
    "sprig": _sprig,
    "ditsy": _ditsy,
    "paisley": _paisley,
    "chintz": _chintz,
    "stripe": _stripe,
    "pinstripe": _pinstripe,
    "check": _check,
    "shirting": _shirting,
    "thirties": _thirties,
    "wool": _wool,
    "velvet": _velvet,
    "moire": _moire,
}
