"""The order of a talk's items, changed by a step or by writing numbers."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from catalogue.collection.records import Talk, TalkItem


def moved(talk: Talk, item: int, steps: int) -> Talk:
    """Return the talk with one item so many places later, or earlier where negative.

    It goes no further than the ends; an item that is not there moves nothing.
    """
    ids = [each.id for each in talk.items]
    if item not in ids:
        return talk
    items, place = list(talk.items), ids.index(item)
    taken = items.pop(place)
    items.insert(max(0, place + steps), taken)
    return dataclasses.replace(talk, items=tuple(items))


def numbered(talk: Talk, wanted: Mapping[int, int]) -> Talk:
    """Return the talk with its items at the places written beside them, counted from 1.

    Of two items at one place, the one that was moved there stands where it was sent: before the
    other where it came from further down, after it where it came from further up.
    """
    ordered = sorted(
        enumerate(talk.items, start=1), key=lambda each: _place(each[1], each[0], wanted)
    )
    return dataclasses.replace(talk, items=tuple(item for _, item in ordered))


def _place(item: TalkItem, now: int, wanted: Mapping[int, int]) -> tuple[int, int, int]:
    place = wanted.get(item.id, now) if item.id is not None else now
    return place, (place > now) - (place < now), now
