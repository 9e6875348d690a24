"""Gaps, overlaps and wrong order in the dates of a chain of owners."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from catalogue.provenance.findings import Finding, before, span
from catalogue.provenance.periods import Period
from catalogue.provenance.transfer_dates import Bounds
from catalogue.values.days import year_of

__all__ = ["examine_dates"]


def examine_dates(periods: Sequence[Period], made: Bounds) -> Iterator[Finding]:
    """Yield what the dates of the periods, and of the making, leave open or contradict."""
    yield from _since_making(periods, made)
    for place, period in enumerate(periods):
        yield from _within(place, period, made)
    for place in range(len(periods) - 1):
        yield from _gap(periods, place)
        yield from _doubtful_passage(periods, place)
    owners = [place for place, period in enumerate(periods) if period.is_owner]
    for earlier, later in pairwise(owners):
        yield from _overlap(periods, earlier, later)


def _since_making(periods: Sequence[Period], made: Bounds) -> Iterator[Finding]:
    """Name the years between the making and the first period, unless that is the making."""
    if not periods or made[1] is None:
        return
    first = periods[0]
    begin = first.begins[0] or first.begins[1]
    if begin is None or _originates(first) or year_of(begin) - year_of(made[1]) < 1:
        return
    yield Finding(
        "gap",
        "gap",
        not first.possibly,
        f"Nothing is known from the making in {span(made)} until {first.party} in "
        f"{span(first.begins)}: {_years(made[1], begin)}.",
        (0,),
    )


def _originates(period: Period) -> bool:
    method = period.known_method
    return method is not None and method.category == "origination"


def _within(place: int, period: Period, made: Bounds) -> Iterator[Finding]:
    certain = not period.possibly and "begins" not in period.all_doubts
    if before(period.ends[1], period.begins[0]):
        yield Finding(
            "ends before it begins",
            "contradiction",
            certain and "ends" not in period.all_doubts,
            f"{period.party} is said to have received the quilt in {span(period.begins)} and to "
            f"have given it up in {span(period.ends)}.",
            (place,),
        )
    if before(period.begins[1], made[0]):
        verb = "is said to have made" if _originates(period) else "received"
        yield Finding(
            "owned before made",
            "contradiction",
            certain,
            f"{period.party} {verb} the quilt in {span(period.begins)}, but it is dated "
            f"{span(made)}.",
            (place,),
        )


def _gap(periods: Sequence[Period], place: int) -> Iterator[Finding]:
    """Name the time between two periods of which nothing is known."""
    period, following = periods[place], periods[place + 1]
    certain = not (period.possibly or following.possibly)
    apart = before(period.ends[1], following.begins[0])
    if period.direct_transfer:
        if apart and _whole_years(period.ends[1], following.begins[0]) >= 1:
            yield Finding(
                "gap",
                "contradiction",
                certain,
                f"The quilt is said to have passed directly from {period.party} to "
                f"{following.party}, but it left the one in {span(period.ends)} and reached the "
                f"other in {span(following.begins)}.",
                (place, place + 1),
            )
        return
    last = period.ends[1] or period.ends[0] or period.begins[1] or period.begins[0]
    next_seen = following.begins[0] or following.begins[1] or following.ends[0]
    between = f"from {period.party} to {following.party}"
    if last is None or next_seen is None or not before(last, next_seen):
        says = f"It is not known how the quilt passed {between}."
    else:
        says = (
            f"Nothing is known between {year_of(last)}, the last year of {period.party}, and "
            f"{year_of(next_seen)}, the first of {following.party}: {_years(last, next_seen)}."
        )
    yield Finding("gap", "gap", certain, says, (place, place + 1))


def _whole_years(first: str | None, last: str | None) -> int:
    return 0 if first is None or last is None else year_of(last) - year_of(first)


def _years(first: str, last: str) -> str:
    count = _whole_years(first, last)
    if count == 0:
        return "less than a year"
    return "1 year" if count == 1 else f"{count} years"


def _doubtful_passage(periods: Sequence[Period], place: int) -> Iterator[Finding]:
    """Remark on a semicolon beside a doubtful owner: what is uncertain is not direct."""
    doubtful = [p.party for p in periods[place : place + 2] if p.possibly]
    if periods[place].direct_transfer and doubtful:
        yield Finding(
            "direct but in doubt",
            "question",
            True,
            f"The passage from {periods[place].party} to {periods[place + 1].party} is marked as "
            f"direct, but {' and '.join(doubtful)} is only possible; end the period with a point.",
            (place, place + 1),
        )


def _overlap(periods: Sequence[Period], earlier: int, later: int) -> Iterator[Finding]:
    """Name two owners at one time, or two in the wrong order; loans between are no overlap."""
    one, other = periods[earlier], periods[later]
    doubts = one.all_doubts | other.all_doubts
    certain = not (one.possibly or other.possibly or {"begins", "ends"} & doubts)
    places = (earlier, later)
    if before(other.begins[1], one.begins[0]):
        yield Finding(
            "out of order",
            "contradiction",
            certain,
            f"{other.party} stands after {one.party}, but received the quilt in "
            f"{span(other.begins)}, before {one.party} in {span(one.begins)}.",
            places,
        )
    elif before(other.begins[1], one.ends[0]):
        yield Finding(
            "overlap",
            "contradiction",
            certain,
            f"{one.party} is said to have had the quilt until {span(one.ends)}, but "
            f"{other.party} already in {span(other.begins)}.",
            places,
        )
