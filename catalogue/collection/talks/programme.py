"""The programme of a talk: each item in its turn, the record it is about and when it begins."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from catalogue.collection.privacy import Reader, item_for, party_for, quilt_for, related_for
from catalogue.collection.records import (
    Party,
    Pattern,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
    TalkItem,
)
from catalogue.collection.related import Related, related_to
from catalogue.collection.store import load_many
from catalogue.collection.talks.wording import lines_of, title_of
from catalogue.collection.used import makers_in_use

Subject = Quilt | Pattern | Publication | RelatedItem | Party

KEEPER = Reader("keeper")

# What an item can be about: the field that names it, the record, and what the page calls it.
SUBJECTS: dict[str, tuple[type[Any], str]] = {
    "quilt": (Quilt, "quilt"),
    "pattern": (Pattern, "pattern"),
    "publication": (Publication, "publication"),
    "related_item": (RelatedItem, "related material"),
    "party": (Party, "person"),
}


@dataclass(frozen=True)
class Turn:
    """One item in its turn: `begins` counts minutes from the start of the talk.

    `number` counts what is shown or spoken of, and is None for a heading.
    """

    item: TalkItem
    kind: str
    title: str
    lines: tuple[str, ...]
    subject: Subject | None
    begins: int
    number: int | None = None

    @property
    def quilt(self) -> Quilt | None:
        """The quilt of the collection that is shown, if it is one."""
        return self.subject if isinstance(self.subject, Quilt) else None


@dataclass(frozen=True)
class Programme:
    """A talk with its items in their turn, and what its quilts and patterns refer to."""

    talk: Talk
    turns: tuple[Turn, ...]
    related: Related

    @property
    def quilts(self) -> tuple[Quilt, ...]:
        """The quilts of the collection that are shown, in their order."""
        return tuple(turn.quilt for turn in self.turns if turn.quilt is not None)


def kind_of(item: TalkItem) -> str:
    """Return what an item is, in the words of the vocabulary."""
    for name, (_, words) in SUBJECTS.items():
        if getattr(item, name) is not None:
            return words
    return "borrowed quilt" if item.borrowed else "heading"


def programme_of(database: Database, talk: Talk, reader: Reader = KEEPER) -> Programme:
    """Return the programme of a talk as its reader may see it.

    Visitors see what is published of it, and no notes.
    """
    found = {
        name: load_many(database, kind, _ids(talk.items, name))
        for name, (kind, _) in SUBJECTS.items()
    }
    related = _related(database, found)
    if reader.is_visitor:
        found, talk = _published(database, found), talk_for_visitors(talk)
    seen = _as_seen(found, related, reader)
    by_id = {(name, each.id): each for name, records in seen.items() for each in records}
    related = related_for(reader, related)
    return Programme(talk, _turns(talk, by_id, related), related)


def talk_for_visitors(talk: Talk) -> Talk:
    """Return the talk without the speaker's notes and the versions that were given."""
    items = tuple(dataclasses.replace(item, notes="") for item in talk.items)
    return dataclasses.replace(talk, notes="", items=items, givings=())


def _ids(items: Iterable[TalkItem], name: str) -> list[int]:
    return list(dict.fromkeys(id for item in items if (id := getattr(item, name)) is not None))


def _turns(
    talk: Talk, by_id: dict[tuple[str, int | None], Subject], related: Related
) -> tuple[Turn, ...]:
    turns: list[Turn] = []
    begins = number = 0
    for item in talk.items:
        name = next((name for name in SUBJECTS if getattr(item, name) is not None), None)
        subject = by_id.get((name, getattr(item, name))) if name is not None else None
        if name is not None and subject is None:
            continue  # it is not shown to whoever asks
        kind = kind_of(item)
        number += kind != "heading"
        turns.append(
            Turn(
                item,
                kind,
                title_of(subject) if subject is not None else item.words,
                lines_of(subject, related) if subject is not None else (),
                subject,
                begins,
                number if kind != "heading" else None,
            )
        )
        begins += item.minutes or 0
    return tuple(turns)


def _related(database: Database, found: dict[str, list[Any]]) -> Related:
    """Return what the quilts and the patterns of a talk refer to."""
    of_quilts = related_to(database, found["quilt"])
    patterns = {pattern.id: pattern for pattern in found["pattern"]}
    ids = {printing.publication for pattern in patterns.values() for printing in pattern.printings}
    publications = load_many(database, Publication, sorted(ids))
    return Related(
        of_quilts.parties,
        of_quilts.patterns | patterns,
        of_quilts.publications
        | {each.id: each for each in (*publications, *found["publication"]) if each.id},
    )


def _published(database: Database, found: dict[str, list[Any]]) -> dict[str, list[Any]]:
    """Return of each kind what is published; of people, the makers of what is."""
    makers = {use.id for use in makers_in_use(database, published_only=True)}
    return found | {
        "quilt": [quilt for quilt in found["quilt"] if quilt.published],
        "related_item": [item for item in found["related_item"] if item.published],
        "party": [party for party in found["party"] if party.id in makers],
    }


def _as_seen(found: dict[str, list[Any]], related: Related, reader: Reader) -> dict[str, list[Any]]:
    """Return the records without the fields that the reader does not see."""
    return found | {
        "quilt": [quilt_for(reader, quilt, related) for quilt in found["quilt"]],
        "related_item": [item_for(reader, item) for item in found["related_item"]],
        "party": [party_for(reader, party) for party in found["party"]],
    }
