"""Object ID, the international minimum standard for describing cultural objects (ICOM).

Nine questions; with them photographs, a short description and a safe place for the record; five
further categories are recommended. The questions are worded anew for quilts in `object_id.csv`.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from catalogue.description.asking import Completeness, Question, ask, read_questions

__all__ = ["GROUPS", "completeness", "questions"]

GROUPS = ("question", "with the questions", "recommended")
"""The nine questions, what the checklist asks for beside them, and what is recommended beyond."""


@cache
def questions(*groups: str) -> tuple[Question, ...]:
    """Return the questions of the groups named, of all groups where none is."""
    wanted = groups or GROUPS
    return tuple(
        question for question in read_questions("object_id.csv") if question.group in wanted
    )


def completeness(answers: Mapping[str, object], *groups: str) -> Completeness:
    """Return how far a record answers the nine questions, or the groups named.

    `answers` are plain values by the names of `asking.facts()`.
    """
    return ask(questions(*(groups or GROUPS[:1])), answers)
