"""The handout: what was shown, with pictures and tombstone text, sources and further reading."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import VISITOR, related_for
from catalogue.collection.records import Pattern, Quilt
from catalogue.collection.related import Related
from catalogue.collection.settings import Settings
from catalogue.collection.talks.permission import credit_of, picture_to_show
from catalogue.collection.talks.programme import Programme, Turn
from catalogue.collection.talks.sources import sources_of
from catalogue.printing.blocks import blocks_of
from catalogue.printing.labels import tombstone_lines
from catalogue.printing.pictures import Pictures
from catalogue.printing.talks.sheets import sheet_job
from catalogue.printing.typeset import typeset


def print_handout(
    collection: Collection, programme: Programme, house: Settings, paper: str
) -> bytes:
    """Return the handout as PDF; it holds no notes of the speaker. Raises TypesettingError."""
    pictures = Pictures(collection)
    job = sheet_job(programme.talk, house, paper) | {
        "items": [_item(turn, programme.related, pictures) for turn in programme.turns],
        "sources": list(sources_of(programme)),
        "reading": blocks_of(programme.talk.further_reading),
    }
    return typeset("talk_handout.typ", job, pictures.files, "pdf")


def _item(turn: Turn, related: Related, pictures: Pictures) -> dict[str, Any]:
    photograph = picture_to_show(turn)
    item = {
        "kind": turn.kind,
        "title": turn.title,
        "lines": list(_lines(turn, related)),
        "credit": credit_of(photograph) if photograph is not None else "",
        "drawing": None,
        "drawing_alt": "",
        **pictures.photograph(photograph, "page", turn.title),
    }
    if isinstance(turn.subject, Pattern) and turn.subject.design:
        item |= pictures.design(turn.subject.design)
    return item


def _lines(turn: Turn, related: Related) -> Iterable[str]:
    """Return the tombstone text of a quilt, and of anything else the lines below its title.

    A handout leaves the house: of the living it says what any visitor may know.
    """
    if isinstance(turn.subject, Quilt):
        lines = tombstone_lines(turn.subject, related_for(VISITOR, related))
        return [line.text for line in lines if line.kind not in ("title", "picture")]
    if turn.kind == "borrowed quilt":
        return ["borrowed"]
    return [", ".join(turn.lines)]
