"""What a collection takes vague words of time to mean: one table, shown to users, changeable."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from pathlib import Path


class DatePolicyError(ValueError):
    """A setting of the date policy that the table does not allow."""


@dataclass(frozen=True, slots=True)
class PolicyRow:
    """One line of the table of vague words: what users read, and what they may change it to."""

    key: str
    words: str
    means: str
    default: int
    smallest: int
    largest: int
    source: str


def _rows() -> tuple[PolicyRow, ...]:
    table = Path(__file__).with_name("date_policy.csv")
    with table.open(encoding="utf-8", newline="") as lines:
        return tuple(
            PolicyRow(
                row["key"],
                row["words"],
                row["means"],
                int(row["default"]),
                int(row["smallest"]),
                int(row["largest"]),
                row["source"],
            )
            for row in csv.DictReader(lines)
        )


POLICY_TABLE: tuple[PolicyRow, ...] = _rows()
"""Every vague word with its meaning, in the order of the data file."""

_ROWS = {row.key: row for row in POLICY_TABLE}


@dataclass(frozen=True, slots=True)
class DatePolicy:
    """The figures of the table as one collection uses them; the fields are the table's keys."""

    about_years: int
    early_decade_last: int
    middle_decade_last: int
    early_century_last: int
    middle_century_last: int
    early_year_last: int
    middle_year_last: int
    early_month_last: int
    middle_month_last: int
    edge_century_years: int
    turn_years: int
    turn_bare: int
    hundreds: int
    spring_first_month: int
    summer_first_month: int
    autumn_first_month: int
    winter_first_month: int

    def changed(self, settings: Mapping[str, int | str]) -> DatePolicy:
        """This policy with some figures replaced; refuses unknown keys and figures out of range."""
        return replace(self, **{key: _figure(key, value) for key, value in settings.items()})

    def departures(self) -> dict[str, int]:
        """The figures that differ from the table's own, for keeping with the collection."""
        own = {field.name: getattr(self, field.name) for field in fields(self)}
        return {key: value for key, value in own.items() if value != _ROWS[key].default}


def _figure(key: str, value: int | str) -> int:
    row = _ROWS.get(key)
    if row is None:
        raise DatePolicyError(f'The date policy has no setting "{key}".')
    try:
        figure = int(value)
    except ValueError:
        raise DatePolicyError(f'"{value}" for {row.words} is not a whole number.') from None
    if not row.smallest <= figure <= row.largest:
        raise DatePolicyError(
            f'"{value}" for {row.words} lies outside {row.smallest} to {row.largest}.'
        )
    if key == "hundreds" and figure not in (0, 10, 100):
        raise DatePolicyError(f'"{value}" for {row.words} must be 0, 10 or 100.')
    if key == "turn_bare" and figure % 100:
        raise DatePolicyError(f'"{value}" for {row.words} must be the first year of a century.')
    return figure


DEFAULT_POLICY = DatePolicy(**{row.key: row.default for row in POLICY_TABLE})
"""The table's own figures."""
