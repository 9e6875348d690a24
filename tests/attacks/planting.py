"""Records of every kind with a word of the attacker's, or of the donor's, in every field of text.

The fields are read from the records themselves, so that one added later is planted too.
"""

from __future__ import annotations

import dataclasses
import io
import json
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from PIL import Image

from catalogue.collection import records
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import (
    Exhibit,
    Party,
    Pattern,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
)
from catalogue.collection.store import add
from catalogue.collection.tables import fields_of
from catalogue.collection.vocabulary import CLOSED
from catalogue.dating.clues import clue_table
from catalogue.values.dates import HistoricDate, read_date

# The text that a field of a kind of record is to hold; None leaves it as it would be.
Words = Callable[[str, str], str | None]

# Text that is not free: a day, a code, numbers in words; by field, or by kind and field.
_FORMED: Mapping[str, str] = {
    "put_away": "",
    **dict.fromkeys(("on", "since", "at", "out_on", "back_on"), "2020-05-14"),
    **{"begins": "2020-05-01", "ends": "2020-05-31", "Talk.begins": "14:30"},
    **dict.fromkeys(("begins_earliest", "begins_latest"), "1940-01-01"),
    **dict.fromkeys(("ends_earliest", "ends_latest"), "1950-12-31"),
    **{"sides": "left,right", "doubtful": "", "dark_days": "0,6", "length_unit": "in"},
    **{"design": "", "Reading.written": "12 1/2", "GivenItem.kind": "quilt"},
    **{"ExhibitWall.name": "North", "ExhibitQuilt.wall": "North"},
    **{"LayoutDecision.layout": json.dumps({}), "LayoutDecision.readings": json.dumps([])},
    **{"OwnershipPeriod.method": "gift to", "OwnershipPeriod.dates": "1940 until 1950"},
    "PhaseClue.clue": next(iter(clue_table())),
}
_LENGTHS = {"length": Fraction(300), "height": Fraction(120), "inches": Fraction(25, 2)}


def picture(colour: tuple[int, int, int] = (150, 40, 40), **saved: Any) -> bytes:
    """Return a small photograph as a file."""
    buffer = io.BytesIO()
    Image.new("RGB", (120, 100), colour).save(buffer, saved.pop("format", "JPEG"), **saved)
    return buffer.getvalue()


def record_with(kind: type[Any], words: Words, given: Mapping[str, Any] | None = None) -> Any:
    """Return a record of a kind, one row of everything that has rows, with words in all its text.

    `given` holds the values of fields by name, at whatever depth: ids, above all.
    """
    given = given or {}
    values = {}
    for field in fields_of(kind):
        place = f"{kind.__name__}.{field.name}"
        if field.name in ("id", "revision"):
            continue
        if place in given or field.name in given:
            values[field.name] = given.get(place, given.get(field.name))
        elif field.rows is not None:
            values[field.name] = (record_with(field.rows, words, given),)
        else:
            values |= _value(kind, field.name, field.holds, words)
    return kind(**values)


def _value(kind: type[Any], name: str, holds: Any, words: Words) -> dict[str, Any]:
    place = f"{kind.__name__}.{name}"
    closed = CLOSED.get(kind.__name__, {}).get(name)
    if closed:
        return {name: next(word for word in closed if word)}
    if place in _FORMED or name in _FORMED:
        return {name: _FORMED.get(place, _FORMED.get(name))}
    if holds is str:
        word = words(kind.__name__, name)
        return {} if word is None else {name: word}
    if holds is HistoricDate or "HistoricDate" in str(holds):
        return {name: read_date("1931")}
    if "Fraction" in str(holds):
        return {name: _LENGTHS.get(name, Fraction(10))}
    return {}


@dataclasses.dataclass(frozen=True)
class Planted:
    """The ids of the records planted, by what the addresses call them."""

    quilt: int
    person: int
    pattern: int
    publication: int
    related: int
    exhibit: int
    talk: int


def plant(
    collection: Collection, words: Words, *, published: bool = True, living: bool = False
) -> Planted:
    """Add one record of every kind, tied to the others wherever records can be, and say which."""
    database = collection.database

    def added(kind: type[Any], **given: Any) -> Any:
        none = {"merged_into": None, "counted": None, "paragraph_revision": None}
        return add(database, record_with(kind, words, none | given), "Tess")

    photograph = dataclasses.replace(
        keep(collection, picture()),
        **{
            each.name: words("Photograph", each.name) or ""
            for each in dataclasses.fields(records.Photograph)
            if each.name in ("caption", "alternative_text", "photographer", "rights")
        },
    )
    shown = {"photographs": (photograph,), "published": published}
    relative = added(Party, ties=(), living=living).id
    party = added(Party, relative=relative, living=living).id
    publication = added(Publication).id
    pattern = added(Pattern, publication=publication)
    quilt = added(
        Quilt,
        **shown,
        party=party,
        person=party,
        donor=party,
        pattern=pattern.id,
        printing=pattern.printings[0].id,
        accession=f"1987.4.{1 + database.execute('SELECT count(*) FROM quilt').fetchone()[0]}",
        decisions=(),
        setting_seen="straight",
        **{"OwnershipPeriod.party": words("OwnershipPeriod", "party") or "Somebody"},
    ).id
    related = added(
        RelatedItem,
        **shown,
        links=tuple(
            records.Link(**{name: id}, note=words("Link", "note") or "")
            for name, id in {
                **{"quilt": quilt, "pattern": pattern.id},
                **{"publication": publication, "party": party},
            }.items()
        ),
    ).id
    exhibit = added(Exhibit, **shown, quilt=quilt, hours_a_day=8.0, lux=50.0, ultraviolet=10.0).id
    items = (
        *(records.TalkItem(quilt=quilt, notes=words("TalkItem", "notes") or ""),),
        *(records.TalkItem(pattern=pattern.id), records.TalkItem(publication=publication)),
        *(records.TalkItem(related_item=related), records.TalkItem(party=party)),
        records.TalkItem(words=words("TalkItem", "words") or "Borrowed", borrowed=True),
    )
    talk = added(Talk, published=published, quilt=quilt, minutes=30, **{"Talk.items": items}).id
    return Planted(quilt, party, pattern.id, publication, related, exhibit, talk)
