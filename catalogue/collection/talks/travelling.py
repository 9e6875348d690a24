"""Quilts that may not travel, or not without asking, as far as that is recorded."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from sqlite_utils import Database

from catalogue.collection.exhibits.displayed import hanging_in
from catalogue.collection.exhibits.light import exhibits_of
from catalogue.collection.records import Exhibit, ExhibitQuilt, Quilt
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.remarks import Remark
from catalogue.exhibits.findings import written

_STAYS = ("poor", "fragile")
_HAZARDS = ("suspected", "tested: present")
# Words in a place that say the quilt is not on its shelf.
_ELSEWHERE = re.compile(r"\b(loan|lent|display|exhibit|exhibition|conservator)\b", re.IGNORECASE)


def travel_remarks(database: Database, programme: Programme, today: date) -> Iterator[Remark]:
    """Yield for each quilt why it stays where it is, and what has to be asked before it leaves.

    The day is that of the talk, or today where none is set.
    """
    stays = why_staying(database, programme, today)
    for quilt in programme.quilts:
        if stays[quilt.id]:
            says = f"“{quilt.title}” may not travel: {'; '.join(stays[quilt.id])}."
            yield Remark("travel", says, "condition, place and exhibits on record", serious=True)
        asks = list(_reasons_to_ask(quilt))
        if asks:
            yield Remark("travel", f"“{quilt.title}”, ask first: {'; '.join(asks)}.", "the record")


def why_staying(
    database: Database, programme: Programme, today: date
) -> dict[int | None, tuple[str, ...]]:
    """Return, by quilt, why it may not travel on the day of the talk; nothing where it may."""
    on = date.fromisoformat(programme.talk.on) if programme.talk.on else today
    return {
        quilt.id: (*_reasons_to_stay(quilt), *_away(database, quilt, on))
        for quilt in programme.quilts
    }


def _reasons_to_stay(quilt: Quilt) -> Iterator[str]:
    """Yield what the last report on a quilt says against carrying it about."""
    report = quilt.conditions[-1] if quilt.conditions else None
    if report is None:
        return
    seen = f" ({written(date.fromisoformat(report.on))})" if report.on else ""
    if report.grade in _STAYS:
        yield f"condition {report.grade}{seen}; show pictures, or ask a textile conservator"
    if report.hazard in _HAZARDS:
        yield (
            f"dyes or pesticides {report.hazard}; nobody handles it before a textile conservator"
            " has been asked"
        )


def _reasons_to_ask(quilt: Quilt) -> Iterator[str]:
    if not quilt.conditions:
        yield "nobody has recorded its condition"
    if quilt.status != "accessioned":
        yield f"it is {quilt.status}, and not in the collection yet"
    if quilt.came_by == "loan":
        yield "it is on loan to us, and its lender decides"
    place = quilt.locations[-1].place if quilt.locations else ""
    if _ELSEWHERE.search(place):
        yield f"its place on record is “{place}”"
    if quilt.restrictions:
        yield f"restrictions on record: {quilt.restrictions.rstrip('.')}"


def _away(database: Database, quilt: Quilt, on: date) -> Iterator[str]:
    """Yield where the quilt hangs or has gone on that day."""
    assert quilt.id is not None
    hanging = hanging_in(database, quilt.id, on)
    for exhibit in exhibits_of(database, quilt.id):
        shown = next(each for each in exhibit.quilts if each.quilt == quilt.id)
        if exhibit.id in hanging:
            until = f" until {written(date.fromisoformat(exhibit.ends))}" if exhibit.ends else ""
            yield f"it hangs in “{exhibit.title}”{until}"
        elif _still_out(exhibit, shown, on):
            yield f"it went out to “{exhibit.title}”, and its return is not recorded"


def _still_out(exhibit: Exhibit, shown: ExhibitQuilt, on: date) -> bool:
    left = bool(shown.out_on) and shown.out_on <= on.isoformat()
    return left and not shown.back_on and exhibit.begins <= on.isoformat()
