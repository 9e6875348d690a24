"""The slides of a talk: one for each item, a first one, and a last one with the picture credits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from catalogue.collection.records import Pattern, Photograph, Talk
from catalogue.collection.talks.permission import credit_of, picture_to_show
from catalogue.collection.talks.programme import Programme, Turn
from catalogue.collection.talks.remarks import named
from catalogue.exhibits.findings import written

_CREDITS_ON_A_SLIDE = 900  # characters, in type that the third row reads
_TITLES_IN_A_LINE = 6

Look = Literal["opening", "heading", "pictured", "drawn", "told", "credits"]


@dataclass(frozen=True)
class Slide:
    """One slide: words, and at most one picture that may be shown or one drawing of a design."""

    look: Look
    title: str
    lines: tuple[str, ...] = ()
    turn: Turn | None = None
    photograph: Photograph | None = None
    credit: str = ""
    design: str = ""


def slides_of(programme: Programme) -> tuple[Slide, ...]:
    """Return the slides in their order; notes are on none of them."""
    shown = tuple(_slide(turn) for turn in programme.turns)
    credits = tuple(Slide("credits", "Pictures", lines) for lines in _credit_pages(shown))
    return (_opening(programme.talk), *shown, *credits)


def _opening(talk: Talk) -> Slide:
    on = written(date.fromisoformat(talk.on)) if talk.on else ""
    lines = tuple(line for line in (talk.speaker, talk.place, on) if line)
    return Slide("opening", talk.title, lines)


def _slide(turn: Turn) -> Slide:
    photograph = picture_to_show(turn)
    if turn.kind == "heading":
        return Slide("heading", turn.title, turn=turn)
    if photograph is not None:
        return Slide("pictured", turn.title, turn.lines, turn, photograph, credit_of(photograph))
    if isinstance(turn.subject, Pattern) and turn.subject.design:
        return Slide("drawn", turn.title, turn.lines, turn, design=turn.subject.design)
    return Slide("told", turn.title, turn.lines, turn)


def _credit_pages(slides: tuple[Slide, ...]) -> Iterator[tuple[str, ...]]:
    """Yield the credits, as many to a slide as can be read there."""
    page: list[str] = []
    for line in _credit_lines(slides):
        if page and len(line) + sum(map(len, page)) > _CREDITS_ON_A_SLIDE:
            yield tuple(page)
            page = []
        page.append(line)
    if page:
        yield tuple(page)


def _credit_lines(slides: tuple[Slide, ...]) -> Iterator[str]:
    """Yield each credit with the titles it is for, a few to a line."""
    titles: dict[str, list[str]] = {}
    for slide in slides:
        if slide.credit:
            titles.setdefault(slide.credit, []).append(slide.title)
    for credit, of in titles.items():
        different = list(dict.fromkeys(of))
        for first in range(0, len(different), _TITLES_IN_A_LINE):
            yield f"{named(different[first : first + _TITLES_IN_A_LINE])}: {credit}"
