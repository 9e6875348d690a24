"""Every address of the application, from its own map, filled in with ids that are there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from typing import Any

from flask import Flask
from werkzeug.routing import Rule

from catalogue.web.forms.sections import SECTIONS
from catalogue.web.subjects import SUBJECTS

SAFE = {"GET", "HEAD", "OPTIONS"}

# What stands for the variables of an address, by endpoint and name, or by name alone.
VALUES: dict[str, Sequence[Any]] = {
    "changes.changes kind": tuple(SUBJECTS),
    "changes.put_back kind": tuple(SUBJECTS),
    "putting_away.put_away kind": tuple(SUBJECTS),
    "putting_away.take_out kind": tuple(SUBJECTS),
    "putting_away.purge kind": tuple(SUBJECTS),
    "sections.edit key": tuple(SECTIONS),
    "exhibit_lists.listing key": ("installation", "return", "insurance", "press", "hardware"),
    "talk_paper.paper key": ("slides", "handout", "speaker", "pull"),
    "eras.one_era key": ("depression",),
    "cards.file size": ("6x4",),
    "size": ("page",),
    "format": ("pdf", "png"),
    "suffix": ("jpg", "webp"),
    "id": (1, 2),
    "number": (1,),
    "photo": (1,),
    "token": ("nobodys-token",),
    "facet": ("pattern", "maker", "status", "nothing"),
    "filename": ("style/house.css",),
}
# The same with the first of each kind alone, where a second would say nothing new.
FIRST = VALUES | {"id": (1,)}
# Addresses that mean nothing without arguments.
MORE = (
    *("/search?as=pictures", "/search?as=timeline", "/search/quilts.csv?q=star"),
    *("/search?q=star", "/search?as=table", "/?as=table", "/?page=2", "/print?quilts=1"),
    *("/print?quilts=1&kind=label", "/print?quilts=1&kind=booklet", "/print?exhibit=1&kind=card"),
    *("/print/paper.pdf?quilts=1", "/print/page.png?quilts=1", "/print/paper.pdf?exhibit=1"),
    *(f"/print/paper.pdf?quilts=1&kind={kind}" for kind in ("label", "tag", "booklet")),
    *("/search?from=1900&to=1950", "/search?maker=1", "/search?q=zzyzx", "/read-date?text=1930"),
    "/quilts/1/working-out?block=12&patches=3&unit=6&centre_width=50",
)


def rules(app: Flask, methods: Iterable[str]) -> list[Rule]:
    """Return the rules that answer one of the methods."""
    return [rule for rule in app.url_map.iter_rules() if set(methods) & (rule.methods or set())]


def writing_rules(app: Flask) -> list[Rule]:
    """Return the rules by which something can be written."""
    return [rule for rule in app.url_map.iter_rules() if (rule.methods or set()) - SAFE]


def addresses_of(app: Flask, rule: Rule, values: Mapping[str, Sequence[Any]] = VALUES) -> list[str]:
    """Return the addresses of a rule, one for every combination of what stands for its variables.

    Raises KeyError for a variable that nobody has thought of: add it to the table.
    """
    names = sorted(rule.arguments)
    found = [values.get(f"{rule.endpoint} {name}") or values[name] for name in names]
    bound = app.url_map.bind("")
    return [
        bound.build(rule.endpoint, dict(zip(names, combination, strict=True)))
        for combination in product(*found)
    ]


def readable(app: Flask, values: Mapping[str, Sequence[Any]] = VALUES) -> list[str]:
    """Return every address that can be read."""
    built = (a for rule in rules(app, ["GET"]) for a in addresses_of(app, rule, values))
    return sorted({*built, *MORE})


def writable(app: Flask, values: Mapping[str, Sequence[Any]] = VALUES) -> Iterator[tuple[str, str]]:
    """Yield every method and address by which something can be written."""
    for rule in writing_rules(app):
        for method in sorted((rule.methods or set()) - SAFE):
            for address in addresses_of(app, rule, values):
                yield method, address


def is_paper(address: str) -> bool:
    """Say whether an address answers with a PDF or a picture of one, which takes a second each."""
    return address.startswith("/print/") or address.endswith((".pdf", ".png"))


def token_in(page: str) -> str:
    """Return the form token that a page holds."""
    found = re.search(r'name="csrf_token"[^>]*value="([^"]+)"', page)
    assert found is not None, "the page holds no form"
    return found[1]
