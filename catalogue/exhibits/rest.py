"""Rest after display: how long a quilt may hang and when it may hang again, by differing norms."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from pathlib import Path

from catalogue.exhibits.findings import Finding, counted, written
from catalogue.exhibits.light import LightError
from catalogue.values.lengths import quoted

_DAY = timedelta(days=1)

Stretch = tuple[date, date]
"""First and last day on display."""


@dataclass(frozen=True)
class RestNorm:
    """One museum's rule: at most `most_months` on display, within so many months or at a time.

    `within_months` is None where the rule is of one display at a time; `rest_as_long` asks for a
    rest that lasts at least as long as the display did.
    """

    key: str
    name: str
    most_months: int
    within_months: int | None
    rest_as_long: bool
    says: str
    source: str
    address: str = ""


@lru_cache(maxsize=1)
def rest_norms() -> Mapping[str, RestNorm]:
    """Every norm of the data file by its key; they differ, and a collection chooses one."""
    table = Path(__file__).with_name("rest_norms.csv")
    with table.open(encoding="utf-8", newline="") as lines:
        return {row["key"]: _norm(row) for row in csv.DictReader(lines)}


def _norm(row: dict[str, str]) -> RestNorm:
    return RestNorm(
        row["key"],
        row["name"],
        int(row["most_months"]),
        int(row["within_months"]) if row["within_months"] else None,
        row["rest_as_long"] == "yes",
        row["says"],
        row["source"],
        row["address"],
    )


DEFAULT_REST = "textile-museum"
"""Key of the norm used until a collection chooses one."""


def chosen_rest(key: str = DEFAULT_REST) -> RestNorm:
    """The norm of that key; raises LightError, naming those there are."""
    norm = rest_norms().get(key)
    if norm is None:
        there = ", ".join(rest_norms())
        raise LightError(f"There is no norm of rest {quoted(key)}; there are {there}.")
    return norm


def rest_findings(
    stretches: Sequence[Stretch], norm: RestNorm, since: date = date.min
) -> tuple[Finding, ...]:
    """Where displays are longer, or rests shorter, than the norm says; sentences with dates.

    `stretches` are first and last days on display, in any order, past and planned. All of them
    count, but only those that end on `since` or later are spoken of.
    """
    merged = _merged(stretches)
    spoken_of = [index for index, (_, ends) in enumerate(merged) if ends >= since]
    found = [
        finding
        for index in spoken_of
        for check in (_too_long, _too_soon)
        for finding in check(merged[: index + 1], norm)
    ]
    again = may_hang_from(merged, norm)
    if again is not None:
        found.append(
            Finding(
                "rest",
                f"By this norm it may hang again from {written(again)}: {norm.says} ({norm.name}).",
                (),
                norm.source,
            )
        )
    return tuple(found)


def may_hang_from(stretches: Sequence[Stretch], norm: RestNorm) -> date | None:
    """The first day after all displays on which the norm allows another, None without any."""
    merged = _merged(stretches)
    if not merged:
        return None
    begins, ends = merged[-1]
    first = ends + _DAY
    if norm.rest_as_long:
        return first + (first - begins)
    # Months differ by days: what was on display for four of them has had its four months.
    lengths = _lengths(norm.most_months)
    allowed = min(max(_days_within(merged, ends, norm), min(lengths)), max(lengths))
    while _days_within(merged, first, norm) + 1 > allowed:
        first += _DAY
    return first


def _too_long(merged: Sequence[Stretch], norm: RestNorm) -> Iterator[Finding]:
    """Whether the last display, with others in the norm's months, lasts longer than it allows."""
    begins, ends = merged[-1]
    days, within = (ends - begins).days + 1, ""
    if norm.within_months is not None:
        days = _days_within(merged, ends, norm)
        within = f" within {norm.within_months} months"
    if days > max(_lengths(norm.most_months)):
        yield Finding(
            "too long",
            f"Up to {written(ends)} on display for {counted(days, 'day')}{within};"
            f" {norm.name} allows {counted(norm.most_months, 'month')}.",
            (),
            norm.source,
        )


def _too_soon(merged: Sequence[Stretch], norm: RestNorm) -> Iterator[Finding]:
    """Whether the last display begins before the norm allows, after those that came before."""
    begins, allowed = merged[-1][0], may_hang_from(merged[:-1], norm)
    if allowed is not None and begins < allowed:
        yield Finding(
            "too soon",
            f"The display from {written(begins)} comes {counted((allowed - begins).days, 'day')}"
            f" too soon: {norm.says} ({norm.name}).",
            (),
            norm.source,
        )


def _days_within(merged: Sequence[Stretch], last: date, norm: RestNorm) -> int:
    """Days on display within the norm's months that end with that day."""
    first = months_later(last + _DAY, -(norm.within_months or 0))
    return sum(max((min(ends, last) - max(begins, first)).days + 1, 0) for begins, ends in merged)


def _merged(stretches: Sequence[Stretch]) -> list[Stretch]:
    """The stretches in order, those that touch or overlap joined into one."""
    found: list[Stretch] = []
    for begins, ends in sorted(stretches):
        if found and begins <= found[-1][1] + _DAY:
            found[-1] = (found[-1][0], max(found[-1][1], ends))
        else:
            found.append((begins, ends))
    return found


def months_later(day: date, months: int) -> date:
    """The same day so many months later, or the last of a month that has no such day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    following = date(year + month // 11, (month + 1) % 12 + 1, 1)
    last = (following - _DAY).day
    return date(year, month + 1, min(day.day, last))


def _lengths(months: int) -> list[int]:
    """The days of so many months from the first of each month of three years, one a leap year."""
    starts = (date(year, month, 1) for year in (2022, 2023, 2024) for month in range(1, 13))
    return [(months_later(start, months) - start).days for start in starts]
