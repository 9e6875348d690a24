"""Numbers in addresses that somebody tries one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient
from walking import FIRST, VALUES, addresses_of, rules, token_in, writing_rules

from catalogue.collection.folder import Collection
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.store import load

Maker = Callable[[str], FlaskClient]
NOBODYS = 999_999

# What needs more than an account. Everything else that is not here is for every member.
HISTORIANS = {
    *("people.alike", "people.decide_alike", "people.undo_merge"),
    *("measuring.decision", "evidence.accept_date", "photo_reading.turned"),
    *("putting_away.put_away", "putting_away.take_out"),
}
KEEPERS = {
    *("accounts.everybody", "accounts.invite", "accounts.change", "accounts.new_link"),
    *("house.house", "house.change_dates", "seeing.table", "seeing.change", "watching.book"),
    *("safekeeping.copies", "safekeeping.make", "safekeeping.verify_again"),
    *("safekeeping.change_policy", "putting_away.purge"),
}
# What a role may do with some values only; the tests of those pages look at it.
_IN_PART = {"exhibit_lists.listing", "talk_paper.paper"}


def with_ids(app: Flask, id: int) -> Iterator[str]:
    """Every address that is read by an id, with this one in it."""
    for rule in rules(app, ["GET"]):
        if "id" in rule.arguments:
            yield from addresses_of(app, rule, VALUES | {"id": (id,)})


# Of each kind the second is not published; the fourth person made nothing that is.
@pytest.mark.parametrize("id", [2, 4])
def test_a_visitor_cannot_tell_what_is_hidden_from_what_does_not_exist(
    attacked: Flask, id: int
) -> None:
    visitor, compared = attacked.test_client(use_cookies=False), 0
    for hidden, missing in zip(with_ids(attacked, id), with_ids(attacked, NOBODYS), strict=True):
        if hidden.startswith(("/patterns", "/publications", "/people/2")):
            continue  # what was printed is public; the second person made the published quilt
        there, not_there = visitor.get(hidden), visitor.get(missing)
        same = not_there.text.replace(str(NOBODYS), str(id))
        assert (there.status_code, there.text) == (not_there.status_code, same), hidden
        assert there.status_code in (302, 404), hidden
        compared += 1
    assert compared > 30


def test_a_photograph_is_reached_by_its_own_record_alone(
    client_of: Maker, hostile: Collection
) -> None:
    (hidden,) = load(hostile.database, Quilt, 2).photographs
    (open_one,) = load(hostile.database, Quilt, 1).photographs
    visitor = client_of("visitor")
    assert _picture(visitor, "quilts", 1, open_one) == 200
    assert _picture(visitor, "quilts", 1, hidden) == 404
    assert _picture(visitor, "quilts", 2, hidden) == 404
    assert _picture(visitor, "related", 1, open_one) == 404
    assert visitor.get(f"/quilts/1/photographs/{open_one.id}/original").status_code == 302


def _picture(client: FlaskClient, kind: str, id: int, photograph: Photograph) -> int:
    return client.get(f"/{kind}/{id}/photographs/{photograph.id}/page.jpg").status_code


@pytest.mark.parametrize("role", ["volunteer", "historian"])
def test_what_is_for_others_is_refused_at_every_address(
    attacked: Flask, client_of: Maker, role: str
) -> None:
    client = client_of(role)
    token = {"X-CSRFToken": token_in(client.get("/quilts/new").text)}
    refused, asked = set(), 0
    for rule in (*rules(attacked, ["GET"]), *writing_rules(attacked)):
        if rule.endpoint.startswith("sign_in.") or rule.endpoint in _IN_PART:
            continue
        for address in addresses_of(attacked, rule, FIRST):
            for method in sorted((rule.methods or set()) & {"GET", "POST"}):
                answer = client.open(address, method=method, headers=token)
                assert answer.status_code < 500, address
                refused |= {rule.endpoint} if answer.status_code == 403 else set()
                asked += 1
    assert refused == KEEPERS | (HISTORIANS if role == "volunteer" else set())
    assert asked > 100


@pytest.mark.parametrize("role", ["visitor", "volunteer", "keeper"])
@pytest.mark.parametrize("id", ["0", "-1", "1e3", "0x1", "٣", "9" * 19, "1" * 400, "1;2", "1'"])
def test_a_number_that_is_none_is_not_found(
    unchanged: Flask, reader_of: Maker, role: str, id: str
) -> None:
    client = reader_of(role)
    for address in with_ids(unchanged, 7777):
        answer = client.get(address.replace("7777", id))
        assert answer.status_code in (302, 403, 404), address
