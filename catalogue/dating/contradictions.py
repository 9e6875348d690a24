"""Clues that speak against one another, said in words with what may have happened."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from catalogue.dating.clues import Clue, ClueReading
from catalogue.dating.shapes import is_told

_SURE_ENOUGH = 0.5
"""Clues less sure than this contradict nobody (house rule)."""

_OLD_STOCK = 40
"""Years for which old cloth and old habits are nothing strange (house rule)."""

_HAPPENED_TO_LATER = {
    "batting": "batting replaced",
    "edge": "binding replaced",
    "technique": "worked on later",
    "kit": "another kit",
}
_HAPPENED_TO_TOLD = {
    "inscription": "{} reused",
    "document": "another quilt written of",
    "memory": "another quilt remembered",
}


def contradictions(readings: Sequence[ClueReading], known_by: int | None) -> tuple[str, ...]:
    """One sentence for each contradiction among the clues that are at least half sure."""
    clues = [reading.effective for reading in readings if reading.sure >= _SURE_ENOUGH]
    told = [clue for clue in clues if is_told(clue)]
    seen = [clue for clue in clues if not is_told(clue)]
    return (
        *_after_it_was_known(clues, known_by),
        *(
            words
            for later, dated in product(seen, told)
            for words in _later_than_told(later, dated)
        ),
        *_told_apart(told),
        *_far_apart(seen),
    )


def _after_it_was_known(clues: Sequence[Clue], known_by: int | None) -> Iterator[str]:
    for clue in clues:
        begins = clue.begins
        if known_by is not None and begins is not None and begins > known_by:
            yield (
                f"The {clue.short} {_is(clue)} {_years(begins - known_by)} later than {known_by}, "
                f"when the quilt was already known: {_happened(clue)}, or another quilt?"
            )


def _later_than_told(later: Clue, told: Clue) -> Iterator[str]:
    begins, ends = later.begins, told.ends
    if begins is None or ends is None or begins <= ends:
        return
    usually = "" if later.force == "earliest possible" else "usually "
    meant = _HAPPENED_TO_TOLD[told.kind].format(told.short)
    yield (
        f"The {later.short} {_is(later)} {usually}{_years(begins - ends)} later than the "
        f"{told.short}: {_happened(later)}, or {meant}?"
    )


def _told_apart(told: Sequence[Clue]) -> Iterator[str]:
    for i, one in enumerate(told):
        for two in told[i + 1 :]:
            first, last = sorted((one, two), key=lambda clue: clue.begins or 0)
            if last.begins and first.ends and last.begins > first.ends:
                yield (
                    f"The {last.short} ({last.begins}) and the {first.short} ({first.ends}) lie "
                    f"{_years(last.begins - first.ends)} apart: which tells of this phase?"
                )


def _far_apart(seen: Sequence[Clue]) -> Iterator[str]:
    """The widest gap between what was seen, where it is wider than old stock explains."""
    older = [clue for clue in seen if clue.ends is not None]
    newer = [clue for clue in seen if clue.begins is not None]
    if not older or not newer:
        return
    old = min(older, key=lambda clue: clue.ends or 0)
    new = max(newer, key=lambda clue: clue.begins or 0)
    gap = (new.begins or 0) - (old.ends or 0)
    if gap > _OLD_STOCK:
        yield (
            f"The {new.short} {_is(new)} {_years(gap)} later than the {old.short} usually "
            f"{'end' if _is(old) == 'are' else 'ends'}: two phases of making, or a repair?"
        )


def _happened(later: Clue) -> str:
    return _HAPPENED_TO_LATER.get(later.kind, "a later repair")


def _is(clue: Clue) -> str:
    plural = clue.short.endswith("s") and not clue.short.endswith("ss")
    return "are" if plural else "is"


def _years(count: int) -> str:
    return "1 year" if count == 1 else f"{count} years"
