"""The kinds of record that have a history: how addresses name them, and the page of one of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from flask import abort

from catalogue.collection.records import (
    Exhibit,
    Party,
    Pattern,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
)
from catalogue.collection.tables import TABLE_OF


@dataclass(frozen=True)
class Subject:
    """A kind of record: its class, the page of one of them, and the list of all."""

    record: type[Any]
    page: str
    all: str


SUBJECTS = {
    "quilt": Subject(Quilt, "quilts.quilt_page", "quilts.collection_list"),
    "person": Subject(Party, "people.person", "people.people_list"),
    "pattern": Subject(Pattern, "patterns.pattern", "patterns.pattern_list"),
    "publication": Subject(
        Publication, "publications.publication", "publications.publication_list"
    ),
    "related": Subject(RelatedItem, "related.item", "related.item_list"),
    "exhibit": Subject(Exhibit, "exhibits.exhibit", "exhibits.exhibit_list"),
    "talk": Subject(Talk, "talks.talk", "talks.talk_list"),
}
NAMED = {TABLE_OF[subject.record]: kind for kind, subject in SUBJECTS.items()}
"""By table, how addresses name the kind."""


def subject_or_404(kind: str) -> Subject:
    """Return the kind of record that an address names, or end the request with 404."""
    return SUBJECTS.get(kind) or abort(404)
