"""Words of a text as the index knows them: case, accents, hyphens and possessives set aside."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from catalogue.collection.search.fulltext import porter_stem
from catalogue.collection.search.packing import place

_JOINS = "'\u2019\u00ad\u0300-\u036f"  # within a word: apostrophe, soft hyphen, accents
_WORD = re.compile(rf"[^\W_]+(?:[{_JOINS}]+[^\W_]+)*[\u0300-\u036f]*")
_HYPHENS = ("-", "\u2010", "\u2011")
_HYPHENATED = re.compile(rf"[^\W_][{''.join(_HYPHENS)}][^\W_]")
_POSSESSIVE = re.compile(r"['\u2019]s$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Word:
    """One word of a text: the term it is known by, and where it stands in the text."""

    term: str
    start: int
    end: int


def words(text: str) -> list[Word]:
    """Return the words of a text with their places, in order."""
    return [Word(fold(m.group()), m.start(), m.end()) for m in _WORD.finditer(text)]


def terms(text: str) -> list[str]:
    """Return the words of a text as terms, in order."""
    return [fold(word) for word in _WORD.findall(text)]


@lru_cache(maxsize=200_000)
def fold(word: str) -> str:
    """Return the term of a word: lower case, without accents, apostrophes and possessive."""
    decomposed = unicodedata.normalize("NFKD", _POSSESSIVE.sub("", word).casefold())
    return "".join(letter for letter in decomposed if letter.isalnum())


@lru_cache(maxsize=200_000)
def stem_of(term: str) -> str:
    """Return what a term shares with its other endings; a term with a figure in it has none."""
    return porter_stem(term) if term.isalpha() else term


def occurrences(texts: Mapping[str, str], fields: Sequence[str]) -> dict[str, list[int]]:
    """Return every term of a record's texts with its places (see `packing.place`)."""
    found: dict[str, list[int]] = {}
    for number, field in enumerate(fields):
        text = texts[field]
        for position, term in enumerate(terms(text)):
            found.setdefault(term, []).append(place(number, position))
        if _HYPHENATED.search(text):
            for position, term in _compounds(text):
                found.setdefault(term, []).append(place(number, position))
    return found


def _compounds(text: str) -> list[tuple[int, str]]:
    """Return hyphenated words written as one, so that feed-sack is found as feedsack too."""
    found = []
    listed = words(text)
    for position in range(1, len(listed)):
        joined, last = listed[position - 1].term, position
        while last < len(listed) and _hyphen_between(text, listed[last - 1], listed[last]):
            joined += listed[last].term
            found.append((last, joined))
            last += 1
    return found


def _hyphen_between(text: str, one: Word, other: Word) -> bool:
    return text[one.end : other.start] in _HYPHENS
