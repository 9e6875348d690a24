"""The main colours of a quilt by share, with names of the trade, under light made neutral."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from PIL import Image

from catalogue.photographs.colour_space import Floats, distance, hex_code, lab_of_linear, to_lab
from catalogue.photographs.colour_space import to_linear as linear
from catalogue.photographs.homography import Point
from catalogue.photographs.squaring import squared

_TABLE = Path(__file__).parent / "colour_names.csv"
_LOOKED_AT = 128  # pixels on the longer side: prints blend to the colour one sees from afar
_CENTRES = 14
_ROUNDS = 12
_ALIKE = 7.0  # CIELAB difference under which two clusters are one colour
_LEAST_SHARE = 0.02
_MOST = 8
_PATCH = 0.012  # of the longer side: how much is looked at round a place on a grey card
# How far from grey a wall may look and still pass for a grey card, CIELAB a and b: lamps and the
# sky make it yellowish or bluish, but green or pink it is painted.
_GREENISH, _REDDISH, _WARM_OR_COLD = -2.0, 4.0, 9.0
_EVEN = 7.0  # CIELAB spread of such a wall


@dataclass(frozen=True)
class Colour:
    """One colour: its name in the trade, a plain word for it, #rrggbb, and its share of 1."""

    name: str
    plain: str
    hex: str
    share: float


@dataclass(frozen=True)
class ColourReading:
    """The main colours, largest first, and one sentence on the light they were read in."""

    colours: tuple[Colour, ...]
    light: str


def main_colours(
    picture: Image.Image, corners: Sequence[Sequence[float]] | None = None
) -> tuple[Colour, ...]:
    """Return the main colours between the corners, in pixels, or of the whole picture."""
    return read_colours(picture, corners).colours


def read_colours(
    picture: Image.Image,
    corners: Sequence[Sequence[float]] | None = None,
    grey_card: Point | None = None,
) -> ColourReading:
    """Return the main colours, corrected by a grey card at a place in pixels, or else by the wall.

    The wall counts where it is light, even and nearly grey. Names are those of the nearest entry of
    the table of colour names; what a cloth was dyed with no photograph can tell. Raises
    CornersError.
    """
    picture = picture.convert("RGB")
    gains, light = _gains(picture, corners, grey_card)
    small = picture
    if corners is not None:
        lies = squared(corners, picture.size, None, None)
        small = lies.picture(picture, 4 * _LOOKED_AT)
    small = small.copy()
    small.thumbnail((_LOOKED_AT, _LOOKED_AT), Image.Resampling.BOX)
    lab = lab_of_linear(np.clip(linear(np.asarray(small)) * gains, 0, 1)).reshape(-1, 3)
    return ColourReading(_named(*_clusters(lab)), light)


def _gains(
    picture: Image.Image,
    corners: Sequence[Sequence[float]] | None,
    grey_card: Point | None,
) -> tuple[Floats, str]:
    """By how much red, green and blue light are to be multiplied, and why."""
    if grey_card is not None:
        return _neutral(_patch(picture, grey_card)), "Corrected by the grey card."
    wall = _wall(picture, corners) if corners is not None else None
    if wall is not None:
        return _neutral(wall), "Corrected by the wall behind it, which is nearly grey."
    return np.ones(3, np.float32), "As the camera saw them: nothing grey to correct them by."


def _patch(picture: Image.Image, place: Point) -> Floats:
    reach = max(2, round(_PATCH * max(picture.size)))
    x = min(max(int(place[0]), 0), picture.width - 1)
    y = min(max(int(place[1]), 0), picture.height - 1)
    part = picture.crop((max(0, x - reach), max(0, y - reach), x + reach + 1, y + reach + 1))
    return np.median(linear(np.asarray(part)).reshape(-1, 3), axis=0)


