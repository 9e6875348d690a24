"""A talk, its items in order, and the versions that were given."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class TalkItem:
    """One item of a talk: a record, or in words a borrowed quilt or a heading.

    At most one of the five ids is filled in, and `words` only where none is; `notes` is Markdown.
    """

    words: str = ""
    borrowed: bool = False
    quilt: int | None = None
    pattern: int | None = None
    publication: int | None = None
    related_item: int | None = None
    party: int | None = None
    minutes: int | None = None
    notes: str = ""
    id: int | None = None


@dataclass(frozen=True)
class GivenItem:
    """An item of a talk as it stood when the talk was given, in words that no longer change."""

    kind: str
    title: str
    lines: str = ""
    quilt: int | None = None
    minutes: int | None = None
    notes: str = ""
    id: int | None = None


@dataclass(frozen=True)
class TalkGiven:
    """A talk as it was given, once: when, where, to whom, and everything that was in it."""

    title: str
    on: str
    place: str = ""
    audience: str = ""
    speaker: str = ""
    notes: str = ""
    by: str = ""
    at: str = ""
    items: tuple[GivenItem, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class Talk:
    """A talk: what is told with which quilts, in which order, in how many minutes.

    `on` is an ISO date and `begins` a time of day such as 14:30, both empty until set; `notes` and
    `further_reading` are Markdown. A talk that was given keeps its version as given.
    """

    title: str
    on: str = ""
    begins: str = ""
    place: str = ""
    audience: str = ""
    speaker: str = ""
    minutes: int | None = None
    notes: str = ""
    further_reading: str = ""
    published: bool = False
    items: tuple[TalkItem, ...] = ()
    givings: tuple[TalkGiven, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0
