"""Extracts of a record's text around the words that were looked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.privacy import Reader
from catalogue.collection.search.held import held_texts
from catalogue.collection.search.questions import Part, Question
from catalogue.collection.search.searchable import fields_seen
from catalogue.collection.search.words import Word, stem_of, terms, words

_AROUND = 9  # words of context on each side of a hit


@dataclass(frozen=True)
class Piece:
    """A piece of an extract; `hit` where it is a word that was looked for."""

    text: str
    hit: bool


@dataclass(frozen=True)
class Extract:
    """A few words of one field, with the hits in it."""

    field: str
    pieces: tuple[Piece, ...]


def extracts_of(
    database: Database, ids: Iterable[int], question: Question, *, reader: Reader
) -> dict[int, tuple[Extract, ...]]:
    """Return by quilt the extracts around the words asked for, of what the reader may see."""
    if not question:
        return {}
    seen = fields_seen(reader)
    return {
        id: extracts(
            [*texts.public.items(), *(each for each in texts.members.items() if each[0] in seen)],
            question,
        )
        for id, texts in held_texts(database, ids).items()
    }


def extracts(
    text: Mapping[str, str] | Iterable[tuple[str, str]], question: Question, most: int = 2
) -> tuple[Extract, ...]:
    """Return the extracts with the most different words of the question, at most `most`."""
    sought = _Sought(question)
    candidates = []
    for order, (field, content) in enumerate(text.items() if isinstance(text, Mapping) else text):
        found = terms(content)
        wanted = sought.among(set(found), field)
        if wanted:
            hits = [place for place, term in enumerate(found) if term in wanted]
            first, last, different = _best_window(found, hits)
            candidates.append((-different, order, field, content, wanted, first, last))
    candidates.sort(key=lambda each: each[:2])
    return tuple(
        Extract(field, tuple(_pieces(content, words(content)[first : last + 1], wanted)))
        for _, _, field, content, wanted, first, last in candidates[:most]
    )


class _Sought:
    """The words a question looks for, in any field or in one."""

    def __init__(self, question: Question) -> None:
        self._stems: dict[str | None, set[str]] = {None: set()}
        self._beginnings: dict[str | None, tuple[str, ...]] = {None: ()}
        spans = (Part(span.words) for span in question.spans if span.words and not span.excluded)
        for part in (*question.wanted, *spans):
            found = terms(part.text)
            if part.beginning and len(found) == 1:
                self._beginnings[part.field] = (*self._beginnings.get(part.field, ()), found[0])
            else:
                self._stems.setdefault(part.field, set()).update(map(stem_of, found))

    def among(self, found: Iterable[str], field: str) -> set[str]:
        """Return those of the terms of a field that are looked for."""
        stems = self._stems[None] | self._stems.get(field, set())
        beginnings = self._beginnings[None] + self._beginnings.get(field, ())
        return {term for term in found if stem_of(term) in stems or term.startswith(beginnings)}


def _best_window(found: list[str], hits: list[int]) -> tuple[int, int, int]:
    """Return first and last word of the window with the most different hits, and their number."""
    best = (0, 0, 0)
    for hit in hits:
        first, last = max(0, hit - _AROUND), min(len(found) - 1, hit + 2 * _AROUND)
        different = len({found[place] for place in hits if first <= place <= last})
        if different > best[2]:
            best = (first, last, different)
    return best


def _pieces(content: str, window: list[Word], wanted: set[str]) -> Iterator[Piece]:
    """Yield the text of a window of words, cut at each hit, with dots where text goes on."""
    start, end = window[0].start, window[-1].end
    if start > 0:
        yield Piece("\N{HORIZONTAL ELLIPSIS} ", hit=False)
    place = start
    for word in window:
        if word.term in wanted:
            if word.start > place:
                yield Piece(content[place : word.start], hit=False)
            yield Piece(content[word.start : word.end], hit=True)
            place = word.end
    rest = content[place:end] + (" \N{HORIZONTAL ELLIPSIS}" if end < len(content) else "")
    if rest:
        yield Piece(rest, hit=False)
