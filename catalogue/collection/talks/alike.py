"""Three alike in a row: quilts that follow one another and share pattern, maker or era."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, field

from catalogue.collection.pattern_notes import made_years
from catalogue.collection.records import Quilt
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.remarks import Remark, named
from catalogue.dating.eras import Era, eras

_IN_A_ROW = 3
# Years of the longest era that makes quilts alike: a generation (house rule, no source).
_LONGEST_ERA = 30


@dataclass
class _Trait:
    """What several quilts share, in words that follow "three in a row", and which they are."""

    says: str
    quilts: set[int | None] = field(default_factory=set)


def alike_in_a_row(programme: Programme) -> Iterator[Remark]:
    """Yield each run of three or more that share a trait which the talk as a whole does not.

    What all quilts of a talk share is its subject. Headings do not break a run; anything else
    between two quilts does. Of eras that overlap, the shortest is named.
    """
    everything = {quilt.id for quilt in programme.quilts}
    for traits in (_patterns(programme), _makers(programme), _eras(programme)):
        told: set[int | None] = set()
        for trait in traits:
            if trait.quilts == everything:
                continue
            for run in _runs(programme, trait):
                ids = {quilt.id for quilt in run}
                if not ids <= told:
                    told |= ids
                    says = f"{len(run)} in a row {trait.says}: {named(q.title for q in run)}."
                    yield Remark("alike", says, "the order of the items")


def _patterns(programme: Programme) -> list[_Trait]:
    return _shared(
        (quilt, pattern.name, f"follow the pattern {pattern.name}")
        for quilt in programme.quilts
        for pattern in programme.related.patterns_of(quilt)
    )


def _makers(programme: Programme) -> list[_Trait]:
    return _shared(
        (quilt, maker.id, f"were made by {maker.name}")
        for quilt in programme.quilts
        for maker in programme.related.makers_of(quilt)
    )


def _shared(found: Iterable[tuple[Quilt, Hashable, str]]) -> list[_Trait]:
    """Return one trait for each key, with all the quilts that were found with it."""
    traits: dict[Hashable, _Trait] = {}
    for quilt, key, says in found:
        traits.setdefault(key, _Trait(says)).quilts.add(quilt.id)
    return list(traits.values())


def _eras(programme: Programme) -> list[_Trait]:
    """Return the eras that are short enough, the shortest first, with what was made within them."""
    short = sorted(
        (era for era in eras() if era.last - era.first < _LONGEST_ERA),
        key=lambda era: era.last - era.first,
    )
    return [
        _Trait(
            f"are of one era, “{era.name}”, {era.first} to {era.last}",
            {quilt.id for quilt in programme.quilts if _within(quilt, era)},
        )
        for era in short
    ]


def _within(quilt: Quilt, era: Era) -> bool:
    first, last = made_years(quilt)
    return first is not None and last is not None and era.first <= first and last <= era.last


def _runs(programme: Programme, trait: _Trait) -> Iterator[list[Quilt]]:
    run: list[Quilt] = []
    for turn in programme.turns:
        if turn.quilt is not None and turn.quilt.id in trait.quilts:
            run.append(turn.quilt)
        elif turn.kind != "heading":
            if len(run) >= _IN_A_ROW:
                yield run
            run = []
    if len(run) >= _IN_A_ROW:
        yield run
