"""Cautions in plain words, and where each belongs."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from catalogue.values.lengths import quoted


class CautionError(ValueError):
    """A place that the table of cautions does not know."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: what may happen, what to do and whom to ask, and the places it is shown in."""

    key: str
    title: str
    says: str
    do: tuple[str, ...]
    places: tuple[str, ...]
    source: str


@lru_cache(maxsize=1)
def cautions() -> tuple[Caution, ...]:
    """Every caution of the data file, in its order."""
    table = tomllib.loads(Path(__file__).with_name("cautions.toml").read_text("utf-8"))
    return tuple(
        Caution(
            key,
            entry["title"],
            entry["says"],
            tuple(entry["do"]),
            tuple(entry["places"]),
            entry["source"],
        )
        for key, entry in table.items()
    )


def places() -> tuple[str, ...]:
    """Every place for which there is a caution, in the order in which the file names them."""
    return tuple(dict.fromkeys(place for caution in cautions() for place in caution.places))


def cautions_for(place: str) -> tuple[Caution, ...]:
    """The cautions to show there; raises CautionError, naming the places there are."""
    found = tuple(caution for caution in cautions() if place in caution.places)
    if not found:
        raise CautionError(
            f"There is no caution for {quoted(place)}; there are some for {', '.join(places())}."
        )
    return found
