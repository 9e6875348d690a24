"""A shelf of invented quilts, and talks made of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    BlockKind,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Quilt,
    Reading,
    Talk,
    TalkItem,
)
from catalogue.collection.store import add
from catalogue.collection.talks.programme import Programme, programme_of
from catalogue.values.dates import read_date
from catalogue.values.lengths import parse_length


class Shelf:
    """Adds quilts to a collection in few words, and makes programmes of them."""

    def __init__(self, collection: Collection) -> None:
        self.database = collection.database
        self._known: dict[tuple[type, str], int | None] = {}

    def quilt(
        self, title: str, date: str = "", maker: str = "", pattern: str = "", **more: Any
    ) -> Quilt:
        """Add a quilt; `maker` and `pattern` are added by name at their first use."""
        makers = (PhaseMaker(self.named(Party, maker)),) if maker else ()
        phases = (Phase("quilted", read_date(date) if date else None, makers=makers),)
        blocks = (BlockKind(pattern=self.named(Pattern, pattern)),) if pattern else ()
        fields = {"status": "accessioned", "phases": phases, "blocks": blocks} | more
        return add(self.database, Quilt(title, **fields), "Tess")

    def named(self, kind: type[Any], name: str) -> Any:
        if (kind, name) not in self._known:
            self._known[kind, name] = add(self.database, kind(name), "Tess").id
        return self._known[kind, name]

    def programme(self, *items: Quilt | TalkItem, **more: Any) -> Programme:
        """Return the programme of a talk that shows these."""
        made = tuple(TalkItem(quilt=i.id) if isinstance(i, Quilt) else i for i in items)
        talk = add(self.database, Talk("A talk", items=made, **more), "Tess")
        return programme_of(self.database, talk)


def measured(width: str, length: str = "") -> tuple[Reading, ...]:
    """Return the readings of a quilt of this size."""
    ways = {"width": width, "length": length}
    return tuple(
        Reading("overall", way, written, parse_length(written).inches)
        for way, written in ways.items()
        if written
    )


@pytest.fixture
def shelf(collection: Collection) -> Shelf:
    return Shelf(collection)


@pytest.fixture
def sized() -> Callable[..., tuple[Reading, ...]]:
    return measured
