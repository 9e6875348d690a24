"""Readings of simulated photographs held against the truth, counted and printed as tables."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from typing import Any

import simulator
from PIL import Image
from simulated_blocks import share_moved
from simulated_quilts import SETTINGS, VALUES, Plan

from catalogue.photographs.reading import PhotographReading, read_photograph

# The reading was developed on seeds below 10,000; what is measured starts here.
FIRST = 50_000
PLAINLY = 0.1  # share of a block that has to change for its turn to be plain


@dataclass(frozen=True)
class Outcome:
    """One photograph: what it shows, and what was read from it."""

    seed: int
    setting: str
    values: str
    layout: tuple[str | int | None, ...]
    read: tuple[str | int | None, ...]
    turned: bool
    plainly: bool
    found: bool
    named: int
    sure: bool
    layout_said: float
    turn_said: float

    @property
    def layout_right(self) -> bool:
        return self.layout == self.read


def read(taken: simulator.Photograph) -> PhotographReading:
    """The reading of a simulated photograph, with the tape's width and length."""
    picture = Image.open(io.BytesIO(taken.data))
    return read_photograph(picture, taken.corners, width=taken.width, length=taken.length)


def layout_of(plan: Plan) -> tuple[str, str, int, int]:
    """Setting, sashing, columns and rows as they ought to be read."""
    setting = "on point" if plan.setting == "on point" else "straight"
    sashing = plan.setting if plan.setting in ("between", "framed") else "none"
    return setting, sashing, plan.columns, plan.rows


def rightly_told(plan: Plan, reading: PhotographReading) -> bool:
    """Whether the turned block, and no other, is named with a turn that describes it."""
    if plan.turned is None or len(reading.turned) != 1:
        return False
    told = reading.turned[0]
    return (told.column - 1, told.row - 1) == plan.turned and told.turn in plan.answers


def outcome(seed: int) -> Outcome:
    """A quilt with a repeat, one block of it turned in half of them."""
    taken = simulator.photograph(seed)
    plan, reading = taken.plan, read(taken)
    assert plan is not None
    return Outcome(
        seed=seed,
        setting=plan.setting,
        values=plan.values,
        layout=layout_of(plan),
        read=(reading.setting, reading.sashing, reading.columns, reading.rows),
        turned=plan.turned is not None,
        plainly=share_moved(plan.block, plan.move) >= PLAINLY,
        found=rightly_told(plan, reading),
        named=len(reading.turned),
        sure=any(block.offered == "sure" for block in reading.turned),
        layout_said=reading.confidence,
        turn_said=max((block.confidence for block in reading.turned), default=0.0),
    )


def says_no_repeat(case: tuple[int, str]) -> bool:
    """Whether a crazy quilt or a landscape is read as such; a case is its seed and its kind."""
    return read(simulator.without_repeat(*case)).setting is None


def outcomes(count: int) -> list[Outcome]:
    return _at_once(outcome, range(FIRST, FIRST + count))


def without_repeat(count: int) -> dict[str, float]:
    """By kind, the share of quilts without a repeat that are read as such."""
    shares = {}
    for kind in ("crazy", "landscape"):
        cases = [(seed, kind) for seed in range(FIRST, FIRST + count)]
        shares[kind] = share(_at_once(says_no_repeat, cases))
    return shares


def _at_once(work: Callable[[Any], Any], cases: Iterable[Any]) -> list[Any]:
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as workers:
        return list(workers.map(work, cases, chunksize=5))


def share(values: Iterable[bool]) -> float:
    known = list(values)
    return sum(known) / len(known) if known else float("nan")


def keeps_places(each: Outcome) -> bool:
    """Whether light and dark keep their places from block to block."""
    return each.values != "overlapping"


def found_share(known: list[Outcome], chosen: Callable[[Outcome], bool]) -> float:
    return share(each.found for each in known if each.turned and chosen(each))


def false_alarms(known: list[Outcome]) -> float:
    """Share of the quilts without a turned block in which one is named."""
    return share(each.named > 0 for each in known if not each.turned)


def layout_table(known: list[Outcome]) -> Iterator[str]:
    """By setting and contrast, the share of layouts read right; then what was read for what."""
    yield f"{'layout read right':20}" + "".join(f"{values:>14}" for values in VALUES)
    for setting in SETTINGS:
        cells = [
            [e.layout_right for e in known if (e.setting, e.values) == (setting, values)]
            for values in VALUES
        ]
        yield f"{setting:20}" + "".join(f"{sum(c):>9}/{len(c):<4}" for c in cells)
    yield "read as" + " " * 13 + "".join(f"{name:>14}" for name in (*SETTINGS, "no repeat"))
    for setting in SETTINGS:
        read_as = [_name(each.read) for each in known if each.setting == setting]
        counts = (read_as.count(name) for name in (*SETTINGS, "no repeat"))
        yield f"{setting:20}" + "".join(f"{count:>14}" for count in counts)


def _name(layout: tuple[str | int | None, ...]) -> str:
    setting, sashing = layout[:2]
    if setting is None:
        return "no repeat"
    return str(sashing if sashing != "none" and setting == "straight" else setting)


def turned_table(known: list[Outcome]) -> Iterator[str]:
    """By contrast: how many turned blocks were told rightly, how many quilts falsely accused."""
    yield f"{'turned block':26}" + "".join(f"{values:>14}" for values in VALUES)
    rows: dict[str, tuple[Callable[[Outcome], bool], Callable[[Outcome], bool]]] = {
        "told rightly": (lambda e: e.turned, lambda e: e.found),
        "  where it moves a tenth": (lambda e: e.turned and e.plainly, lambda e: e.found),
        "  and offered as sure": (lambda e: e.turned, lambda e: e.found and e.sure),
        "another one named": (lambda e: e.turned, lambda e: e.named > 0 and not e.found),
        "false alarm": (lambda e: not e.turned, lambda e: e.named > 0),
        "  offered as sure": (lambda e: not e.turned, lambda e: e.sure),
    }
    for name, (chosen, right) in rows.items():
        cells = [[right(e) for e in known if e.values == v and chosen(e)] for v in VALUES]
        yield f"{name:26}" + "".join(f"{sum(c):>9}/{len(c):<4}" for c in cells)


def calibration_table(known: list[Outcome]) -> Iterator[str]:
    """How sure the readings said to be, against how many of them were right."""
    yield f"{'said to be sure':26}" + "".join(f"{low:>9.1f}-{high:.1f}" for low, high in _SAID)
    said = {
        "layout right": [(e.layout_said, e.layout_right) for e in known if e.layout_said],
        "turned block right": [(e.turn_said, e.found) for e in known if e.named],
    }
    for name, pairs in said.items():
        cells = [[right for sure, right in pairs if low <= sure < high] for low, high in _SAID]
        yield f"{name:26}" + "".join(f"{sum(c):>8}/{len(c):<4}" for c in cells)


_SAID = ((0.0, 0.5), (0.5, 0.8), (0.8, 0.9), (0.9, 1.0))
