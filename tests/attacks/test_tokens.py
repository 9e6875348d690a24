"""Nothing is written by a request that another site could have made the browser send."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from flask import Flask
from flask.testing import FlaskClient
from walking import FIRST, readable, token_in, writable

from catalogue.collection.folder import Collection

Maker = Callable[[str], FlaskClient]


@pytest.mark.parametrize("token", ["none", "another's", "garbled", "another's, in the header"])
def test_no_address_writes_without_the_sessions_own_token(
    attacked: Flask, hostile: Collection, client_of: Maker, told: Callable[[], str], token: str
) -> None:
    keeper, other = client_of("keeper"), client_of("historian")
    others = token_in(other.get("/quilts/new").text)
    own = token_in(keeper.get("/quilts/new").text)
    data = {"none": {}, "another's": {"csrf_token": others}, "garbled": {"csrf_token": own[::-1]}}
    headers = {"X-CSRFToken": others} if token.endswith("header") else {}
    before, files, asked = told(), sorted(hostile.folder.rglob("*")), 0
    for method, address in writable(attacked):
        answer = keeper.open(address, method=method, data=data.get(token, {}), headers=headers)
        assert answer.status_code == 400, f"{method} {address}"
        asked += 1
    assert asked > 60
    assert told() == before
    assert sorted(hostile.folder.rglob("*")) == files
    assert ">The keeper</a>, keeper" in keeper.get("/").text, "nobody is signed out either"


def test_with_the_sessions_own_token_it_is_written(client_of: Maker) -> None:
    """Without this, the refusals above would say nothing."""
    keeper = client_of("keeper")
    sent = {"csrf_token": token_in(keeper.get("/quilts/new").text), "title": "Bars"}
    answer = keeper.post("/quilts/new", data=sent | {"object_type": "quilt", "status": "offered"})
    assert answer.status_code == 302


def test_a_token_ends_with_its_session(client_of: Maker) -> None:
    keeper = client_of("keeper")
    token = token_in(keeper.get("/quilts/new").text)
    assert keeper.post("/sign-out", data={"csrf_token": token}).status_code == 302
    answer = keeper.post("/quilts/new", data={"csrf_token": token, "title": "Bars"})
    assert answer.status_code == 400


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "PROPFIND", "TRACE", "CONNECT"])
def test_no_other_method_does_anything(
    attacked: Flask, client_of: Maker, told: Callable[[], str], method: str
) -> None:
    keeper, before = client_of("keeper"), told()
    for address in readable(attacked, FIRST):
        assert keeper.open(address, method=method).status_code in (400, 405), address
    assert told() == before


def test_reading_writes_nothing(attacked: Flask, client_of: Maker, told: Callable[[], str]) -> None:
    """A page that could be written by an address alone could be written by a foreign picture."""
    keeper = client_of("keeper")
    before = told()
    for address in readable(attacked, FIRST):
        keeper.get(address)
    assert told() == before
