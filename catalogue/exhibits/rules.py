"""Figures that a collection may change, each with its source: one table, shown to users."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from pathlib import Path
from typing import ClassVar, Self

from catalogue.values.lengths import quoted

BASES = (
    "published",
    "common practice",
    "common practice, no source",
    "from memory",
    "house rule",
)
"""How well a figure is founded; only "published" ones were read in the source that is named."""


class RuleError(ValueError):
    """A setting that the table of rules does not allow."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One line of a table: what the figure says, how far it may be changed, and its source."""

    key: str
    words: str
    default: Fraction
    unit: str
    smallest: Fraction
    largest: Fraction
    basis: str
    source: str


def read_rules(name: str) -> tuple[Rule, ...]:
    """The rules of a packaged table, in the order of the file."""
    table = Path(__file__).with_name(name)
    with table.open(encoding="utf-8", newline="") as lines:
        return tuple(_rule(row) for row in csv.DictReader(lines))


def _rule(row: dict[str, str]) -> Rule:
    if row["basis"] not in BASES:
        raise RuleError(f"{quoted(row['basis'])} is not a basis of a rule ({row['key']}).")
    default, smallest, largest = (
        Fraction(row[column]) for column in ("default", "smallest", "largest")
    )
    return Rule(
        row["key"],
        row["words"],
        default,
        row["unit"],
        smallest,
        largest,
        row["basis"],
        row["source"],
    )


@dataclass(frozen=True)
class RuleSet:
    """The figures of one table as one collection uses them; the fields are the table's keys."""

    table: ClassVar[tuple[Rule, ...]] = ()

    @classmethod
    def defaults(cls) -> Self:
        """The table's own figures."""
        return cls(**{rule.key: rule.default for rule in cls.table})

    @classmethod
    def rule(cls, key: str) -> Rule:
        """The line of the table; raises RuleError where it has none of that key."""
        for rule in cls.table:
            if rule.key == key:
                return rule
        raise RuleError(f"There is no rule {quoted(key)}.")

    def changed(self, settings: Mapping[str, Fraction | float | str]) -> Self:
        """These figures with some replaced; raises RuleError for unknown keys and wild figures."""
        return replace(self, **{key: self._figure(key, value) for key, value in settings.items()})

    def departures(self) -> dict[str, Fraction]:
        """The figures that differ from the table's own, for keeping with the collection."""
        own: dict[str, Fraction] = {field.name: getattr(self, field.name) for field in fields(self)}
        return {key: value for key, value in own.items() if value != self.rule(key).default}

    @classmethod
    def _figure(cls, key: str, value: Fraction | float | str) -> Fraction:
        rule = cls.rule(key)
        try:
            figure = Fraction(value)
        except (ValueError, OverflowError, ZeroDivisionError):
            raise RuleError(f"{quoted(value)} for the {rule.words} is not a number.") from None
        if not rule.smallest <= figure <= rule.largest:
            raise RuleError(
                f"{quoted(value)} for the {rule.words} lies outside"
                f" {float(rule.smallest):g} to {float(rule.largest):g} {rule.unit}."
            )
        return figure
