"""Extracts of a record's text around the words that were looked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.collection.search.fulltext import Word, words
from catalogue.collection.search.questions import Question

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


def extracts(text: dict[str, str], question: Question, most: int = 2) -> tuple[Extract, ...]:
    """Return the extracts with the most different words of the question, at most `most`."""
    sought = _Sought(question)
    candidates = []
    for order, (field, content) in enumerate(text.items()):
        found = words(content)
        hits = [i for i, word in enumerate(found) if sought.has(word.term, field)]
        if hits:
            first, last, different = _best_window(found, hits)
            candidates.append((-different, order, field, content, found[first : last + 1]))
    candidates.sort(key=lambda each: each[:2])
    return tuple(
        Extract(field, tuple(_pieces(content, [(w, sought.has(w.term, field)) for w in window])))
        for _, _, field, content, window in candidates[:most]
    )


class _Sought:
    """The terms a question looks for, in any field or in one."""

    def __init__(self, question: Question) -> None:
        self._whole: dict[str | None, set[str]] = {}
        self._beginnings: dict[str | None, tuple[str, ...]] = {}
        for part in question.parts:
            if part.excluded:
                continue
            terms = [word.term for word in words(part.text)]
            if part.beginning and len(terms) == 1:
                self._beginnings[part.field] = (*self._beginnings.get(part.field, ()), terms[0])
            else:
                self._whole.setdefault(part.field, set()).update(terms)

    def has(self, term: str, field: str) -> bool:
        return any(
            term in self._whole.get(asked, ()) or term.startswith(self._beginnings.get(asked, ()))
            for asked in (None, field)
            if asked in self._whole or asked in self._beginnings
        )


def _best_window(found: list[Word], hits: list[int]) -> tuple[int, int, int]:
    """Return first and last word of the window with the most different hits, and their number."""
    best = (0, 0, 0)
    for hit in hits:
        first, last = max(0, hit - _AROUND), min(len(found) - 1, hit + 2 * _AROUND)
        different = len({found[i].term for i in hits if first <= i <= last})
        if different > best[2]:
            best = (first, last, different)
    return best


def _pieces(content: str, window: list[tuple[Word, bool]]) -> Iterator[Piece]:
    """Yield the text of a window of words, cut at each hit, with dots where text goes on."""
    start, end = window[0][0].start, window[-1][0].end
    if start > 0:
        yield Piece("\N{HORIZONTAL ELLIPSIS} ", hit=False)
    place = start
    for word, is_hit in window:
        if is_hit:
            if word.start > place:
                yield Piece(content[place : word.start], hit=False)
            yield Piece(content[word.start : word.end], hit=True)
            place = word.end
    rest = content[place:end] + (" \N{HORIZONTAL ELLIPSIS}" if end < len(content) else "")
    if rest:
        yield Piece(rest, hit=False)
