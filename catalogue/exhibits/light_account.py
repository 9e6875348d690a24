"""The light account of one quilt: what each year brought, what is booked, what a show would add."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from catalogue.exhibits.findings import Finding, counted, written
from catalogue.exhibits.light import (
    ULTRAVIOLET_AT_MOST,
    ULTRAVIOLET_SOURCE,
    Display,
    LightLimit,
    amount,
    days_within,
)

# Less light is of no use to visitors: the least in the National Gallery's allowance file, 2023.
_DIMMEST = 35


@dataclass(frozen=True)
class YearDose:
    """Lux hours of one calendar year.

    `received` fell on the quilt up to today, `booked` is agreed for the rest of the year,
    `proposed` is what the show under discussion would add. `unrecorded` names the displays of that
    year whose light or hours nobody wrote down: the true dose is higher by an unknown amount.
    """

    year: int
    received: float = 0.0
    booked: float = 0.0
    proposed: float = 0.0
    unrecorded: tuple[str, ...] = ()

    @property
    def total(self) -> float:
        """All three together."""
        return self.received + self.booked + self.proposed


@dataclass(frozen=True)
class LightAccount:
    """Years, the limit they are held against, and what that means in sentences."""

    years: tuple[YearDose, ...]
    limit: LightLimit
    findings: tuple[Finding, ...]

    def year(self, year: int) -> YearDose:
        """The dose of that year, nothing where none is known."""
        return next((dose for dose in self.years if dose.year == year), YearDose(year))


def light_account(
    displays: Sequence[Display],
    limit: LightLimit,
    today: date,
    proposed: Display | None = None,
) -> LightAccount:
    """The account of a quilt that was and will be on `displays`, with a show that may be added.

    Findings come in the order in which a person would ask: this year so far, what the show adds,
    limits passed, light too strong, light unknown.
    """
    years = year_doses(displays, today, proposed)
    account = LightAccount(years, limit, ())
    findings = (
        *_so_far(account, today),
        *_added(account, proposed),
        *_over(account, proposed),
        *_twelve_months(displays, proposed, account),
        *_strength((*displays, *((proposed,) if proposed else ())), limit),
        *_unrecorded(years),
    )
    return LightAccount(years, limit, findings)


def year_doses(
    displays: Sequence[Display], today: date, proposed: Display | None = None
) -> tuple[YearDose, ...]:
    """The doses of every year from the first display to the last, and of this year."""
    every = (*displays, *((proposed,) if proposed else ()))
    known = {today.year, *(d.begins.year for d in every), *(d.ends.year for d in every)}
    return tuple(
        _year(year, displays, today, proposed) for year in range(min(known), max(known) + 1)
    )


def _year(
    year: int, displays: Sequence[Display], today: date, proposed: Display | None
) -> YearDose:
    first, last = date(year, 1, 1), date(year, 12, 31)
    past = [part for display in displays if (part := display.until(today))]
    coming = [part for display in displays if (part := display.after(today))]
    every = (*displays, *((proposed,) if proposed else ()))
    return YearDose(
        year,
        math.fsum(display.dose(first, last) for display in past),
        math.fsum(display.dose(first, last) for display in coming),
        proposed.dose(first, last) if proposed else 0.0,
        tuple(d.what for d in every if not d.is_measured and d.lit_days(first, last)),
    )


def _so_far(account: LightAccount, today: date) -> Iterator[Finding]:
    dose, limit = account.year(today.year), account.limit
    left = limit.lux_hours - dose.received - dose.booked
    booked = f", and {amount(dose.booked)} are booked" if dose.booked else ""
    room = f"{amount(left)} are left" if left >= 0 else f"{amount(-left)} are too many"
    yield Finding(
        "so far",
        f"So far in {today.year} this quilt has had {amount(dose.received)}{booked}; {room}."
        f" {limit.says}",
        (),
        limit.source,
    )


def _added(account: LightAccount, proposed: Display | None) -> Iterator[Finding]:
    if proposed is None or not proposed.is_measured:
        return
    for dose in account.years:
        if dose.proposed:
            yield Finding(
                "added",
                f"“{proposed.what}” would add {amount(dose.proposed)} in {dose.year}, which makes"
                f" {amount(dose.total)}.",
            )


def _over(account: LightAccount, proposed: Display | None) -> Iterator[Finding]:
    for dose in account.years:
        over = dose.total - account.limit.lux_hours
        if over <= 0:
            continue
        passed = "passed" if dose.received > account.limit.lux_hours else "would pass"
        yield Finding(
            "over the limit",
            f"{dose.year} {passed} the limit of {amount(account.limit.lux_hours)} by"
            f" {amount(over)}.{_remedy(dose, account.limit, proposed)}",
            (),
            account.limit.source,
        )


def _remedy(dose: YearDose, limit: LightLimit, proposed: Display | None) -> str:
    """What would keep the proposed show within the limit, if anything would."""
    if proposed is None or not dose.proposed or not proposed.lux or not proposed.hours_a_day:
        return ""
    room = limit.lux_hours - (dose.total - dose.proposed)
    days = math.floor(days_within(max(room, 0.0), proposed.lux, proposed.hours_a_day))
    if days < 1:
        return " No display in that year keeps within it."
    lux = math.floor(proposed.lux * room / dose.proposed)
    dimmer = f", and so would all its days at {lux} lux" if lux >= _DIMMEST else ""
    return (
        f" {counted(days, 'day')} of {proposed.hours_a_day:g} hours at"
        f" {proposed.lux:g} lux would keep within it{dimmer}."
    )


def _twelve_months(
    displays: Sequence[Display], proposed: Display | None, account: LightAccount
) -> Iterator[Finding]:
    """Twelve months that hold more than the limit although no calendar year does."""
    if any(dose.total > account.limit.lux_hours for dose in account.years):
        return
    every = (*displays, *((proposed,) if proposed else ()))
    worst, begins = max(
        (
            (math.fsum(d.dose(first, _year_later(first)) for d in every), first)
            for first in _starts(every)
        ),
        default=(0.0, date.min),
    )
    if worst > account.limit.lux_hours:
        yield Finding(
            "over the limit",
            f"No calendar year passes the limit, but the twelve months from {written(begins)} hold"
            f" {amount(worst)}.",
            (),
            account.limit.source,
        )


def _starts(displays: Sequence[Display]) -> Iterator[date]:
    """First days of the twelve months that can hold most: with a display's first or last day."""
    for display in displays:
        yield display.begins
        yield display.ends - timedelta(days=364)


