"""Whether a quilt's dates and its pattern's printings can stand together, said in sentences."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.values.dates import DateError, HistoricDate, read_date


@dataclass(frozen=True)
class PrintedAs:
    """One printing as it is compared: what, where, when, and the years of the publication."""

    publication: str
    kind: str
    date: HistoricDate | None = None
    years: HistoricDate | None = None
    followed: bool = False


@dataclass(frozen=True)
class Doubt:
    """Something that does not fit; `certain` where both dates cannot be true as they stand."""

    says: str
    certain: bool


def doubts(
    pattern: str,
    made: tuple[int | None, int | None],
    printings: Sequence[PrintedAs],
    earliest_known: str = "",
    earliest_where: str = "",
) -> tuple[Doubt, ...]:
    """Return what the dates of the making and of the printings say against each other.

    `made` bounds the making in years, None where open; `followed` marks the printing that the
    maker is thought to have used; `earliest_known` is the first printing of the design known to us,
    as written. A pattern is usually older than its printing, so a quilt older than every printing
    is a question; only one older than the printing it is said to follow is a contradiction.
    """
    found = [
        *(doubt for each in printings if each.followed for doubt in _of_source(each, made)),
        *_older_than_print(pattern, made, printings, earliest_known, earliest_where),
        *(doubt for each in printings for doubt in _outside_its_publication(each)),
    ]
    return tuple(dict.fromkeys(found))


def _of_source(printing: PrintedAs, made: tuple[int | None, int | None]) -> list[Doubt]:
    """Say where the quilt cannot, or can hardly, come from this printing."""
    first, last = made
    found = []
    printed = printing.date.earliest_year if printing.date is not None else None
    if last is not None and printed is not None and last < printed:
        found.append(
            Doubt(
                f"The quilt was made by {last}, before {printing.publication} printed the pattern"
                f" ({printing.date.says if printing.date else printed}).",
                True,
            )
        )
    ended = printing.years.latest_year if printing.years is not None else None
    if first is not None and ended is not None and first > ended and printing.kind == "kit":
        found.append(
            Doubt(
                f"{printing.publication} sold kits until {ended}, and the quilt was begun in"
                f" {first} or later: an old kit, or another source?",
                False,
            )
        )
    return found


def _older_than_print(
    pattern: str,
    made: tuple[int | None, int | None],
    printings: Sequence[PrintedAs],
    earliest_known: str,
    earliest_where: str,
) -> list[Doubt]:
    """Say where the quilt is older than every printing known, or the design than the printings."""
    known = [
        (year, each.publication)
        for each in printings
        if each.date is not None and (year := each.date.earliest_year) is not None
    ]
    listed = _year_of(earliest_known)
    if listed is not None:
        known.append((listed, earliest_where))
    if not known:
        return []
    year, where = min(known)
    found = []
    if made[1] is not None and made[1] < year:
        found.append(
            Doubt(
                f"The quilt was made by {made[1]}, and the first printing of {pattern} known to us"
                f" is of {year} ({where}): the design is older than that, or the date too early.",
                False,
            )
        )
    followed = [
        each.date.earliest_year for each in printings if each.followed and each.date is not None
    ]
    if listed is not None and followed and followed[0] is not None and listed < followed[0]:
        found.append(
            Doubt(
                f"{pattern} was in print by {listed} ({earliest_where}), so the printing of"
                f" {followed[0]} is not where it began.",
                False,
            )
        )
    return found


def _outside_its_publication(printing: PrintedAs) -> list[Doubt]:
    """Say where a printing is dated outside the years in which its publication appeared."""
    if printing.date is None or printing.years is None:
        return []
    date, years = printing.date, printing.years
    too_early = _before(date.latest_year, years.earliest_year)
    too_late = _before(years.latest_year, date.earliest_year)
    if not (too_early or too_late):
        return []
    return [
        Doubt(
            f"The printing is dated {date.says}, but {printing.publication} appeared {years.says}.",
            True,
        )
    ]


def _before(one: int | None, other: int | None) -> bool:
    return one is not None and other is not None and one < other


def _year_of(written: str) -> int | None:
    """Return the first year of a date as written, None where it cannot be read."""
    try:
        return read_date(written).earliest_year if written else None
    except DateError:
        return None
