"""Light on a quilt: dose, the limits that museums name, and which of them a collection has chosen.

Dose is lux x hours a day x days, in lux hours (Conservation Center for Art & Historic Artifacts,
Light Exposure of Artifacts on Exhibition). It adds up for ever; a limit slows fading, no limit
stops it.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from pathlib import Path

from catalogue.exhibits.findings import written
from catalogue.values.lengths import quoted

ULTRAVIOLET_AT_MOST = 75.0
"""Microwatts of ultraviolet a lumen, at most (CCAHA, Light Exposure of Artifacts on Exhibition)."""
ULTRAVIOLET_SOURCE = (
    "Conservation Center for Art & Historic Artifacts, Light Exposure of Artifacts on Exhibition"
)

EVERY_DAY = (0, 1, 2, 3, 4, 5, 6)
"""The weekdays of a place that is lit daily; Monday is 0."""


class LightError(ValueError):
    """Light, hours or days that cannot be; the message quotes them."""


def light_dose(lux: float, hours_a_day: float, days: float) -> float:
    """Dose in lux hours: lux x hours a day x days (CCAHA, source as in the module).

    Raises LightError for what is negative or no number, and for days of more than 24 hours.
    """
    return _amount(lux, "lux") * _hours(hours_a_day) * _amount(days, "days")


def hours_within(dose: float, lux: float) -> float:
    """Hours at so many lux that make up the dose; infinite in the dark."""
    dose, lux = _amount(dose, "lux hours"), _amount(lux, "lux")
    return dose / lux if lux else math.inf


def days_within(dose: float, lux: float, hours_a_day: float) -> float:
    """Days of so many hours at so many lux that make up the dose; infinite in the dark."""
    hours = _hours(hours_a_day)
    return hours_within(dose, lux) / hours if hours else math.inf


def _amount(value: float, what: str) -> float:
    if isinstance(value, bool) or not math.isfinite(value) or value < 0:
        raise LightError(f"{quoted(value)} is not a number of {what}.")
    return value


def _hours(hours_a_day: float) -> float:
    if _amount(hours_a_day, "hours") > 24:
        raise LightError(f"{quoted(hours_a_day)} hours do not go into one day.")
    return hours_a_day


@dataclass(frozen=True)
class LightLimit:
    """One limit for a year, as a museum or a standard names it.

    `lux_at_most` is None where none was given; `from_memory` marks figures that nobody has found
    in the source again; `said_of` is what the source says it of.
    """

    key: str
    name: str
    lux_hours: float
    lux_at_most: float | None
    source: str
    said_of: str = ""
    from_memory: bool = False
    address: str = ""

    def __post_init__(self) -> None:
        if not _amount(self.lux_hours, "lux hours"):
            raise LightError("A limit of 0 lux hours allows no display at all.")
        if not self.source.strip():
            raise LightError(f"The limit {quoted(self.name)} names no source.")

    @property
    def says(self) -> str:
        """The limit in a sentence that names its source, and doubts it where it must."""
        lux = f" at no more than {self.lux_at_most:g} lux" if self.lux_at_most is not None else ""
        doubt = " It was given from memory: confirm it first." if self.from_memory else ""
        return f"The limit chosen is {amount(self.lux_hours)} a year{lux} ({self.name}).{doubt}"


@lru_cache(maxsize=1)
def light_limits() -> Mapping[str, LightLimit]:
    """Every limit of the data file by its key; they disagree, and a collection chooses one."""
    table = Path(__file__).with_name("light_limits.csv")
    with table.open(encoding="utf-8", newline="") as lines:
        return {row["key"]: _limit(row) for row in csv.DictReader(lines)}


def _limit(row: dict[str, str]) -> LightLimit:
    return LightLimit(
        row["key"],
        row["name"],
        float(row["lux_hours_a_year"]),
        float(row["lux_at_most"]) if row["lux_at_most"] else None,
        row["source"],
        row["said_of"],
        row["memory"] == "yes",
        row["address"],
    )


DEFAULT_LIMIT = "national-gallery-high"
"""Key of the limit used until a collection chooses: for textiles whose dyes nobody has tested."""


def chosen_limit(key: str = DEFAULT_LIMIT) -> LightLimit:
    """The limit of that key; raises LightError, naming those there are."""
    limit = light_limits().get(key)
    if limit is None:
        there = ", ".join(light_limits())
        raise LightError(f"There is no light limit {quoted(key)}; there are {there}.")
    return limit


def own_limit(lux_hours: float, source: str, lux_at_most: float | None = None) -> LightLimit:
    """A limit that the collection sets itself; raises LightError where it names no source."""
    return LightLimit("own", "the collection's own limit", lux_hours, lux_at_most, source)


def amount(lux_hours: float) -> str:
    """A dose in words: "12,000 lux hours", "41.5 lux hours"."""
    return f"{lux_hours:,.1f}".removesuffix(".0") + " lux hours"


@dataclass(frozen=True)
class Display:
    """One stretch of days on which a quilt was or will be lit.

    `begins` and `ends` are its first and last day. `lux` and `hours_a_day` are None where nobody
    recorded them; hours count all time with the lights on, cleaning and setting up too.
    `weekdays` are those on which it is lit (Monday is 0), `dark` single days without light.
    Raises LightError for an end before the beginning and for figures that cannot be.
    """

    what: str
    begins: date
    ends: date
    lux: float | None = None
    hours_a_day: float | None = None
    weekdays: tuple[int, ...] = EVERY_DAY
    dark: tuple[date, ...] = ()
    ultraviolet: float | None = None

    def __post_init__(self) -> None:
        if self.ends < self.begins:
            raise LightError(f"{quoted(self.what)} ends on {written(self.ends)}, before it begins.")
        if not set(self.weekdays) <= set(EVERY_DAY):
            raise LightError(f"{quoted(self.weekdays)} are not weekdays from 0 to 6.")
        _amount(self.lux or 0, "lux")
        _hours(self.hours_a_day or 0)
        _amount(self.ultraviolet or 0, "microwatts a lumen")

    @property
    def is_measured(self) -> bool:
        """True where light and hours were both recorded."""
        return self.lux is not None and self.hours_a_day is not None

    def lit_days(self, first: date = date.min, last: date = date.max) -> int:
        """How many days of light fall between two days, both counted."""
        begins, ends = max(self.begins, first), min(self.ends, last)
        span = (ends - begins).days + 1
        if span <= 0:
            return 0
        weeks, rest = divmod(span, 7)
        extra = {(begins.weekday() + n) % 7 for n in range(rest)}
        open_days = set(self.weekdays)
        dark = sum(begins <= day <= ends and day.weekday() in open_days for day in set(self.dark))
        return weeks * len(open_days) + len(extra & open_days) - dark

    def dose(self, first: date = date.min, last: date = date.max) -> float:
        """Lux hours between two days, both counted; 0 where light or hours were not recorded."""
        if self.lux is None or self.hours_a_day is None:
            return 0.0
        return light_dose(self.lux, self.hours_a_day, self.lit_days(first, last))

    def until(self, last: date) -> Display | None:
        """The part up to that day, None where it begins later."""
        if self.begins > last:
            return None
        return _cut(self, self.begins, min(self.ends, last))

    def after(self, last: date) -> Display | None:
        """The part after that day, None where it ends before."""
        if self.ends <= last:
            return None
        return _cut(self, max(self.begins, last + timedelta(days=1)), self.ends)


def _cut(display: Display, begins: date, ends: date) -> Display:
    return Display(
        display.what,
        begins,
        ends,
        display.lux,
        display.hours_a_day,
        display.weekdays,
        display.dark,
        display.ultraviolet,
    )
