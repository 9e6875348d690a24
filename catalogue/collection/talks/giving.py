"""Keeping a talk as it was given, and copying one to be given again."""

from __future__ import annotations

import dataclasses
from functools import partial

from sqlite_utils import Database

from catalogue.collection.records import GivenItem, Talk, TalkGiven
from catalogue.collection.store import add, load, now, update
from catalogue.collection.talks.programme import Turn, programme_of


def keep_as_given(database: Database, talk: int, given: TalkGiven, by: str) -> Talk:
    """Keep the talk as it stands now, under the day, place and audience that `given` names.

    Raises NotFound. What is kept is words, so that no later change of a record touches it.
    """
    return update(database, Talk, talk, partial(_with_version, database, given, by), by=by)


def _with_version(database: Database, given: TalkGiven, by: str, talk: Talk) -> Talk:
    version = dataclasses.replace(
        given,
        title=talk.title,
        speaker=talk.speaker,
        notes=talk.notes,
        by=by,
        at=now(),
        items=tuple(_as_given(turn) for turn in programme_of(database, talk).turns),
    )
    return dataclasses.replace(talk, givings=(*talk.givings, version))


def _as_given(turn: Turn) -> GivenItem:
    return GivenItem(
        turn.kind,
        turn.title,
        "\n".join(turn.lines),
        turn.quilt.id if turn.quilt is not None else None,
        turn.item.minutes,
        turn.item.notes,
    )


def copy_talk(database: Database, talk: int, by: str) -> Talk:
    """Add a copy of a talk, to be given elsewhere: without day, place, audience and versions.

    Raises NotFound.
    """
    original = load(database, Talk, talk)
    copied = dataclasses.replace(
        original,
        title=f"{original.title} (copy)",
        on="",
        begins="",
        place="",
        audience="",
        published=False,
        items=tuple(dataclasses.replace(item, id=None) for item in original.items),
        givings=(),
        id=None,
        revision=0,
    )
    return add(database, copied, by)
