"""Snapshots of the index: made when it is opened, and made anew from the last one after a save."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from sqlite_utils import Database

from catalogue.collection.search.columns import Rows
from catalogue.collection.search.facts import read_facts
from catalogue.collection.search.fulltext import segments
from catalogue.collection.search.segments import LAYERS, Segment
from catalogue.collection.search.shelf import Shelf
from catalogue.collection.search.vocabulary import Vocabulary


@dataclass(frozen=True)
class Leaf:
    """A segment with the row of each of its documents, -1 where the document is out of date."""

    segment: Segment
    rows: Rows


@dataclass(frozen=True)
class Snapshot:
    """Index and columns as they stood at one moment; nothing that is read of it changes."""

    shelf: Shelf
    leaves: tuple[Leaf, ...]
    vocabularies: dict[str, Vocabulary]

    @property
    def segments(self) -> list[Segment]:
        """The segments, in order."""
        return [leaf.segment for leaf in self.leaves]


def opened(database: Database, folder: Path) -> Snapshot:
    """Return the index in this folder, whose files are known to be our own."""
    shelf = Shelf().with_facts(read_facts(database), dead=())
    read = segments(folder)
    vocabularies = {layer: Vocabulary() for layer in LAYERS}
    _learn(vocabularies, read)
    return Snapshot(shelf, _leaves(shelf, read), vocabularies)


def updated(before: Snapshot, database: Database, folder: Path, ids: Sequence[int]) -> Snapshot:
    """Return the snapshot after these quilts were brought up to date."""
    rows = _row_by_quilt(before.shelf)
    dead = [int(rows[id]) for id in ids if id < len(rows) and rows[id] >= 0]
    shelf = before.shelf.with_facts(read_facts(database, ids), dead)
    read = segments(folder, before.segments)
    known = {segment.name for segment in before.segments}
    _learn(before.vocabularies, (segment for segment in read if segment.name not in known))
    return Snapshot(shelf, _leaves(shelf, read), before.vocabularies)


def _learn(vocabularies: dict[str, Vocabulary], read: Iterable[Segment]) -> None:
    for segment in read:
        for layer, vocabulary in vocabularies.items():
            vocabulary.add(segment.layers[layer].terms)


def _leaves(shelf: Shelf, read: Iterable[Segment]) -> tuple[Leaf, ...]:
    rows = np.append(_row_by_quilt(shelf), -1)  # the last one for documents without a quilt
    return tuple(Leaf(segment, rows[_within(segment.quilts, len(rows))]) for segment in read)


def _within(quilts: Rows, size: int) -> Rows:
    return np.where(quilts < size - 1, quilts, -1)


def _row_by_quilt(shelf: Shelf) -> Rows:
    """Return the living row of each quilt by its id, -1 where there is none."""
    alive = np.flatnonzero(shelf.alive)
    ids = shelf.plain.quilt[alive]
    rows = np.full(int(ids.max(initial=0)) + 1, -1, np.int64)
    rows[ids] = alive
    return rows