def _wall(picture: Image.Image, corners: Sequence[Sequence[float]]) -> Floats | None:
    """The light of the wall above the quilt, None where it is dark, uneven or coloured."""
    top = min(float(y) for _, y in corners)
    margin = int(0.9 * top)
    if margin < 0.02 * picture.height:
        return None
    light = linear(np.asarray(picture.crop((0, 0, picture.width, margin)).reduce(2)))
    lab = lab_of_linear(light).reshape(-1, 3)
    middle = np.median(lab, axis=0)
    uneven = float(np.median(distance(lab, middle)))
    grey = _GREENISH <= middle[1] <= _REDDISH and abs(middle[2]) <= _WARM_OR_COLD
    if middle[0] < 45 or uneven > _EVEN or not grey:
        return None
    return np.median(light.reshape(-1, 3), axis=0)


def _neutral(seen: Floats) -> Floats:
    """Gains that make it grey, as light as it was (weights of IEC 61966-2-1, from memory)."""
    grey = float(seen @ np.array([0.2126, 0.7152, 0.0722]))
    gains: Floats = np.clip(grey / np.maximum(seen, 1e-3), 0.5, 2.0).astype(np.float32)
    return gains


def _clusters(lab: Floats) -> tuple[Floats, Floats]:
    """Middles and shares of the colours: k-means from spread-out beginnings, alike ones joined."""
    middles = _beginnings(lab)
    for _ in range(_ROUNDS):
        nearest = distance(lab[:, None], middles[None]).argmin(axis=1)
        middles = np.array(
            [
                lab[nearest == k].mean(axis=0) if (nearest == k).any() else middles[k]
                for k in range(len(middles))
            ]
        )
    counts = np.bincount(nearest, minlength=len(middles)).astype(float)
    while len(middles) > 1:
        apart = distance(middles[:, None], middles[None]) + np.eye(len(middles)) * 1e6
        one, other = np.unravel_index(int(apart.argmin()), apart.shape)
        if apart[one, other] > _ALIKE:
            break
        both = counts[[one, other]]
        middles[one] = both @ middles[[one, other]] / max(both.sum(), 1)
        counts[one] = both.sum()
        middles, counts = np.delete(middles, other, 0), np.delete(counts, other)
    return middles, counts / counts.sum()


def _beginnings(lab: Floats) -> Floats:
    """Each as far as can be from those before, the first being the median."""
    chosen = [np.median(lab, axis=0)]
    away = distance(lab, chosen[0])
    for _ in range(_CENTRES - 1):
        chosen.append(lab[int(away.argmax())])
        away = np.minimum(away, distance(lab, chosen[-1]))
    return np.array(chosen)


def _named(middles: Floats, shares: Floats) -> tuple[Colour, ...]:
    """The colours by share, those of one name taken together."""
    names, table = _table()
    joined: dict[int, tuple[float, Floats]] = {}
    for middle, share in sorted(zip(middles, shares, strict=True), key=lambda each: -each[1]):
        entry = int(distance(table, middle).argmin())
        before = joined.get(entry)
        joined[entry] = (share + before[0], before[1]) if before else (float(share), middle)
    found = [
        Colour(*names[entry], hex_code(middle), round(float(share), 3))
        for entry, (share, middle) in joined.items()
        if share >= _LEAST_SHARE
    ]
    return tuple(sorted(found, key=lambda colour: -colour.share)[:_MOST])


@cache
def _table() -> tuple[list[tuple[str, str]], Floats]:
    """Names and plain words, and the colours they stand for."""
    with _TABLE.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    codes = [bytes.fromhex(row["hex"].removeprefix("#")) for row in rows]
    pixels = np.array([list(code) for code in codes], np.uint8)
    return [(row["name"], row["plain"]) for row in rows], to_lab(pixels)


def plain_by_name() -> dict[str, str]:
    """Return the plain word for each colour name of the table."""
    with _TABLE.open(encoding="utf-8") as file:
        return {row["name"]: row["plain"] for row in csv.DictReader(file)}
