"""Plain colours: what a cataloguer's words for a cloth's colours come to, for counting."""

from __future__ import annotations

import csv
from functools import cache, lru_cache
from pathlib import Path

from catalogue.collection.search.words import stem_of, terms
from catalogue.photographs.colours import plain_by_name

_MOST_WORDS = 3  # of one colour's name


@lru_cache(maxsize=20_000)
def plain_colours(text: str) -> frozenset[str]:
    """Return the plain colours that a text names, the longest name at each place counting.

    So "madder browns" is brown, and "madder and Turkey red prints" red. What the table does not
    know is no colour: it is found by its words.
    """
    stems = tuple(map(stem_of, terms(text)))
    found = set()
    place = 0
    while place < len(stems):
        lengths = range(min(_MOST_WORDS, len(stems) - place), 0, -1)
        names = (stems[place : place + length] for length in lengths)
        name = next((name for name in names if name in _table()), None)
        if name is not None:
            found.add(_table()[name])
        place += len(name or ("",))
    return frozenset(found)


@cache
def _table() -> dict[tuple[str, ...], str]:
    """Return plain colours by stems of names: those of photographs, and what people write."""
    with Path(__file__).with_name("colours.csv").open(encoding="utf-8", newline="") as lines:
        written = {row["name"]: row["plain"] for row in csv.DictReader(lines)}
    named = plain_by_name() | written
    return {tuple(map(stem_of, terms(name))): plain for name, plain in named.items()}
