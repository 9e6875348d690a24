"""What the sheets of a talk have in common: title, when and where, the paper."""

from __future__ import annotations

from datetime import date
from typing import Any

from catalogue.collection.records import Talk
from catalogue.collection.settings import Settings
from catalogue.collection.talks.clock import on_the_clock
from catalogue.exhibits.findings import written
from catalogue.printing.kinds import PAPERS


def sheet_job(talk: Talk, house: Settings, paper: str) -> dict[str, Any]:
    """Return what every template of a talk takes."""
    width, height = PAPERS[paper]
    return {
        "title": talk.title,
        "subtitle": when_and_where(talk),
        "house": house.name,
        "paper": {"width": width, "height": height},
    }


def when_and_where(talk: Talk) -> str:
    """Return day, time and place in one line, and a second for who speaks to whom."""
    on = written(date.fromisoformat(talk.on)) if talk.on else ""
    begins = on_the_clock(talk.begins, 0) if talk.begins else ""
    first = ", ".join(part for part in (on, begins, talk.place) if part)
    audience = f"for {talk.audience}" if talk.audience else ""
    second = ", ".join(part for part in (talk.speaker, audience) if part)
    return "\n".join(line for line in (first, second) if line)
