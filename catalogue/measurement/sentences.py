"""The grounds of a layout in a sentence that a volunteer can check with the tape in hand."""

from dataclasses import dataclass
from typing import Final, Literal

from catalogue.measurement.adjustment import Adjusted
from catalogue.measurement.estimates import Estimate, Measures
from catalogue.measurement.evidence import Edge
from catalogue.measurement.field import RAW_EDGE
from catalogue.measurement.layouts import FRAMED_BLOCKS
from catalogue.measurement.readings import TapeReadings
from catalogue.measurement.settings import ROOT_2, ROOT_3, Axis, Plan, Shape
from catalogue.values.lengths import Unit, format_length

Direction = Literal["across", "down"]

_SIDES_ALONG: Final = {"across": ("left", "right"), "down": ("top", "bottom")}


@dataclass(frozen=True, slots=True)
class Account:
    """One layout as it is to be put into words."""

    readings: TapeReadings
    measures: Measures
    plan: Plan
    columns: int
    rows: int
    edge: Edge
    adjusted: Adjusted

    @property
    def unit(self) -> Unit:
        """The record's unit."""
        return self.readings.unit

    def say(self, inches: float) -> str:
        """A length as a tape shows it, in the record's unit."""
        return format_length(inches, self.unit)

    def size(self, path: str) -> float:
        """A size as it was read, or as it was solved for."""
        return self.adjusted.read.get(path, 0.0)


def grounds(account: Account) -> str:
    """What the parts make across and down, and what the tape says, in one sentence."""
    adjusted, measures = account.adjusted, account.measures
    across = _sum(account, "across", adjusted.predicted_width, measures.width)
    down = _sum(account, "down", adjusted.predicted_length, measures.length)
    return f"Across, {across}; down, {down}{_solved(account)}."


def listed(parts: list[str]) -> str:
    """Parts of a sentence joined with commas and a last "and"."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _sum(account: Account, along: Direction, total: float, tape: Estimate | None) -> str:
    read = f"the tape says {account.say(tape.mean)}" if tape else "the tape was not read"
    parts = _parts(account, along)
    verb = "makes" if len(parts) == 1 and parts[0].startswith(("1 ", "a ")) else "make"
    return f"{listed(parts)} {verb} {account.say(total)} and {read}"


def _parts(account: Account, along: Direction) -> list[str]:
    plan, across = account.plan, along == "across"
    count = account.columns if across else account.rows
    axis = plan.width if across else plan.length
    parts = [_blocks(account, axis, count, along)]
    strips = axis.sashes(count)
    if plan.sashed and strips > 0.01:
        parts.append(_strips(account, axis, strips))
    parts += _borders(account, along)
    if "float" in account.adjusted.read:
        parts.append(f"{account.say(account.size('float'))} of float on either side")
    if account.edge.kind == "outside":
        parts.append(f"binding of {account.say(account.size('binding.width'))} on either side")
    if account.edge.kind == "raw":
        parts.append(f"{account.say(RAW_EDGE)} for the raw edges")
    return parts


def _blocks(account: Account, axis: Axis, count: int, along: Direction) -> str:
    plan = account.plan
    if plan.shape is Shape.HEXAGON:
        return _hexagons(account, axis, count)
    down = along == "down" and plan.shape in (Shape.RECTANGLE, Shape.BAR)
    size = account.size("block.length" if down else "block.width")
    across = account.say(size * ROOT_2)
    if plan.setting == "medallion":
        return f"a centre of {account.say(size)}{f' on point ({across})' if axis.block > 1 else ''}"
    turned = f" on point ({across} each)" if axis.block > 1 else ""
    return f"{_number(count, _THINGS.get(plan.setting, 'block'))} of {account.say(size)}{turned}"


_THINGS: Final = {"bars": "bar", "one-patch": "patch"}


def _number(count: int, thing: str) -> str:
    """So many of a thing."""
    if count == 1:
        return f"1 {thing}"
    return f"{count} {thing}{'es' if thing.endswith('ch') else 's'}"


def _hexagons(account: Account, axis: Axis, count: int) -> str:
    width = account.size("block.width")
    if axis.end_block:
        return f"{count} nested rows of hexagons {account.say(width)} from point to point"
    return f"{count} hexagons of {account.say(width * ROOT_3 / 2)} from flat to flat"


def _strips(account: Account, axis: Axis, strips: float) -> str:
    sash = account.size("sashing.width")
    if axis.sash > 1 and FRAMED_BLOCKS not in account.plan.details:
        slanting = _number(round(strips / ROOT_2), "slanting strip")
        return f"{slanting} of {account.say(sash)} ({account.say(sash * ROOT_2)} each)"
    return f"{_number(round(strips), 'strip')} of {account.say(sash)}"


def _borders(account: Account, along: Direction) -> list[str]:
    """What the borders add along one axis, a border on both sides said once."""
    if "borders" in account.adjusted.read:
        return [f"a border of {account.say(account.size('borders'))} on either side"]
    both: list[str] = []
    single: list[str] = []
    for index, border in enumerate(account.readings.borders or ()):
        sides = [side for side in border.sides if side in _SIDES_ALONG[along]]
        size = account.say(account.size(f"borders.{index}.width"))
        if len(sides) == 2:
            both.append(size)
        elif sides:
            single.append(f"a border of {size} on the {sides[0]} only")
    if not both:
        return single
    noun = "a border" if len(both) == 1 else "borders"
    return [f"{noun} of {listed(both)} on either side", *single]


def _solved(account: Account) -> str:
    """Which sizes nobody measured, and how far they may be off."""
    found = []
    for path in account.adjusted.read:
        if path in account.adjusted.solved:
            error = account.say(max(account.adjusted.errors[path], 0.0625))
            found.append(f"the {reading_name(path)} is worked out, give or take {error}")
    return f" ({listed(found)})" if found else ""


def reading_name(path: str) -> str:
    """A reading or part of the record as a person would call it, to stand after "the"."""
    if path.startswith("borders."):
        return f"width of border {int(path.split('.')[1]) + 1} from the inside"
    return _NAMES[path]


_NAMES: Final = {
    "overall.width": "overall width",
    "overall.length": "overall length",
    "block.width": "width of a block",
    "block.length": "length of a block",
    "sashing.width": "width of the strips",
    "binding.width": "width of the binding",
    "borders": "width of the border",
    "float": "width of the float",
    "counted.columns": "number of columns counted",
    "counted.rows": "number of rows counted",
    "counted.pieced_blocks": "number of pieced blocks counted",
    "setting": "setting as it looks to the eye",
}
