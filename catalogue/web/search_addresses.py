"""A search as it stands in the address of its page, so that it can be kept and sent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import urlencode

from flask import url_for
from werkzeug.datastructures import MultiDict

from catalogue.collection.search.facts import Value
from catalogue.collection.search.finding import Wanted
from catalogue.web.addresses import wanted_from

VIEWS = ("list", "pictures", "table", "timeline")


@dataclass(frozen=True)
class SearchAddress:
    """A search as it stands in an address: what is wanted, and how the result is shown."""

    wanted: Wanted
    view: str = VIEWS[0]

    @classmethod
    def read(cls, arguments: MultiDict[str, str]) -> SearchAddress:
        """Return the search that an address asks for."""
        view = arguments.get("as", "")
        return cls(wanted_from(arguments), view if view in VIEWS else VIEWS[0])

    def parts(self) -> list[tuple[str, str]]:
        """Return names and values in one order, without what is so anyway."""
        return list(self._parts())

    def _parts(self) -> Iterator[tuple[str, str]]:
        wanted = self.wanted
        if wanted.words:
            yield "q", wanted.words
        for name, year in (("from", wanted.from_year), ("to", wanted.to_year)):
            if year is not None:
                yield name, str(year)
        for name, values in wanted.chosen.items():
            yield from ((name, str(value)) for value in values)
        if wanted.sort != "fit":
            yield "sort", wanted.sort
        if self.view != VIEWS[0]:
            yield "as", self.view

    def changed(self, **fields: Any) -> SearchAddress:
        """Return the address with other words, years, values of a facet, or another order."""
        return replace(self, wanted=replace(self.wanted, **fields))

    def shown_as(self, view: str) -> SearchAddress:
        """Return the address of the same quilts shown in another way."""
        return replace(self, view=view)

    def toggled(self, facet: str, value: Value) -> SearchAddress:
        """Return the address with a value chosen, or no longer chosen where it was."""
        values = getattr(self.wanted, facet)
        kept = tuple(each for each in values if _key(each) != _key(value))
        return self.changed(**{facet: kept if len(kept) < len(values) else (*values, value)})

    def at(self, endpoint: str = "finding.search", **more: Any) -> str:
        """Return it as the address of a page: of the results, or of what is made from them."""
        path = url_for(endpoint, **{k: v for k, v in more.items() if k == "facet"})
        pairs = [*self.parts(), *((k, str(v)) for k, v in more.items() if k != "facet")]
        return f"{path}?{urlencode(pairs)}" if pairs else path


def _key(value: Value) -> Value:
    return value.casefold() if isinstance(value, str) else value
