"""One quilt's tape readings as frozen values, from the record a cataloguer filled in.

A part left out of the record is unknown; a part without any width is there but not measured; null
(and for borders an empty list) says that there is none.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from typing import Final, Literal, cast, get_args

from catalogue.measurement.layouts import Setting
from catalogue.values.lengths import LengthError, Unit, WrittenUnit, parse_length, quoted

Side = Literal["left", "right", "top", "bottom"]
Edge = Literal["bound", "raw"]

SIDES: Final[tuple[Side, ...]] = get_args(Side)
SETTINGS: Final[tuple[Setting, ...]] = get_args(Setting)
MOST_READINGS: Final = 200
MOST_BORDERS: Final = 20
MOST_COUNTED: Final = 100_000
MOST_ERROR: Final = 100.0  # inches


class ReadingError(ValueError):
    """The record cannot be understood; the message is one sentence that quotes the bad input."""


class Presence(Enum):
    """Whether a part of the quilt is there, as far as the record says."""

    UNKNOWN = "unknown"
    ABSENT = "absent"
    PRESENT = "present"


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading in exact inches, with what was written and in which unit.

    `unit_stated` is False where no unit was written and the record's own was taken. `error` is None
    for the tape; for a distance read from a photograph, the ± in inches that holds nine in ten.
    """

    inches: Fraction
    written: str
    unit: WrittenUnit = "in"
    unit_stated: bool = False
    error: float | None = None

    def __float__(self) -> float:
        return float(self.inches)


@dataclass(frozen=True, slots=True)
class Span:
    """Readings across (`width`) and from top to bottom (`length`); either may be empty."""

    width: tuple[Reading, ...] = ()
    length: tuple[Reading, ...] = ()


@dataclass(frozen=True, slots=True)
class SashingReadings:
    """The strips between blocks: there or not, their readings, and whether cornerstones join."""

    presence: Presence = Presence.UNKNOWN
    width: tuple[Reading, ...] = ()
    cornerstones: bool | None = None


@dataclass(frozen=True, slots=True)
class BorderReadings:
    """One border, the sides it runs along, and its readings, none where it was not measured."""

    width: tuple[Reading, ...] = ()
    sides: tuple[Side, ...] = SIDES


@dataclass(frozen=True, slots=True)
class BindingReadings:
    """The binding as it shows from the front, and whether the quoted outer border includes it."""

    presence: Presence = Presence.UNKNOWN
    width: tuple[Reading, ...] = ()
    within_border: bool | None = None


@dataclass(frozen=True, slots=True)
class Counted:
    """What the cataloguer counted by eye; None where nobody counted."""

    columns: int | None = None
    rows: int | None = None
    pieced_blocks: int | None = None


@dataclass(frozen=True, slots=True)
class TapeReadings:
    """All that the record says of one quilt's size; `borders` is None where none are recorded."""

    overall: Span
    block: Span = Span()
    block_recorded: bool = False
    sashing: SashingReadings = SashingReadings()
    borders: tuple[BorderReadings, ...] | None = None
    binding: BindingReadings = BindingReadings()
    counted: Counted = Counted()
    setting: Setting | None = None
    edge: Edge | None = None
    unit: Unit = "in"


def read_readings(obj: object) -> TapeReadings:
    """Read one record of the `catalogue infer` contract, already decoded from JSON.

    Raises ReadingError, one sentence quoting what is wrong, for anything that is not such a record.
    """
    record = _mapping(obj, "A quilt's readings")
    unit = _unit(record.get("unit"))
    if record.get("overall") is None:
        raise ReadingError("The overall size is missing: give “overall” with width and length.")
    return TapeReadings(
        overall=_span(record["overall"], "overall", unit),
        block=_span(record.get("block"), "block", unit),
        block_recorded=record.get("block") is not None,
        sashing=_sashing(record, unit),
        borders=_borders(record, unit),
        binding=_binding(record, unit),
        counted=_counted(record.get("counted")),
        setting=cast("Setting | None", _choice(record.get("setting"), "setting", SETTINGS)),
        edge=cast("Edge | None", _choice(record.get("edge"), "edge", get_args(Edge))),
        unit=unit,
    )


def _mapping(value: object, name: str) -> Mapping[str, object]:
    if not isinstance(value, dict):
        raise ReadingError(f"{name} should be an object with named parts, not {quoted(value)}.")
    return value


def _unit(value: object) -> Unit:
    return cast(Unit, _choice(value, "unit", get_args(Unit)) or "in")


def _choice(value: object, path: str, allowed: tuple[str, ...]) -> str | None:
    if value is None:
        return None
    if not isinstance(value, str) or value not in allowed:
        raise ReadingError(f"{quoted(value)} is not a {path}: use one of {', '.join(allowed)}.")
    return value


