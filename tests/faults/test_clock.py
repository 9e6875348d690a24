"""A clock that goes back, as of a laptop with an empty battery, breaks and loses nothing."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from datetime import datetime, timedelta, tzinfo

import pytest
from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection import accounts
from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping.copies import copies_in
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import Conflict, add, history, load, save

SetClock = Callable[[timedelta], None]
BACK = [timedelta(minutes=10), timedelta(days=6000)]  # put right by the net; the battery empty


@pytest.fixture
def put_back(monkeypatch: pytest.MonkeyPatch) -> SetClock:
    """Puts the clock back, for everything that the catalogue and its libraries ask."""
    seconds = time.time

    def put(by: timedelta) -> None:
        class Earlier(datetime):
            @classmethod
            def now(cls, tz: tzinfo | None = None) -> datetime:  # type: ignore[override]
                return datetime.now(tz) - by

        for name, module in list(sys.modules.items()):
            if name.startswith("catalogue.") and getattr(module, "datetime", None) is datetime:
                monkeypatch.setattr(module, "datetime", Earlier)
        monkeypatch.setattr(time, "time", lambda: seconds() - by.total_seconds())

    return put


@pytest.mark.parametrize("by", BACK)
def test_nobody_is_signed_out_and_a_save_is_kept(
    by: timedelta, member: FlaskClient, collection: Collection, put_back: SetClock
) -> None:
    add(collection.database, Quilt("Stars", history="first"), "Tess")
    page = member.get("/quilts/1/edit/story")
    put_back(by)
    values = {"revision": "1", "history": "second"}
    assert page.status_code == 200
    assert member.post("/quilts/1/edit/story", data=values).location == "/quilts/1#story"
    assert load(collection.database, Quilt, 1).history == "second"


@pytest.mark.parametrize("by", BACK)
def test_the_history_keeps_its_order_and_conflicts_are_still_seen(
    by: timedelta, collection: Collection, put_back: SetClock
) -> None:
    database = collection.database
    add(database, Quilt("Stars", history="first"), "Tess")
    put_back(by)
    save(database, Quilt, 1, {"history": "second"}, by="Ada", expecting=1)
    changes = history(database, Quilt, 1)
    assert [change.after["history"] for change in changes] == ["second", "first"]
    assert changes[0].at < changes[1].at  # what the clock said is kept; the revision says the order
    with pytest.raises(Conflict):
        save(database, Quilt, 1, {"history": "third"}, by="Tess", expecting=1)
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    assert check(collection.folder) == []


@pytest.mark.parametrize("by", BACK)
def test_a_link_made_before_works_once_and_not_again(
    by: timedelta, app: Flask, collection: Collection, put_back: SetClock
) -> None:
    keeper = accounts.add(collection.database, "Tess", "keeper")
    token = accounts.make_link_token(collection.database, keeper)
    put_back(by)
    assert app.test_client().get(f"/sign-in/{token}").status_code == 302
    assert app.test_client().get(f"/sign-in/{token}").status_code == 403


def test_the_newest_copy_is_the_one_made_last(collection: Collection, put_back: SetClock) -> None:
    place = collection.folder / "backups"
    first = make_copy(collection.folder, place, lambda done, total: None)
    put_back(BACK[1])
    second = make_copy(collection.folder, place, lambda done, total: None)
    assert second.made < first.made
    assert [copy.number for copy in copies_in(place)] == [second.number, first.number]
