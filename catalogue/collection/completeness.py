"""How far a record answers the nine questions of Object ID, and where to answer the rest."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.collection.measuring import has_overall_size
from catalogue.collection.records import Quilt
from catalogue.collection.related import Related


@dataclass(frozen=True)
class Asked:
    """One question, whether the record answers it, and the section where it is answered."""

    words: str
    answered: bool
    where: str


def completeness_of(quilt: Quilt, related: Related) -> tuple[Asked, ...]:
    """Return the nine questions of Object ID with what the record says to each."""
    return (
        Asked("Type of object", bool(quilt.object_type), "identity"),
        Asked("Materials and techniques", bool(quilt.materials and quilt.techniques), "cloth"),
        Asked("Measurements", has_overall_size(quilt), "measurements"),
    )
