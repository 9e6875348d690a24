"""Owners and makers held against their own years of birth and death.

That a maker is 8 to 100 years old is this project's own limit, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from catalogue.provenance.findings import Finding, Maker, life_of, span
from catalogue.provenance.periods import Period
from catalogue.provenance.transfer_dates import UNKNOWN, Bounds
from catalogue.values.days import year_of

__all__ = ["OLDEST_MAKER", "YOUNGEST_MAKER", "examine_makers", "examine_owners"]

YOUNGEST_MAKER, OLDEST_MAKER = 8, 100
_LONGEST_ESTATE = 3  # years a dead owner's estate may take to settle; our own judgement


def examine_owners(periods: Sequence[Period]) -> Iterator[Finding]:
    """Yield the passages to parties not yet born or already dead, and estates that never end."""
    for place, period in enumerate(periods):
        life = life_of(period)
        sure = not period.possibly and "party" not in period.doubtful
        first, last = (None if iso is None else year_of(iso) for iso in period.begins)
        if life.born is not None and last is not None and last < life.born:
            yield Finding(
                "before birth",
                "contradiction",
                sure and not life.born_doubtful and "begins" not in period.all_doubts,
                f"{period.party}, born in {life.born}, is said to have received the quilt in "
                f"{span(period.begins)}.",
                (place,),
            )
        if life.died is not None and first is not None and first > life.died:
            yield Finding(
                "after death",
                "contradiction",
                sure and not life.died_doubtful and "begins" not in period.all_doubts,
                f"{period.party}, dead since {life.died}, is said to have received the quilt in "
                f"{span(period.begins)}.",
                (place,),
            )
        yield from _held_after_death(place, period, life.died)


def _held_after_death(place: int, period: Period, died: int | None) -> Iterator[Finding]:
    last = None if period.ends[0] is None else year_of(period.ends[0])
    if died is None or last is None or last <= died + _LONGEST_ESTATE:
        return
    yield Finding(
        "held after death",
        "question",
        "ends" not in period.all_doubts,
        f"{period.party} died in {died}, but is said to have had the quilt until "
        f"{span(period.ends)}; who had it for those {last - died} years?",
        (place,),
    )


def examine_makers(makers: Sequence[Maker], made: Bounds) -> Iterator[Finding]:
    """Yield makers too young, too old or dead at every time at which the work may be made."""
    for maker in makers:
        dates = maker.made if maker.made != UNKNOWN else made
        first, last = (None if iso is None else year_of(iso) for iso in dates)
        born, died = maker.life.born, maker.life.died
        if born is not None and last is not None and last - born < YOUNGEST_MAKER:
            yield _maker_finding("maker too young", maker, dates, not maker.life.born_doubtful)
        if born is not None and first is not None and first - born > OLDEST_MAKER:
            yield _maker_finding("maker too old", maker, dates, not maker.life.born_doubtful)
        if died is not None and first is not None and first > died:
            yield Finding(
                "made after death",
                "contradiction",
                not maker.life.died_doubtful,
                f"{maker.name} died in {died}, but the work is dated {span(dates)}; another hand, "
                "or another date?",
            )


def _maker_finding(kind: str, maker: Maker, dates: Bounds, certain: bool) -> Finding:
    born = maker.life.born or 0
    ages = sorted({year_of(iso) - born for iso in dates if iso is not None})
    limit = f"under {YOUNGEST_MAKER}" if kind == "maker too young" else f"over {OLDEST_MAKER}"
    if ages[-1] < 0:
        return Finding(
            kind,
            "contradiction",
            certain,
            f"{maker.name} was born in {born}, after the work of {span(dates)} was made.",
        )
    return Finding(
        kind,
        "question",
        certain,
        f"{maker.name}, born in {born}, would have been {_age(ages)} when the work of "
        f"{span(dates)} was made, {limit}.",
    )


def _age(ages: list[int]) -> str:
    lowest, highest = max(ages[0], 0), ages[-1]
    return f"{lowest} years old" if lowest == highest else f"{lowest} to {highest} years old"