def _span(value: object, path: str, unit: Unit) -> Span:
    if value is None:
        return Span()
    part = _mapping(value, f"“{path}”")
    return Span(
        _lengths(part.get("width"), f"{path}.width", unit),
        _lengths(part.get("length"), f"{path}.length", unit),
    )


def _lengths(value: object, path: str, unit: Unit) -> tuple[Reading, ...]:
    if value is None:
        return ()
    if not isinstance(value, list):
        value = [value]
    if len(value) > MOST_READINGS:
        raise ReadingError(f"“{path}” has {len(value)} readings; at most {MOST_READINGS} are read.")
    return tuple(_length(item, path, unit) for item in value)


def _length(value: object, path: str, unit: Unit) -> Reading:
    if isinstance(value, dict):
        return _from_photograph(value, path, unit)
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        raise ReadingError(f"“{path}” should hold lengths, not {quoted(value)}.")
    try:
        length = parse_length(value, unit)
    except LengthError as error:
        raise ReadingError(f"{path}: {error}") from error
    return Reading(length.inches, length.written, length.unit, length.unit_stated)


def _from_photograph(value: Mapping[str, object], path: str, unit: Unit) -> Reading:
    """A distance with an error of its own, such as one that was read from a photograph."""
    error = value.get("error")
    if isinstance(error, bool) or not isinstance(error, (int, float)) or not 0 < error < MOST_ERROR:
        within = f"inches between 0 and {MOST_ERROR:g}"
        raise ReadingError(f"{path}: the error should be {within}, not {quoted(error)}.")
    return replace(_length(value.get("length"), path, unit), error=float(error))


def _sashing(record: Mapping[str, object], unit: Unit) -> SashingReadings:
    if "sashing" not in record:
        return SashingReadings()
    if record["sashing"] is None:
        return SashingReadings(Presence.ABSENT)
    part = _mapping(record["sashing"], "“sashing”")
    return SashingReadings(
        Presence.PRESENT,
        _lengths(part.get("width"), "sashing.width", unit),
        _flag(part.get("cornerstones"), "sashing.cornerstones"),
    )


def _borders(record: Mapping[str, object], unit: Unit) -> tuple[BorderReadings, ...] | None:
    if "borders" not in record:
        return None
    value = record["borders"]
    if value is None:
        return ()
    if not isinstance(value, list):
        raise ReadingError(f"“borders” should be a list, inside to out, not {quoted(value)}.")
    if len(value) > MOST_BORDERS:
        raise ReadingError(f"“borders” has {len(value)} entries; at most {MOST_BORDERS} are read.")
    return tuple(_border(item, f"borders.{index}", unit) for index, item in enumerate(value))


def _border(value: object, path: str, unit: Unit) -> BorderReadings:
    part = _mapping(value, f"“{path}”")
    return BorderReadings(
        _lengths(part.get("width"), f"{path}.width", unit), _sides(part.get("sides"), path)
    )


def _sides(value: object, path: str) -> tuple[Side, ...]:
    if value is None:
        return SIDES
    if not isinstance(value, list) or not value:
        raise ReadingError(f"“{path}.sides” should list sides, not {quoted(value)}.")
    for side in value:
        if not isinstance(side, str) or side not in SIDES:
            raise ReadingError(f"{quoted(side)} is not a side: use {', '.join(SIDES)}.")
    return tuple(side for side in SIDES if side in value)


def _binding(record: Mapping[str, object], unit: Unit) -> BindingReadings:
    if "binding" not in record:
        return BindingReadings()
    if record["binding"] is None:
        return BindingReadings(Presence.ABSENT)
    part = _mapping(record["binding"], "“binding”")
    return BindingReadings(
        Presence.PRESENT,
        _lengths(part.get("width"), "binding.width", unit),
        _flag(part.get("within_border"), "binding.within_border"),
    )


def _flag(value: object, path: str) -> bool | None:
    if value is not None and not isinstance(value, bool):
        raise ReadingError(f"“{path}” should be true or false, not {quoted(value)}.")
    return value


def _counted(value: object) -> Counted:
    if value is None:
        return Counted()
    part = _mapping(value, "“counted”")
    return Counted(*(_count(part.get(name), name) for name in Counted.__slots__))


def _count(value: object, name: str) -> int | None:
    if value is None:
        return None
    number = value
    if isinstance(value, str) and value.strip().isdecimal() and len(value) < 12:
        number = int(value)
    if isinstance(number, float) and number.is_integer():
        number = int(number)
    if isinstance(number, bool) or not isinstance(number, int) or not 0 < number <= MOST_COUNTED:
        raise ReadingError(
            f"“counted.{name}” should be a whole number from 1, not {quoted(value)}."
        )
    return number
