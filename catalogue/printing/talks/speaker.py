"""The speaker's sheet: large type, a strip for each item, what the clock says when it begins."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from catalogue.collection.folder import Collection
from catalogue.collection.handling import takes_two
from catalogue.collection.settings import Settings
from catalogue.collection.summary import chief_photograph
from catalogue.collection.talks.clock import on_the_clock, running_time
from catalogue.collection.talks.programme import Programme, Turn
from catalogue.collection.talks.travelling import why_staying
from catalogue.printing.blocks import blocks_of
from catalogue.printing.pictures import Pictures
from catalogue.printing.talks.sheets import sheet_job
from catalogue.printing.typeset import typeset


def print_speaker(
    collection: Collection, programme: Programme, house: Settings, paper: str
) -> bytes:
    """Return the speaker's sheet as PDF. Raises TypesettingError."""
    pictures = Pictures(collection)
    talk = programme.talk
    running = running_time(talk)
    stays = why_staying(collection.database, programme, date.today())
    job = sheet_job(talk, house, paper) | {
        "says": running.says,
        "ends": on_the_clock(talk.begins, running.total),
        "notes": blocks_of(talk.notes),
        "strips": [
            _strip(turn, talk.begins, pictures) | {"warnings": list(_warnings(turn, stays))}
            for turn in programme.turns
        ],
    }
    return typeset("talk_speaker.typ", job, pictures.files, "pdf")


def _strip(turn: Turn, begins: str, pictures: Pictures) -> dict[str, Any]:
    """Return one strip; its small picture is for the speaker alone, whoever holds the rights."""
    photograph = chief_photograph(turn.quilt) if turn.quilt is not None else None
    return {
        "kind": turn.kind,
        "number": turn.number,
        "clock": on_the_clock(begins, turn.begins),
        "minutes": turn.item.minutes,
        "title": turn.title,
        "lines": list(turn.lines),
        "notes": blocks_of(turn.item.notes),
        **pictures.photograph(photograph, "list", turn.title),
    }


def _warnings(turn: Turn, stays: dict[int | None, tuple[str, ...]]) -> Iterator[str]:
    if turn.quilt is None:
        return
    if stays[turn.quilt.id]:
        yield f"Stays where it is: {'; '.join(stays[turn.quilt.id])}."
    elif takes_two(turn.quilt):
        yield "Two people hold it."
