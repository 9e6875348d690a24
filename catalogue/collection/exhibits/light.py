"""Light on a quilt: every show it was and will be in, against the limit the house has chosen."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sqlite_utils import Database

from catalogue.collection import settings
from catalogue.collection.records import Exhibit, Quilt
from catalogue.collection.store import load_many
from catalogue.exhibits.findings import Finding
from catalogue.exhibits.light import Display, LightError, chosen_limit
from catalogue.exhibits.light_account import LightAccount, light_account
from catalogue.exhibits.rest import chosen_rest, rest_findings
from catalogue.exhibits.schedule import Booking, clashes

EVERY_DAY = tuple(range(7))


def exhibits_of(database: Database, quilt: int) -> list[Exhibit]:
    """Return the exhibits a quilt is in, the earliest first, without what is put away."""
    rows = database.query(
        """SELECT DISTINCT exhibit.id, begins FROM exhibit JOIN exhibit_quilt
           ON exhibit = exhibit.id WHERE quilt = ? AND put_away = ''
           ORDER BY begins, exhibit.id""",
        [quilt],
    )
    return load_many(database, Exhibit, [row["id"] for row in rows])


def account_of(
    database: Database, quilt: int, today: date, planned: int | None = None
) -> tuple[LightAccount, tuple[Finding, ...]]:
    """Return a quilt's light, year by year, with what its rest norm says.

    `planned` names the exhibit whose light is told apart as what it would add, unless it is over.
    """
    shown = [(each.id, display_of(each)) for each in exhibits_of(database, quilt)]
    added = next((display for id, display in shown if id == planned), None)
    if added is not None and added.ends < today:
        added = None
    displays = [display for _, display in shown if display is not None and display is not added]
    house = settings.read(database)
    account = light_account(displays, chosen_limit(house.light_limit), today, added)
    stretches = [(display.begins, display.ends) for _, display in shown if display is not None]
    return account, rest_findings(stretches, chosen_rest(house.rest_norm), today)


def display_of(exhibit: Exhibit) -> Display | None:
    """Return the days of light of an exhibit, None where its dates are not set or cannot be."""
    if not exhibit.begins or not exhibit.ends:
        return None
    dark = {int(day) for day in exhibit.dark_days.split(",") if day.strip().isdigit()}
    try:
        return Display(
            exhibit.title,
            date.fromisoformat(exhibit.begins),
            date.fromisoformat(exhibit.ends),
            exhibit.lux,
            exhibit.hours_a_day,
            tuple(day for day in EVERY_DAY if day not in dark),
            ultraviolet=exhibit.ultraviolet,
        )
    except LightError:
        return None


def double_bookings(database: Database, exhibit: Exhibit) -> tuple[Finding, ...]:
    """Return where a quilt of this exhibit would be in two places on one day."""
    quilts = load_many(database, Quilt, [each.quilt for each in exhibit.quilts])
    titles = {quilt.id: quilt.title for quilt in quilts if quilt.id is not None}
    others = {each.id: each for id in titles for each in exhibits_of(database, id)}
    mine = list(_bookings(exhibit, titles))
    found: list[Finding] = []
    for other in others.values():
        if other.id != exhibit.id:
            found += clashes([*mine, *_bookings(other, titles)])
    return tuple(found)


def _bookings(exhibit: Exhibit, titles: dict[int, str]) -> Iterable[Booking]:
    display = display_of(exhibit)
    if display is None:
        return
    for each in exhibit.quilts:
        if each.quilt in titles:
            title = titles[each.quilt]
            yield Booking(str(each.quilt), exhibit.title, display.begins, display.ends, title)
