"""The people, patterns and publications that a set of quilts refers to, loaded in one go."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from sqlite_utils import Database

from catalogue.collection.records import Party, Pattern, Printing, Publication, Quilt
from catalogue.collection.store import load_many

_Kind = TypeVar("_Kind", Party, Pattern, Publication)


@dataclass(frozen=True)
class Related:
    """Records by id, for looking up what a quilt's fields point to."""

    parties: dict[int, Party]
    patterns: dict[int, Pattern]
    publications: dict[int, Publication]

    def printing(self, id: int | None) -> Printing | None:
        """Return the printing with this id, or None."""
        for pattern in self.patterns.values():
            for printing in pattern.printings:
                if printing.id == id:
                    return printing
        return None

    def patterns_of(self, quilt: Quilt) -> tuple[Pattern, ...]:
        """Return the quilt's patterns in the order of its kinds of block, each once."""
        ids = dict.fromkeys(block.pattern for block in quilt.blocks if block.pattern is not None)
        return tuple(self.patterns[id] for id in ids)

    def makers_of(self, quilt: Quilt) -> tuple[Party, ...]:
        """Return the quilt's makers in the order of its phases, each once."""
        ids = dict.fromkeys(maker.party for phase in quilt.phases for maker in phase.makers)
        return tuple(self.parties[id] for id in ids)


def related_to(database: Database, quilts: Iterable[Quilt]) -> Related:
    """Return what these quilts refer to."""
    quilts = tuple(quilts)
    patterns = _by_id(
        load_many(
            database,
            Pattern,
            sorted({b.pattern for quilt in quilts for b in quilt.blocks if b.pattern is not None}),
        )
    )
    publications = {
        printing.publication for pattern in patterns.values() for printing in pattern.printings
    }
    parties = sorted({id for quilt in quilts for id in _party_ids(quilt)})
    return Related(
        _by_id(load_many(database, Party, parties)),
        patterns,
        _by_id(load_many(database, Publication, sorted(publications))),
    )


def _party_ids(quilt: Quilt) -> Iterator[int]:
    if quilt.donor is not None:
        yield quilt.donor
    for phase in quilt.phases:
        yield from (maker.party for maker in phase.makers)
    yield from (period.person for period in quilt.ownership if period.person is not None)


def _by_id(loaded: list[_Kind]) -> dict[int, _Kind]:
    return {record.id: record for record in loaded if record.id is not None}
