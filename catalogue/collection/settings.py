"""What the collection says of itself: its name, its place, its address, how it reads dates."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Mapping
from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.database import writing
from catalogue.collection.privacy import LEVELS, Level
from catalogue.collection.safekeeping.rotation import KeepPolicy
from catalogue.exhibits.light import DEFAULT_LIMIT
from catalogue.exhibits.rest import DEFAULT_REST
from catalogue.values.date_policy import DEFAULT_POLICY, DatePolicy

_DATE_POLICY = "date_policy"
_KEEP_POLICY = "keep_policy"
_LEVELS = "levels"


@dataclass(frozen=True)
class Settings:
    """The settings of one collection; `base_address` is where visitors reach it, or empty."""

    name: str = "A collection of quilts"
    place: str = ""
    about: str = ""
    base_address: str = ""
    light_limit: str = DEFAULT_LIMIT
    rest_norm: str = DEFAULT_REST


def read(database: Database) -> Settings:
    """Return the settings as they stand."""
    known = {field.name for field in dataclasses.fields(Settings)}
    stored = {row["name"]: row["value"] for row in database.query("SELECT * FROM setting")}
    return Settings(**{name: value for name, value in stored.items() if name in known})


def write(database: Database, settings: Settings) -> None:
    """Keep these settings."""
    _keep(database, dataclasses.asdict(settings))


def date_policy(database: Database) -> DatePolicy:
    """Return what vague words of time mean here: the table's figures, but for what was changed."""
    rows = list(database.query("SELECT value FROM setting WHERE name = ?", [_DATE_POLICY]))
    return DEFAULT_POLICY.changed(json.loads(rows[0]["value"])) if rows else DEFAULT_POLICY


def keep_date_policy(database: Database, policy: DatePolicy) -> None:
    """Keep a policy; dates already on record stay as they were understood."""
    _keep(database, {_DATE_POLICY: json.dumps(policy.departures())})


def keep_policy(database: Database) -> KeepPolicy:
    """Return how many copies of this collection are kept."""
    rows = list(database.query("SELECT value FROM setting WHERE name = ?", [_KEEP_POLICY]))
    return KeepPolicy(**json.loads(rows[0]["value"])) if rows else KeepPolicy()


def set_keep_policy(database: Database, policy: KeepPolicy) -> None:
    """Keep a policy of copies; it holds from the next copy on."""
    _keep(database, {_KEEP_POLICY: json.dumps(dataclasses.asdict(policy))})


def levels(database: Database) -> Mapping[tuple[str, str], Level]:
    """Return who sees which field here: the table, but for what the keeper has moved."""
    rows = list(database.query("SELECT value FROM setting WHERE name = ?", [_LEVELS]))
    if not rows:
        return LEVELS
    moved = {(kind, name): level for kind, name, level in json.loads(rows[0]["value"])}
    return {place: moved.get(place, level) for place, level in LEVELS.items()}


def keep_levels(database: Database, chosen: Mapping[tuple[str, str], Level]) -> None:
    """Keep who sees which field, as far as that departs from the table."""
    moved = [
        [*place, level]
        for place, level in chosen.items()
        if place in LEVELS and level in ("members", "private") and level != LEVELS[place]
    ]
    _keep(database, {_LEVELS: json.dumps(moved)})


def _keep(database: Database, values: dict[str, str]) -> None:
    with writing(database):
        for name, value in values.items():
            database.execute(
                "INSERT INTO setting (name, value) VALUES (?, ?)"
                " ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                [name, value],
            )
