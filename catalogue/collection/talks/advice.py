"""Everything that helps whoever prepares a talk, what cannot be done as planned first."""

from __future__ import annotations

from datetime import date

from sqlite_utils import Database

from catalogue.collection.talks.alike import alike_in_a_row
from catalogue.collection.talks.carrying import carrying_remarks
from catalogue.collection.talks.clock import running_time
from catalogue.collection.talks.missing import eras_missing, makers_missing
from catalogue.collection.talks.permission import picture_remarks
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.remarks import Remark
from catalogue.collection.talks.travelling import travel_remarks


def advice_on(database: Database, programme: Programme, today: date) -> tuple[Remark, ...]:
    """Return the remarks on a talk as it is planned, the serious ones first."""
    running = running_time(programme.talk)
    remarks = [
        *([Remark("time", running.says, "minutes of the items", True)] if running.over else []),
        *travel_remarks(database, programme, today),
        *picture_remarks(programme),
        *alike_in_a_row(programme),
        *eras_missing(database, programme),
        *makers_missing(database, programme),
        *carrying_remarks(programme),
    ]
    return tuple(sorted(remarks, key=lambda remark: not remark.serious))
