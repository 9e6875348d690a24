"""The thesaurus of traditional designs: one value a design, read once from designs/*.toml."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from catalogue.patterns.coordinates import DraftError
from catalogue.patterns.drafting import Draft
from catalogue.patterns.notation import parse_draft

# Divisions per side that make a drafting family (common practice of the trade, no single source;
# nine divisions are counted with the nine-patch, as three threes).
GRID_FAMILIES: dict[str, tuple[int, ...]] = {
    "four-patch": (2, 4, 8),
    "nine-patch": (3, 6, 9, 12),
    "five-patch": (5, 10),
    "seven-patch": (7, 14),
}
OTHER_FAMILIES = (
    "eight-point star",
    "hexagon",
    "one-patch",
    "log cabin",
    "curved",
    "appliqué",
    "off the grid",
)
FAMILIES = (*GRID_FAMILIES, *OTHER_FAMILIES)
FROM_MEMORY = "from memory"


class UnknownDesignError(KeyError):
    """No design of the thesaurus has this slug."""

    def __str__(self) -> str:
        return f"No design of the thesaurus is called {self.args[0]!r}."


@dataclass(frozen=True)
class AlsoNamed:
    """Another name of a design, with the source that gives it or "from memory"."""

    name: str
    source: str


@dataclass(frozen=True)
class Publication:
    """The earliest printing of a design known to us: a date as written, where, and who says so."""

    date: str
    where: str
    source: str


@dataclass(frozen=True)
class Design:
    """One traditional design: its names are attributes, its drafting is what identifies it."""

    slug: str
    name: str
    family: str
    draft: Draft
    drafted: str
    also_named: tuple[AlsoNamed, ...] = ()
    earliest: Publication | None = None
    note: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Every name of the design, the preferred one first."""
        return (self.name, *(other.name for other in self.also_named))

    @property
    def divisions(self) -> int | None:
        """Grid divisions a side, None for families that are not judged by a grid."""
        return self.draft.divisions if self.family in GRID_FAMILIES else None


@cache
def designs() -> tuple[Design, ...]:
    """Every design of the thesaurus, by preferred name."""
    found = [
        read
        for file in sorted((Path(__file__).parent / "designs").glob("*.toml"))
        for read in read_designs(file.read_text(encoding="utf-8"))
    ]
    return tuple(sorted(found, key=lambda design: design.name))


def design(slug: str) -> Design:
    """The design with this slug; raises UnknownDesignError where there is none."""
    try:
        return _by_slug()[slug]
    except KeyError:
        raise UnknownDesignError(slug) from None


def read_designs(text: str) -> tuple[Design, ...]:
    """The designs written in one file of the thesaurus; raises DraftError naming the design."""
    content = tomllib.loads(text)
    return tuple(_read(entry, content["family"]) for entry in content["design"])


@cache
def _by_slug() -> dict[str, Design]:
    return {each.slug: each for each in designs()}


def _read(entry: dict[str, Any], family: str) -> Design:
    drafted = entry["draft"].strip("\n")
    try:
        draft = parse_draft(drafted)
        _require_family(family, draft)
    except DraftError as error:
        raise DraftError(f"{entry['name']}: {error}") from error
    return Design(
        slug=entry["slug"],
        name=entry["name"],
        family=family,
        draft=draft,
        drafted=drafted,
        also_named=tuple(
            AlsoNamed(name, source)
            for source, names in entry.get("also", {}).items()
            for name in names
        ),
        earliest=Publication(**entry["earliest"]) if "earliest" in entry else None,
        note=entry.get("note", ""),
    )


def _require_family(family: str, draft: Draft) -> None:
    if family not in FAMILIES:
        raise DraftError(f'"{family}" is not one of the drafting families.')
    allowed = GRID_FAMILIES.get(family)
    if allowed and draft.divisions not in allowed:
        raise DraftError(f"{draft.divisions} divisions a side do not make a {family}.")
