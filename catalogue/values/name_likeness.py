"""Whether two names may be one person's: keys to find candidates by, and a judgement with grounds.

The weights are this project's own judgement, no source; a person decides, nothing is merged here.
"""

from __future__ import annotations

from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import product
from math import prod

from catalogue.values.life_dates import LifeDates
from catalogue.values.names import PersonName, fold, given_name_roots

__all__ = ["NameLikeness", "compare_people", "name_keys", "sound_of"]

# The code of each letter: the Soundex rules of the United States National Archives.
_CODES = {
    letter: code
    for code, letters in enumerate(("bfpv", "cgjkqsxz", "dt", "l", "mn", "r"), start=1)
    for letter in letters
}
_NEARLY_SAME = 0.86  # Thornbury / Thornberry; our own judgement


@dataclass(frozen=True)
class NameLikeness:
    """How likely two records are one person, from 0 to 1, and one sentence a ground."""

    likelihood: float
    grounds: tuple[str, ...]


def sound_of(surname: str) -> str:
    """Return the letter and three figures under which the sound of a surname is filed.

    Source: Soundex Indexing System, United States National Archives and Records Administration.
    """
    letters = [sign for sign in fold(surname).replace(" ", "") if "a" <= sign <= "z"]
    if not letters:
        return ""
    figures: list[str] = []
    last = _CODES.get(letters[0])
    for letter in letters[1:]:
        code = _CODES.get(letter)
        if code and code != last:
            figures.append(str(code))
        if letter not in "hw":  # these two do not part letters of one code
            last = code
    return (letters[0].upper() + "".join(figures) + "000")[:4]


def name_keys(name: PersonName) -> frozenset[str]:
    """Return the keys under which one person's differently written names meet at least once.

    Each joins the sound of a surname (present, at birth, each half of a hyphenated one) with the
    initial of the given name or of a name it is short for.
    """
    initials = {root[0] for root in _possible_given(name)} or {"?"}
    sounds = {sound_of(surname) for surname in _surnames(name)} - {""}
    return frozenset(f"{sound}-{initial}" for sound, initial in product(sounds, initials))


def _possible_given(name: PersonName) -> set[str]:
    forms = [form for form in (name.given, name.nickname) if fold(form)]
    return {root for form in forms for root in (*given_name_roots(form), fold(form)) if root}


def _surnames(name: PersonName) -> set[str]:
    whole = [name.surname, name.birth_surname]
    halves = [half for surname in whole if "-" in surname for half in surname.split("-")]
    return {fold(surname) for surname in (*whole, *halves)} - {""}


def compare_people(
    one: PersonName,
    other: PersonName,
    life: LifeDates | None = None,
    other_life: LifeDates | None = None,
) -> NameLikeness:
    """Return how likely the two are one person, with the grounds for and against in words."""
    surname, surname_ground = _compare_surnames(one, other)
    given, given_ground = _compare_given(one, other)
    years, years_ground = _compare_lives(life or LifeDates(), other_life or LifeDates())
    suffix, suffix_ground = _compare_suffixes(one, other)
    grounds = (surname_ground, given_ground, years_ground, suffix_ground)
    likelihood = min(0.99, surname * given * years * suffix)
    return NameLikeness(round(likelihood, 3), tuple(ground for ground in grounds if ground))


def _compare_surnames(one: PersonName, other: PersonName) -> tuple[float, str]:
    first, second = _surnames(one), _surnames(other)
    if not first or not second:
        return 0.3, "One of the two has no surname."
    shared = first & second
    if shared and fold(one.surname) == fold(other.surname):
        return 0.9, f"Both are called {one.surname}."
    if shared:
        return 0.8, f"The surname {sorted(shared)[0].title()} of one is among the other's."
    nearest = max(SequenceMatcher(None, a, b).ratio() for a, b in product(first, second))
    if nearest >= _NEARLY_SAME:
        return 0.7, f"{one.surname} and {other.surname} are spelt almost alike."
    if {sound_of(surname) for surname in first} & {sound_of(surname) for surname in second}:
        return 0.5, f"{one.surname} and {other.surname} sound alike."
    return 0.05, f"The surnames {one.surname} and {other.surname} differ."


def _compare_given(one: PersonName, other: PersonName) -> tuple[float, str]:
    if one.may_be_husbands != other.may_be_husbands and fold(one.given) != fold(other.given):
        return 0.35, 'The given name after "Mrs." may be her husband\'s.'
    first, second = fold(one.given).split(), fold(other.given).split()
    if not first or not second:
        return 0.4, "One of the two has no given name."
    if first == second:
        return 1.0, f"Both have the given name {one.given}."
    if _initials_agree(first, second):
        return 0.8, f"{one.given} agrees with {other.given} as far as both are written."
    if _possible_given(one) & _possible_given(other):
        return 0.75, f"{one.given} and {other.given} can be forms of one name."
    if SequenceMatcher(None, first[0], second[0]).ratio() >= _NEARLY_SAME:
        return 0.7, f"{one.given} and {other.given} are spelt almost alike."
    return 0.08, f"The given names {one.given} and {other.given} differ."


def _initials_agree(first: list[str], second: list[str]) -> bool:
    """True where each name equals, or is the initial of, the name in the same place."""
    pairs = zip(first, second, strict=False)
    return all(a == b or (1 in (len(a), len(b)) and a[0] == b[0]) for a, b in pairs)


def _compare_suffixes(one: PersonName, other: PersonName) -> tuple[float, str]:
    if one.suffix and other.suffix and fold(one.suffix) != fold(other.suffix):
        return 0.1, f"One is {one.suffix}, the other {other.suffix}."
    return 1.0, ""


def _compare_lives(life: LifeDates, other: LifeDates) -> tuple[float, str]:
    """Return a factor above 1 where years agree, and near 0 where they cannot."""
    pairs = (
        ("born", life.born, other.born, life.born_doubtful or other.born_doubtful),
        ("died", life.died, other.died, life.died_doubtful or other.died_doubtful),
    )
    judged = [
        (_years_factor(abs(year - other_year), doubtful), what, year, other_year)
        for what, year, other_year, doubtful in pairs
        if year is not None and other_year is not None
    ]
    grounds = (
        f"Both {what} in {year}." if year == later else f"One {what} in {year}, one in {later}."
        for _, what, year, later in judged
    )
    return prod(factor for factor, *_ in judged), " ".join(grounds)


def _years_factor(apart: int, doubtful: bool) -> float:
    """Return the weight of two years; records of one person are often a year or two apart."""
    if apart == 0:
        return 1.25
    if apart <= (10 if doubtful else 2):
        return 0.9 if doubtful else 0.6
    return 0.02
