"""Finding designs by name: a design has many names, and a name may belong to several designs."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import cache

from catalogue.patterns.thesaurus import Design, designs

# Below this likeness two names are no longer taken for misspellings of one another; chosen so that
# "Jakobs Lader" finds Jacob's Ladder and "Ohio Rose" does not find Ohio Star (a test holds both).
LEAST_LIKENESS = 0.8

_PASSED_OVER = frozenset({"the", "a", "an", "quilt", "block", "pattern"})


@dataclass(frozen=True)
class NameMatch:
    """One design that a written name may mean: the name it matched, how surely, and why."""

    design: Design
    name: str
    certainty: float
    grounds: str


def name_key(name: str) -> str:
    """What two spellings of one name share: case, accents, hyphens and possessives are set aside.

    "Bear's Paw", "bears-paw" and "The Bears' Paw" have one key; a remark in brackets is left out.
    """
    plain = unicodedata.normalize("NFKD", re.sub(r"\([^)]*\)", " ", name))
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter)).casefold()
    plain = re.sub(r"['’‘`]", "", plain.replace("&", " and "))
    words = [word for word in re.split(r"[^a-z0-9]+", plain) if word]
    kept = [word for word in words if word not in _PASSED_OVER] or words
    return " ".join(_singular(word) for word in kept)


def same_design(one: str, other: str) -> bool:
    """Whether two written names are spellings of one name, or names of one design."""
    keys = name_key(one), name_key(other)
    return keys[0] == keys[1] or bool(_holders(keys[0]) & _holders(keys[1]))


def find_names(text: str) -> tuple[NameMatch, ...]:
    """The designs that a written name may mean, surest first; empty where nothing is like it.

    An exact name is shared among the designs that bear it, so their certainties sum to at most 1;
    failing one, names that contain the words, then likely misspellings are offered.
    """
    key = name_key(text)
    if not key:
        return ()
    found = _exact(key) or _containing(key) or _alike(key)
    return tuple(sorted(found, key=lambda match: (-match.certainty, match.design.name)))


@cache
def _keys() -> tuple[tuple[str, str, Design], ...]:
    return tuple((name_key(name), name, each) for each in designs() for name in each.names)


def _holders(key: str) -> frozenset[str]:
    return frozenset(each.slug for held, _, each in _keys() if held == key)


def _exact(key: str) -> list[NameMatch]:
    hits = {each.slug: (name, each) for held, name, each in reversed(_keys()) if held == key}
    # The design that the trade calls so first of all weighs twice one that is also called so.
    weights = {slug: 2 if name == each.name else 1 for slug, (name, each) in hits.items()}
    total = sum(weights.values())
    return [
        NameMatch(each, name, weights[slug] / total, _grounds(name, each, len(hits)))
        for slug, (name, each) in hits.items()
    ]


def _grounds(name: str, each: Design, bearers: int) -> str:
    source = next((other.source for other in each.also_named if other.name == name), "")
    said = f"{name} is another name of {each.name} ({source})" if source else f"{name} is its name"
    return f"{said}; {bearers} designs bear it." if bearers > 1 else f"{said}."


def _containing(key: str) -> list[NameMatch]:
    words = set(key.split())
    best: dict[str, NameMatch] = {}
    for held, name, each in _keys():
        if words <= set(held.split()) and each.slug not in best:
            share = len(words) / len(held.split())
            grounds = f"The name {name} contains every word of it."
            best[each.slug] = NameMatch(each, name, 0.5 * share, grounds)
    return list(best.values())


def _alike(key: str) -> list[NameMatch]:
    best: dict[str, NameMatch] = {}
    for held, name, each in _keys():
        likeness = SequenceMatcher(None, key, held).ratio()
        known = best.get(each.slug)
        if likeness >= LEAST_LIKENESS and (known is None or likeness / 2 > known.certainty):
            grounds = f"It is spelt much like {name}."
            best[each.slug] = NameMatch(each, name, likeness / 2, grounds)
    return list(best.values())


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
