"""Designs that are named in what somebody asks, found by whole names alone."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from catalogue.patterns.naming import name_key
from catalogue.patterns.thesaurus import Design, designs

_MOST_WORDS = 6  # of one name


def designs_asked_for(words: Sequence[str]) -> tuple[Design, ...]:
    """Return the designs whose name stands in the words, each once; the longest names count."""
    found: dict[str, Design] = {}
    place = 0
    while place < len(words):
        length, named = _longest(words[place : place + _MOST_WORDS])
        found |= {each.slug: each for each in named}
        place += length
    return tuple(found.values())


def _longest(words: Sequence[str]) -> tuple[int, tuple[Design, ...]]:
    for length in range(len(words), 0, -1):
        named = _by_key().get(name_key(" ".join(words[:length])), ())
        if named:
            return length, named
    return 1, ()


@cache
def _by_key() -> dict[str, tuple[Design, ...]]:
    found: dict[str, tuple[Design, ...]] = {}
    for each in designs():
        for key in {name_key(name) for name in each.names}:
            found[key] = (*found.get(key, ()), each)
    return found
