"""Held to quilts drawn at random: the right layout first, probabilities that mean what they say.

The short runs guard against a slip, with slack for their few hundred quilts; the long ones
(`-m long -s`) hold the figures that the catalogue promises and print them.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random
from typing import Any

import pytest
from simulate import AS_USUAL, Quilt, Record, Told, draw, read
from spoil import WAYS, Spoil

from catalogue.measurement.lines import answer

BLUNDERS = {
    "outlier",
    "swapped",
    "wrong unit",
    "dropped fraction",
    "transposed digits",
    "counted twice",
    "binding",
    "raw edge",
    "count",
    "does not fit",
}


@dataclass
class Tally:
    """How a run of quilts came out."""

    quilts: int = 0
    first: int = 0
    tied: int = 0
    in_three: int = 0
    named_next: int = 0
    named: int = 0
    to_name: int = 0
    alarmed: int = 0
    tenths: dict[int, list[float]] = field(default_factory=dict)
    kinds: Counter[str] = field(default_factory=Counter)

    def note(self, quilt: Quilt, shown: dict[str, Any]) -> None:
        """One quilt and the answer to it."""
        layouts = shown["layouts"]
        names = [_name(layout) for layout in layouts]
        place = names.index(quilt.identity) if quilt.identity in names else 99
        tie = layouts[0]["tie"] if layouts else None
        self.quilts += 1
        self.first += place == 0
        self.tied += 0 < place < 99 and tie is not None and layouts[place]["tie"] == tie
        self.in_three += place < 3
        kinds = {caution["kind"] for caution in shown["cautions"]}
        self.kinds.update(kinds)
        self.alarmed += bool(kinds & BLUNDERS)
        for layout, name in zip(layouts, names, strict=True):
            stated = layout["probability"]
            tenth = self.tenths.setdefault(min(9, int(stated * 10)), [0, 0.0, 0])
            tenth[0] += 1
            tenth[1] += stated
            tenth[2] += name == quilt.identity

    def share(self, number: int) -> float:
        """Per cent of the quilts."""
        return 100 * number / self.quilts

    @property
    def first_or_tied(self) -> float:
        """Per cent in which the right layout comes first, or is tied with the first."""
        return self.share(self.first + self.tied)

    def __str__(self) -> str:
        lines = [
            f"{self.quilts} quilts: first {self.share(self.first):.1f} %,"
            f" first or tied {self.first_or_tied:.1f} %,"
            f" in the first three {self.share(self.in_three):.1f} %,"
            f" false alarms {self.share(self.alarmed):.1f} %; cautions {dict(self.kinds)}"
        ]
        for tenth in sorted(self.tenths):
            count, stated, right = self.tenths[tenth]
            lines.append(
                f"  stated {stated / count:.3f}, observed {right / count:.3f} of {count:.0f}"
            )
        return "\n".join(lines)

    def worst_tenth(self, least: int = 400) -> float:
        """The greatest difference in points between stated and observed, in tenths with enough."""
        enough = [tenth for tenth in self.tenths.values() if tenth[0] >= least]
        assert enough
        return max(100 * abs(stated - right) / count for count, stated, right in enough)


def _name(layout: dict[str, Any]) -> tuple[str, str, int, int]:
    return layout["setting"], layout["sashing"], layout["columns"], layout["rows"]


def clean(count: int, seed: int, told: Told = AS_USUAL) -> Tally:
    """A run of honest records."""
    rng, tally = Random(seed), Tally()
    for _ in range(count):
        quilt = draw(rng)
        tally.note(quilt, answer(read(quilt, rng, told)))
    return tally


Omit = Callable[[Record, Quilt, Random], str | None]


def without_sashing(record: Record, quilt: Quilt, rng: Random) -> str | None:
    """The strips are there, and were not measured."""
    if not quilt.sash:
        return None
    record["sashing"]["width"] = []
    return "sashing.width"


def without_border(record: Record, quilt: Quilt, rng: Random) -> str | None:
    """One border is there, and was not measured."""
    if not quilt.borders:
        return None
    index = rng.randrange(len(quilt.borders))
    record["borders"][index]["width"] = []
    return f"borders.{index}.width"


def lacking(count: int, seed: int, omit: Omit, told: Told = AS_USUAL) -> Tally:
    """A run of records with one part there but not measured."""
    rng, tally = Random(seed), Tally()
    while tally.quilts < count:
        quilt = draw(rng)
        record = read(quilt, rng, told)
        missing = omit(record, quilt, rng)
        if missing is not None:
            shown = answer(record)
            tally.note(quilt, shown)
            tally.named_next += (shown["measure_next"] or {}).get("what") == missing
    return tally


def spoilt(count: int, seed: int, way: Spoil, told: Told = AS_USUAL) -> Tally:
    """A run of records with one blunder in each."""
    rng, tally = Random(seed), Tally()
    while tally.quilts < count:
        quilt = draw(rng)
        found = way(read(quilt, rng, told), quilt, rng)
        if found is not None:
            shown = answer(found.record)
            tally.note(quilt, shown)
            if found.inches >= 1:
                tally.to_name += 1
                tally.named += found.kind in {caution["kind"] for caution in shown["cautions"]}
    return tally


def test_the_right_layout_comes_first_in_honest_records() -> None:
    tally = clean(250, 1)
    assert tally.first_or_tied >= 94, tally
    assert tally.share(tally.in_three) >= 98, tally
    assert tally.share(tally.alarmed) <= 4, tally


@pytest.mark.parametrize(("omit", "least"), [(without_sashing, 88), (without_border, 85)])
def test_unmeasured_parts_leave_the_right_layout_in_the_first_three(
    omit: Omit, least: float
) -> None:
    tally = lacking(60, 2, omit)
    assert tally.share(tally.in_three) >= least, tally
    assert tally.named_next == tally.quilts


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_one_blunder_leaves_the_right_layout_first_and_is_named(way: Spoil) -> None:
    tally = spoilt(40, 3, way)
    assert tally.first_or_tied >= 75, tally
    if way.__name__ != "binding_misplaced":
        assert tally.named >= 0.75 * tally.to_name, (tally.named, tally.to_name)


@pytest.mark.long
@pytest.mark.parametrize("follows", [0.0, 0.5, 1.0])
@pytest.mark.parametrize(("setting", "counts"), [(0.35, 0.35), (0.0, 0.0), (1.0, 0.0)])
def test_long_honest_records(follows: float, setting: float, counts: float) -> None:
    told = Told(setting=setting, counts=counts, follows=follows)
    tally = clean(2000, 11, told)
    print(f"\n{told}\n{tally}")
    assert tally.first_or_tied >= 96
    assert tally.share(tally.in_three) >= 99.5
    assert tally.share(tally.alarmed) < 3
    assert tally.worst_tenth() <= 5


@pytest.mark.long
@pytest.mark.parametrize(("omit", "least"), [(without_sashing, 95), (without_border, 92)])
def test_long_unmeasured_parts(omit: Omit, least: float) -> None:
    told = Told(setting=1.0, counts=0.0)
    tally = lacking(1000, 12, omit, told)
    print(f"\n{omit.__name__}, {told}\n{tally}\n  named next {tally.named_next}")
    assert tally.share(tally.in_three) >= least
    assert tally.named_next >= 0.99 * tally.quilts


@pytest.mark.long
def test_long_blunders() -> None:
    together = Tally()
    for number, way in enumerate(WAYS):
        tally = spoilt(400, 100 + number, way)
        print(
            f"\n{way.__name__}: {str(tally).splitlines()[0]}; named {tally.named}/{tally.to_name}"
        )
        together.quilts += tally.quilts
        together.first += tally.first + tally.tied
        together.named += tally.named
        together.to_name += tally.to_name
    first = together.share(together.first)
    print(f"\nfirst {first:.1f} %, named {together.named} of {together.to_name}")
    assert first >= 85
    assert together.named >= 0.85 * together.to_name
