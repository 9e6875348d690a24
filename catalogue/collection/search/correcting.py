"""The question somebody probably meant: words that no quilt holds, put right where they stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

import numpy as np

from catalogue.collection.search.matching import Matching
from catalogue.collection.search.questions import Part, Question
from catalogue.collection.search.words import Word, words

_TRIED, _KEPT = 60, 12  # words that are looked up for one that is misspelt, and of those held
_SHORTEST_HALF = 3  # letters, of a word taken apart


@dataclass(frozen=True)
class _Misspelt:
    """A word that no quilt holds: in which part, where in its text, and what it may be."""

    part: Part
    word: Word
    instead: tuple[str, ...]


def corrected(typed: str, question: Question, matching: Matching) -> str:
    """Return the typed question with misspelt words put right, empty where nothing can be.

    Only words are proposed that the person asking could have found; what finds something as a
    whole question goes first.
    """
    found = [
        _Misspelt(part, word, tuple(_instead(word.term, part.field, matching)))
        for part in question.wanted
        if not part.beginning
        for word in words(part.text)
        if not _held(word.term, part.field, matching)
    ]
    if not found or not all(each.instead for each in found):
        return ""
    most = max(len(each.instead) for each in found)
    choices = [[each.instead[min(n, len(each.instead) - 1)] for each in found] for n in range(most)]
    finding = (c for c in choices if _finds(_with_parts(question, found, c), matching))
    return _rewritten(typed, found, next(finding, choices[0]))


def _instead(term: str, field: str | None, matching: Matching) -> list[str]:
    """Return words like this one that some visible quilt holds, the likeliest first."""
    held = (
        (far, not alike, -count, word)
        for far, alike, word in matching.near(term)[:_TRIED]
        if (count := _held(word, field, matching))
    )
    found = [word for *_, word in sorted(islice(held, _KEPT))]
    return [*found[:3], *_taken_apart(term, field, matching)][:4]


def _taken_apart(term: str, field: str | None, matching: Matching) -> Iterator[str]:
    for cut in range(_SHORTEST_HALF, len(term) - _SHORTEST_HALF + 1):
        halves = term[:cut], term[cut:]
        if all(_held(half, field, matching) for half in halves):
            yield " ".join(halves)


def _held(term: str, field: str | None, matching: Matching) -> int:
    """Return how many visible quilts hold a word."""
    return int(np.count_nonzero(matching.part(Part(term, field))))


def _with_parts(question: Question, found: list[_Misspelt], chosen: list[str]) -> Question:
    texts: dict[int, str] = {}
    for each, word in zip(found, chosen, strict=True):
        text = texts.get(id(each.part), each.part.text)
        texts[id(each.part)] = text.replace(each.part.text[each.word.start : each.word.end], word)
    parts = tuple(replace(part, text=texts.get(id(part), part.text)) for part in question.parts)
    return replace(question, parts=parts)


def _finds(question: Question, matching: Matching) -> bool:
    return bool(matching.scores(question).any())


def _rewritten(typed: str, found: list[_Misspelt], chosen: list[str]) -> str:
    for each, word in reversed(list(zip(found, chosen, strict=True))):
        start = each.part.start + each.word.start
        typed = typed[:start] + word + typed[each.part.start + each.word.end :]
    return typed