def _year_later(first: date) -> date:
    return first + timedelta(days=364)


def _strength(displays: Sequence[Display], limit: LightLimit) -> Iterator[Finding]:
    """Light above the limit's lux, and ultraviolet above its own limit."""
    for display in displays:
        most = limit.lux_at_most
        if most is not None and display.lux is not None and display.lux > most:
            yield Finding(
                "too bright",
                f"“{display.what}” is lit at {display.lux:g} lux; the limit chosen allows"
                f" {most:g}.",
                (),
                limit.source,
            )
        if display.ultraviolet is not None and display.ultraviolet > ULTRAVIOLET_AT_MOST:
            yield Finding(
                "ultraviolet",
                f"“{display.what}” has {display.ultraviolet:g} microwatts of ultraviolet a lumen;"
                f" at most {ULTRAVIOLET_AT_MOST:g} is advised. Filter it.",
                (),
                ULTRAVIOLET_SOURCE,
            )


def _unrecorded(years: Sequence[YearDose]) -> Iterator[Finding]:
    """Displays whose light nobody wrote down, each said once."""
    for what in dict.fromkeys(what for dose in years for what in dose.unrecorded):
        yield Finding(
            "not recorded",
            f"Light or hours of “{what}” were not recorded, so the true dose is higher than these"
            " figures.",
        )
