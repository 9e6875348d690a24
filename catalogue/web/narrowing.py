"""What a search page offers beside its results: facets as links, and chips for what is chosen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from catalogue.collection.search.facets import LABELS, Facet
from catalogue.web.search_addresses import SearchAddress

_OPEN = ("pattern", "decade", "maker")
_AT_FIRST = 6  # values of a facet that are shown before "more"


@dataclass(frozen=True)
class Choice:
    """One value of a facet: what a click on it leads to, and how many quilts it has.

    `share` is its part of the facet's most frequent value, in per cent, for a bar beside it.
    """

    label: str
    count: int
    chosen: bool
    address: str
    share: int


@dataclass(frozen=True)
class Fold:
    """One facet of the page: its choices, those behind "more", and where all of them are listed."""

    name: str
    label: str
    first: tuple[Choice, ...]
    rest: tuple[Choice, ...]
    unlisted: int
    all_values: str
    open: bool

    @property
    def total(self) -> int:
        """How many values there are to choose from."""
        return len(self.first) + len(self.rest) + self.unlisted


@dataclass(frozen=True)
class Chip:
    """Something that narrows the search, in words, and the address without it."""

    label: str
    without: str


def as_seen(asked: SearchAddress, facets: Iterable[Facet]) -> SearchAddress:
    """Return the address without facets that its reader does not have."""
    offered = {facet.name for facet in facets}
    return asked.changed(**{name: () for name in LABELS if name not in offered})


def folds(asked: SearchAddress, facets: Iterable[Facet]) -> list[Fold]:
    """Return the facets that leave something to choose."""
    return [_fold(asked, facet) for facet in facets if facet.values]


def _fold(asked: SearchAddress, facet: Facet) -> Fold:
    choices = choices_of(asked, facet)
    shown = choices if facet.name == "decade" else choices[:_AT_FIRST]
    rest = choices[len(shown) :]
    chosen = [choice for choice in rest if choice.chosen]
    return Fold(
        facet.name,
        facet.label,
        (*shown, *chosen),
        tuple(choice for choice in rest if not choice.chosen),
        facet.more,
        asked.at("finding.all_values", facet=facet.name) if facet.more else "",
        facet.name in _OPEN or any(choice.chosen for choice in choices),
    )


def choices_of(asked: SearchAddress, facet: Facet) -> tuple[Choice, ...]:
    """Return the values of a facet as links that choose them or leave them off."""
    most = max((each.count for each in facet.values), default=0) or 1
    return tuple(
        Choice(
            each.label,
            each.count,
            each.chosen,
            asked.toggled(facet.name, each.value).at(),
            round(100 * each.count / most),
        )
        for each in facet.values
    )


def chips(asked: SearchAddress, facets: Iterable[Facet]) -> list[Chip]:
    """Return everything that narrows the search beside its words."""
    return [*_years(asked), *(chip for facet in facets for chip in _chosen(asked, facet))]


def _chosen(asked: SearchAddress, facet: Facet) -> Iterator[Chip]:
    for each in facet.values:
        if each.chosen:
            without = asked.toggled(facet.name, each.value).at()
            yield Chip(f"{facet.label.lower()}: {each.label}", without)


def _years(asked: SearchAddress) -> Iterator[Chip]:
    first, last = asked.wanted.from_year, asked.wanted.to_year
    if first is None and last is None:
        return
    if first is None:
        label = f"made by {last}"
    elif last is None:
        label = f"made {first} or later"
    else:
        label = f"made {first} to {last}" if last > first else f"made in {first}"
    yield Chip(label, asked.changed(from_year=None, to_year=None).at())


def words_alone(asked: SearchAddress) -> SearchAddress:
    """Return the address with nothing chosen but words and order."""
    empty = replace(type(asked.wanted)(), words=asked.wanted.words, sort=asked.wanted.sort)
    return replace(asked, wanted=empty)
