"""The core categories of CDWA, Categories for the Description of Works of Art (Getty).

The fifteen core categories at the level of the object; `group` is the category's number.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from catalogue.description.asking import Completeness, Question, ask, read_questions

__all__ = ["completeness", "questions"]


@cache
def questions() -> tuple[Question, ...]:
    """Return the core categories in the order of their numbers."""
    return read_questions("cdwa.csv")


def completeness(answers: Mapping[str, object]) -> Completeness:
    """Return how far a record fills the core categories.

    `answers` are plain values by the names of `asking.facts()`. Catalog level needs no answer of
    its own: every record here describes one object.
    """
    return ask(questions(), answers)
