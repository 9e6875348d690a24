"""Which quilts are meant: named one by one, found by a search, or shown in an exhibit."""

from __future__ import annotations

from dataclasses import dataclass

from flask import abort
from werkzeug.datastructures import MultiDict

from catalogue.collection import settings
from catalogue.collection.records import Exhibit, ExhibitQuilt
from catalogue.collection.search.finding import find
from catalogue.printing.entries import Entry
from catalogue.web.addresses import wanted_from, whole_number
from catalogue.web.shared import database, index, is_member, quilts_in_view, reader, record_or_404

MOST = 400


@dataclass(frozen=True)
class Selection:
    """The quilts meant, as entries to print, and the exhibit they hang in, if any."""

    entries: tuple[Entry, ...]
    exhibit: Exhibit | None = None


def selected(arguments: MultiDict[str, str]) -> Selection:
    """Return the quilts an address means, as far as the person asking may see them."""
    exhibit_id = whole_number(arguments.get("exhibit"))
    if exhibit_id is not None:
        return _in_exhibit(exhibit_id)
    named = [whole_number(part) for part in arguments.get("quilts", "").split(",")]
    ids = tuple(dict.fromkeys(id for id in named if id is not None))[:MOST]
    if not ids and "find" in arguments:
        ids = _found(arguments)
    return Selection(_entries(ids, {}))


def _found(arguments: MultiDict[str, str]) -> tuple[int, ...]:
    found = find(
        database(),
        index(),
        wanted_from(arguments),
        reader=reader(),
        per_page=MOST,
    )
    return found.ids


def _in_exhibit(id: int) -> Selection:
    exhibit = record_or_404(Exhibit, id)
    if not exhibit.published and not is_member():
        abort(404)
    shown = {each.quilt: each for each in exhibit.quilts}
    return Selection(_entries(tuple(shown), shown), exhibit)


def _entries(ids: tuple[int, ...], shown: dict[int, ExhibitQuilt]) -> tuple[Entry, ...]:
    quilts, related = quilts_in_view(ids)
    house = settings.read(database())
    numbers = {id: str(place) for place, id in enumerate(shown, start=1)}
    return tuple(
        Entry(
            quilt,
            related,
            house,
            numbers.get(quilt.id or 0, ""),
            shown[quilt.id].label_text if quilt.id in shown else "",
        )
        for quilt in quilts
        if is_member() or quilt.published
    )
