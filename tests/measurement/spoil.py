"""One blunder put into an otherwise honest record, of each kind that people make."""

import copy
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Any

from simulate import Quilt, Record, written


@dataclass(frozen=True)
class Spoilt:
    """A record with a blunder of `kind` at `about`, which moves a reading by `inches`."""

    record: Record
    kind: str
    about: str
    inches: float


Spoil = Callable[[Record, Quilt, Random], Spoilt | None]


def inches(text: str) -> float:
    """The value of "85 1/4"."""
    return float(sum(Fraction(part) for part in text.split()))


def in_centimetres(text: str) -> str:
    """The same length in centimetres to the millimetre, the unit left out."""
    return str(round(inches(text) * 2.54, 1))


def _lists(record: Record) -> list[tuple[str, list[str]]]:
    found = [(f"{part}.{side}", record[part][side]) for part, side in _SPANS]
    if record["sashing"]:
        found.append(("sashing.width", record["sashing"]["width"]))
    for index, border in enumerate(record["borders"]):
        found.append((f"borders.{index}.width", border["width"]))
    return found


_SPANS = [(part, side) for part in ("overall", "block") for side in ("width", "length")]


def far_from_its_fellows(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """One of several readings is off by 2 to 6 in overall, 1 to 3 in elsewhere."""
    path, values = rng.choice([pair for pair in _lists(record) if len(pair[1]) > 1])
    index = rng.randrange(len(values))
    off = rng.uniform(2, 6) if path.startswith("overall") else rng.uniform(1, 3)
    size = inches(values[index])
    up = size - off < 0.5 or rng.random() < 0.5
    values[index] = written(size + off if up else size - off)
    return Spoilt(record, "outlier", path, off)


def swapped(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """Overall width and length are exchanged, where the counts can tell."""
    overall = record["overall"]
    width, length = (sum(map(inches, overall[side])) / 3 for side in ("width", "length"))
    if abs(width - length) < 1.5 or quilt.columns == quilt.rows:
        return None
    record["counted"] = {"columns": quilt.columns, "rows": quilt.rows}
    overall["width"], overall["length"] = overall["length"], overall["width"]
    return Spoilt(record, "swapped", "overall.width", abs(width - length))


def one_in_centimetres(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """One reading is typed in centimetres."""
    path, values = rng.choice(_lists(record))
    index = rng.randrange(len(values))
    size = inches(values[index])
    values[index] = in_centimetres(values[index])
    return Spoilt(record, "wrong unit", path, size * 1.54)


def all_in_centimetres(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """All readings of one list are typed in centimetres."""
    path, values = rng.choice(_lists(record))
    size = inches(values[0])
    values[:] = map(in_centimetres, values)
    return Spoilt(record, "wrong unit", path, size * 1.54)


def both_in_centimetres(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """Overall size, or block, is typed in centimetres."""
    part = rng.choice(("overall", "block"))
    for values in record[part].values():
        values[:] = map(in_centimetres, values)
    return Spoilt(record, "wrong unit", f"{part}.width", 10.0)


def dropped_fraction(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """One mixed number loses its fraction."""
    mixed = [
        (p, values, i) for p, values in _lists(record) for i, v in enumerate(values) if " " in v
    ]
    if not mixed:
        return None
    path, values, index = rng.choice(mixed)
    size = inches(values[index])
    values[index] = values[index].split()[0]
    return Spoilt(record, "dropped fraction", path, size - inches(values[index]))


def transposed(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """Two digits of one reading change places."""
    fit = [
        (path, values, index)
        for path, values in _lists(record)
        for index, value in enumerate(values)
        if _turns(value.split()[0])
    ]
    if not fit:
        return None
    path, values, index = rng.choice(fit)
    size = inches(values[index])
    whole, *rest = values[index].split()
    values[index] = " ".join([whole[::-1], *rest])
    return Spoilt(record, "transposed digits", path, abs(size - inches(values[index])))


def _turns(whole: str) -> bool:
    return len(whole) == 2 and whole.isdigit() and whole[0] != whole[1] and whole[1] != "0"


def counted_twice(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """One border is entered twice."""
    borders: list[dict[str, Any]] = record["borders"]
    if not borders:
        return None
    index = rng.randrange(len(borders))
    borders.insert(index + 1, copy.deepcopy(borders[index]))
    width = inches(borders[index]["width"][0])
    return Spoilt(record, "counted twice", f"borders.{index + 1}.width", 2 * width)


def binding_misplaced(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """The binding is said to lie inside the border and lies outside, or the other way round."""
    binding = record["binding"]
    if not binding or not record["borders"]:
        return None
    binding["within_border"] = not binding["within_border"]
    return Spoilt(record, "binding", "binding.within_border", 2 * inches(binding["width"][0]))


def raw_edge(record: Record, quilt: Quilt, rng: Random) -> Spoilt | None:
    """A raw edge is said to be bound, or a bound one raw."""
    if record["binding"]:
        return None
    record["edge"] = "raw" if record["edge"] == "bound" else "bound"
    return Spoilt(record, "raw edge", "edge", 0.5)


WAYS: tuple[Spoil, ...] = (
    far_from_its_fellows,
    swapped,
    one_in_centimetres,
    all_in_centimetres,
    both_in_centimetres,
    dropped_fraction,
    transposed,
    counted_twice,
    binding_misplaced,
    raw_edge,
)
