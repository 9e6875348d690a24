"""The values of an examination: the facts that stand beside the periods, and one finding."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.provenance.periods import Period
from catalogue.provenance.transfer_dates import UNKNOWN, Bounds
from catalogue.values.days import Day, year_of
from catalogue.values.life_dates import LifeDates, LifeDatesError, parse_life_dates

__all__ = ["FamilyTie", "Finding", "Maker", "before", "day", "life_of", "span"]


_UNKNOWN_LIFE = LifeDates()


@dataclass(frozen=True)
class Maker:
    """Someone who made the quilt or a phase of it; `made` overrules the dates of the whole."""

    name: str
    life: LifeDates = _UNKNOWN_LIFE
    made: Bounds = UNKNOWN


@dataclass(frozen=True)
class FamilyTie:
    """`person` is the `relation` (daughter, nephew) of `to`, by their names as recorded."""

    person: str
    relation: str
    to: str


@dataclass(frozen=True)
class Finding:
    """One gap or contradiction, in a plain sentence.

    `severity` is "contradiction" (both cannot be true), "question" (unlikely, or unproved) or
    "gap" (nothing is known); `certain` is False where it rests on an element in doubt. `periods`
    are the places of the periods concerned, from 0.
    """

    kind: str
    severity: str
    certain: bool
    says: str
    periods: tuple[int, ...] = ()


def day(iso: str) -> Day:
    """Return an ISO day as year, month and day, which compare rightly in any year."""
    return year_of(iso), int(iso[-5:-3]), int(iso[-2:])


def before(one: str | None, other: str | None) -> bool:
    """True where both days are known and the first is earlier."""
    return one is not None and other is not None and day(one) < day(other)


def span(bounds: Bounds) -> str:
    """Return bounds in words: 1950, 1950 to 1955, by 1955, from 1950 on."""
    first, last = (None if iso is None else year_of(iso) for iso in bounds)
    if first is None:
        return "an unknown date" if last is None else f"{last} at the latest"
    if last is None:
        return f"{first} at the earliest"
    return f"{first}" if first == last else f"{first} to {last}"


def life_of(period: Period) -> LifeDates:
    """Return the life dates of the party, empty where none can be read."""
    try:
        return parse_life_dates(f"[{period.life}]") if period.life else _UNKNOWN_LIFE
    except LifeDatesError:
        return _UNKNOWN_LIFE
