"""Givers and heirs: whether the donor was the last owner, and whether "by descent" is borne out.

That a parent is 12 to 70 years older than a child is this project's own limit, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.provenance.findings import FamilyTie, Finding, Maker, life_of
from catalogue.provenance.periods import Period
from catalogue.provenance.splitting import known_words
from catalogue.values.life_dates import LifeDates
from catalogue.values.name_likeness import compare_people
from catalogue.values.names import PersonNameError, fold, parse_name

__all__ = ["examine_descent", "examine_donor"]

_SAME_PERSON, _PERHAPS_SAME = 0.6, 0.3
_YOUNGEST_PARENT, _OLDEST_PARENT = 12, 70
_CHILDREN = frozenset({"son", "daughter", "child"})
_PARENTS = frozenset({"mother", "father", "parent"})


def examine_donor(periods: Sequence[Period], donor: str, collection: str) -> Iterator[Finding]:
    """Yield where the one who gave the quilt was not the last owner before the collection."""
    earlier = [
        place
        for place, period in enumerate(periods)
        if period.is_owner and not (collection and _likeness(period.party, collection) == 1.0)
    ]
    told = {fold(period.seller_agent) for period in periods if period.seller_agent}
    if donor and earlier and fold(donor) not in told:
        yield from _compare_donor(periods, earlier[-1], donor, (earlier[-1],))
    for place, period in enumerate(periods[1:], start=1):
        method = period.known_method
        names_giver = method is not None and method.category == "giver"
        giver = period.seller_agent if names_giver else ""
        owners = [index for index in earlier if index < place]
        if giver and owners and fold(giver) not in ("the maker", "the artist"):
            yield from _compare_donor(periods, owners[-1], giver, (owners[-1], place))


def _compare_donor(
    periods: Sequence[Period], last: int, donor: str, places: tuple[int, ...]
) -> Iterator[Finding]:
    owner = periods[last].party
    likeness = _likeness(owner, donor)
    if likeness >= _SAME_PERSON:
        return
    if _is_unknown(owner):
        says = f"{donor} gave the quilt, but how it came to {donor} is not recorded."
    elif likeness >= _PERHAPS_SAME:
        says = f"{donor} gave the quilt, the last owner is {owner}; are they one person?"
    else:
        says = f"{donor} gave the quilt, but the last owner before that is {owner}."
    yield Finding("donor not last owner", "question", likeness < _PERHAPS_SAME, says, places)


def _is_unknown(party: str) -> bool:
    return fold(party).startswith("unknown")


def _likeness(one: str, other: str) -> float:
    """Return how likely two written parties are one, 1.0 where they read the same."""
    if fold(one).removeprefix("the ") == fold(other).removeprefix("the "):
        return 1.0
    try:
        return compare_people(parse_name(one), parse_name(other)).likelihood
    except PersonNameError:
        return 0.0


def examine_descent(
    periods: Sequence[Period], makers: Sequence[Maker], ties: Sequence[FamilyTie]
) -> Iterator[Finding]:
    """Yield inheritances that no recorded tie bears out, and relations that years forbid."""
    for place in range(1, len(periods)):
        heir = periods[place]
        giver, life, places = _related_party(periods, place, makers)
        yield from _years_of_kin(heir, giver, life, places)
        method = heir.known_method
        if method is None or method.term != "by descent":
            continue
        yield from _tie_between(heir, giver, ties, places)


def _related_party(
    periods: Sequence[Period], place: int, makers: Sequence[Maker]
) -> tuple[str, LifeDates, tuple[int, ...]]:
    """Return whose relation the party of a period is: the maker's where it says so."""
    of_maker = re.search(r"\b(?:maker|artist|quilter|quiltmaker)\b", periods[place].relation)
    if of_maker and makers:
        return makers[0].name, makers[0].life, (place,)
    previous = periods[place - 1]
    return previous.party, life_of(previous), (place - 1, place)


def _kin(relation: str) -> str:
    """Return the word of kinship in `her youngest daughter` or `son of previous`, or ""."""
    words = re.findall(r"[\w-]+", relation.lower())
    return next((word for word in words if word in known_words("relations")), "")


def _years_of_kin(
    heir: Period, giver: str, life: LifeDates, places: tuple[int, ...]
) -> Iterator[Finding]:
    """Yield a child too near in age to the parent, or too far."""
    kin = _kin(heir.relation)
    own = life_of(heir)
    if own.born is None or life.born is None or kin not in _CHILDREN | _PARENTS:
        return
    apart = own.born - life.born if kin in _CHILDREN else life.born - own.born
    if _YOUNGEST_PARENT <= apart <= _OLDEST_PARENT:
        return
    yield Finding(
        "descent against years",
        "contradiction" if apart < _YOUNGEST_PARENT else "question",
        not (own.born_doubtful or life.born_doubtful),
        f"{heir.party}, born in {own.born}, is called {kin} of {giver}, born in {life.born}: "
        f"{abs(apart)} years {'apart' if apart >= 0 else 'the wrong way round'}.",
        places,
    )


def _tie_between(
    heir: Period, giver: str, ties: Sequence[FamilyTie], places: tuple[int, ...]
) -> Iterator[Finding]:
    """Hold an inheritance against the family ties that are recorded."""
    if _is_unknown(giver) or not ties:
        return
    direct = [tie for tie in ties if _is_tie(tie, heir.party, giver)]
    kin = _kin(heir.relation)
    if direct and kin and all(_kin(tie.relation) != kin for tie in direct):
        yield Finding(
            "descent against ties",
            "contradiction",
            True,
            f"The provenance calls {heir.party} {kin} of {giver}, the family record "
            f"{direct[0].relation}.",
            places,
        )
    elif not direct and not _connected(heir.party, giver, ties):
        yield Finding(
            "descent without tie",
            "question",
            True,
            f"The quilt is said to have come to {heir.party} by descent from {giver}, but no "
            "family tie between the two is recorded.",
            places,
        )


def _is_tie(tie: FamilyTie, person: str, to: str) -> bool:
    return _likeness(tie.person, person) >= _SAME_PERSON and _likeness(tie.to, to) >= _SAME_PERSON


def _connected(one: str, other: str, ties: Sequence[FamilyTie]) -> bool:
    """True where a chain of ties leads from one person to the other."""
    reached, waiting = {one}, [one]
    while waiting:
        person = waiting.pop()
        if _likeness(person, other) >= _SAME_PERSON:
            return True
        for tie in ties:
            for near, far in ((tie.person, tie.to), (tie.to, tie.person)):
                if far not in reached and _likeness(near, person) >= _SAME_PERSON:
                    reached.add(far)
                    waiting.append(far)
    return False
