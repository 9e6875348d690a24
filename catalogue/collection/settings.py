"""What the collection says of itself: its name, its place, its address on the net."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from sqlite_utils import Database

from catalogue.collection.database import writing


@dataclass(frozen=True)
class Settings:
    """The settings of one collection; `base_address` is where visitors reach it, or empty."""

    name: str = "A collection of quilts"
    place: str = ""
    about: str = ""
    base_address: str = ""


def read(database: Database) -> Settings:
    """Return the settings as they stand."""
    known = {field.name for field in dataclasses.fields(Settings)}
    stored = {row["name"]: row["value"] for row in database.query("SELECT * FROM setting")}
    return Settings(**{name: value for name, value in stored.items() if name in known})


def write(database: Database, settings: Settings) -> None:
    """Keep these settings."""
    with writing(database):
        for name, value in dataclasses.asdict(settings).items():
            database.execute(
                "INSERT INTO setting (name, value) VALUES (?, ?)"
                " ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                [name, value],
            )
