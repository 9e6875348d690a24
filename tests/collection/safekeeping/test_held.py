"""A record counts as kept twice once a verified copy holds it as it now is."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from catalogue.collection.completeness import object_id_of
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.collection.safekeeping import copying
from catalogue.collection.safekeeping.held import is_copied
from catalogue.collection.settings import Settings
from catalogue.collection.store import add, load, save


def copy_later(collection: Collection, monkeypatch: pytest.MonkeyPatch) -> None:
    """Make a copy a minute from now, so that it is later than what was just saved."""

    class Later(datetime):
        @classmethod
        def now(cls, tz=None):  # type: ignore[no-untyped-def]
            return datetime.now(UTC) + timedelta(minutes=1)

    monkeypatch.setattr(copying, "datetime", Later)
    copying.make_copy(collection.folder, collection.folder / "backups", lambda done, total: None)


def missing(collection: Collection) -> set[str]:
    quilt = load(collection.database, Quilt, 1)
    related = related_to(collection.database, [quilt])
    answers = object_id_of(quilt, related, Settings(), second_copy=is_copied(collection, 1)).answers
    return {fact.name for answer in answers for fact in answer.missing}


def test_a_verified_copy_answers_the_question_of_keeping(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    assert "second_copy" in missing(collection)
    copy_later(collection, monkeypatch)
    assert "second_copy" not in missing(collection)


def test_what_was_saved_after_the_copy_is_not_kept_twice(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy_later(collection, monkeypatch)
    add(collection.database, Quilt("Stars"), "Tess")
    later = (datetime.now(UTC) + timedelta(hours=1)).strftime("%Y-%m-%dT%H:%M:%SZ")
    monkeypatch.setattr("catalogue.collection.store.now", lambda: later)
    save(collection.database, Quilt, 1, {"title": "Bars"}, by="Tess", expecting=1)
    assert not is_copied(collection, 1)


def test_a_damaged_copy_keeps_nothing(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    copy_later(collection, monkeypatch)
    (verdict,) = (collection.folder / "backups").rglob("verified.json")
    verdict.write_text('{"at": "2026-01-01T00:00:00Z", "faults": ["A file is missing."]}')
    assert not is_copied(collection, 1)
