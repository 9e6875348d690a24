"""The pull list of a talk: what is fetched from where, and how it is handled."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from catalogue.collection.handling import takes_two
from catalogue.collection.records import Quilt, RelatedItem
from catalogue.collection.talks.programme import Programme, Turn

NOT_RECORDED = "place not recorded"


@dataclass(frozen=True)
class Pull:
    """One thing to fetch: its place, what it is, its number in the talk, how to handle it."""

    place: str
    title: str
    accession: str
    number: int | None
    handling: tuple[str, ...]


def pull_list(
    programme: Programme, stays: Mapping[int | None, tuple[str, ...]]
) -> tuple[Pull, ...]:
    """Return everything to fetch in the order of its place, each once: "roll 2" before "roll 10".

    `stays` says by quilt why it may not travel. What has no place on record comes last but for
    what is borrowed, which no shelf holds.
    """
    turns = reversed(programme.turns)  # of what comes twice, the first turn gives its number
    pulls = {_what(turn): pull for turn in turns for pull in _pulls(turn, stays)}
    return tuple(sorted(pulls.values(), key=_by_place))


def _what(turn: Turn) -> tuple[str, int | str | None]:
    return turn.kind, turn.subject.id if turn.subject is not None else turn.title


def _pulls(turn: Turn, stays: Mapping[int | None, tuple[str, ...]]) -> Iterator[Pull]:
    if isinstance(turn.subject, Quilt):
        places = turn.subject.locations
        place = places[-1].place if places else NOT_RECORDED
        two = ("two people",) if takes_two(turn.subject) else ()
        handling = (*two, *(f"stays: {reason}" for reason in stays.get(turn.subject.id, ())))
        yield Pull(place, turn.title, turn.subject.accession, turn.number, handling)
    elif isinstance(turn.subject, RelatedItem):
        yield Pull(turn.subject.kept or NOT_RECORDED, turn.title, "", turn.number, ())
    elif turn.kind == "borrowed quilt":
        yield Pull("borrowed", turn.title, "", turn.number, ())


def _by_place(pull: Pull) -> tuple[int, list[tuple[int, int, str]], int]:
    last = (pull.place == "borrowed") * 2 + (pull.place == NOT_RECORDED)
    parts = re.findall(r"\d+|\D+", pull.place.casefold())
    key = [(0, int(part), "") if part.isdigit() else (1, 0, part) for part in parts]
    return last, key, pull.number or 0
