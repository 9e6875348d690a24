"""The questions of a documentation standard, and how far one record answers them."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

__all__ = [
    "Answer",
    "Completeness",
    "Fact",
    "Question",
    "UnknownFactError",
    "ask",
    "facts",
    "read_questions",
]

_FOLDER = Path(__file__).parent


class UnknownFactError(ValueError):
    """An answer under a name that no question asks for."""


@dataclass(frozen=True)
class Fact:
    """Something a record can say: its name, in words, and the section where it is filled in."""

    name: str
    words: str
    section: str


@dataclass(frozen=True)
class Question:
    """One question of a standard; every fact it needs has to be there for an answer.

    `group` is the standard's own part or number.
    """

    group: str
    name: str
    asks: str
    needs: tuple[Fact, ...]
    source: str


@dataclass(frozen=True)
class Answer:
    """One question and the facts still missing from its answer."""

    question: Question
    missing: tuple[Fact, ...]

    @property
    def complete(self) -> bool:
        """True where nothing is missing."""
        return not self.missing

    @property
    def says(self) -> str:
        """One sentence: answered, or what is missing."""
        if self.complete:
            return f"{self.question.name} is answered."
        missing = " and ".join(fact.words for fact in self.missing)
        return f"{self.question.name} still needs {missing}."


@dataclass(frozen=True)
class Completeness:
    """The answers of one record to all questions of one standard, in the standard's order."""

    answers: tuple[Answer, ...]

    @property
    def answered(self) -> int:
        """How many questions are answered in full."""
        return sum(answer.complete for answer in self.answers)

    @property
    def complete(self) -> bool:
        """True where every question is answered in full."""
        return self.answered == len(self.answers)

    @property
    def missing(self) -> tuple[Fact, ...]:
        """Every missing fact once, in the order in which it is first asked for."""
        return tuple(dict.fromkeys(fact for answer in self.answers for fact in answer.missing))

    @property
    def says(self) -> str:
        """One sentence with the count."""
        return f"{self.answered} of {len(self.answers)} questions are answered."


@cache
def facts() -> Mapping[str, Fact]:
    """Return every fact that a question can need, by name."""
    with (_FOLDER / "facts.csv").open(encoding="utf-8", newline="") as lines:
        return {row["fact"]: Fact(*row.values()) for row in csv.DictReader(lines)}


def read_questions(table: str) -> tuple[Question, ...]:
    """Return the questions in a table of this folder, in its order."""
    with (_FOLDER / table).open(encoding="utf-8", newline="") as lines:
        return tuple(
            Question(
                row["group"],
                row["name"],
                row["asks"],
                tuple(facts()[name] for name in row["needs"].split()),
                row["source"],
            )
            for row in csv.DictReader(lines)
        )


def ask(questions: Sequence[Question], answers: Mapping[str, object]) -> Completeness:
    """Return how far `answers`, by the names of facts, answer the questions.

    A value counts unless it is None, False, blank text or empty; "none found" is an answer.
    Raises UnknownFactError for a name that is no fact.
    """
    for name in answers:
        if name not in facts():
            raise UnknownFactError(f'"{name}" is not a fact that any question asks for.')
    given = {name for name, value in answers.items() if _is_given(value)}
    return Completeness(
        tuple(
            Answer(question, tuple(fact for fact in question.needs if fact.name not in given))
            for question in questions
        )
    )


def _is_given(value: object) -> bool:
    return bool(value.strip()) if isinstance(value, str) else bool(value)
