"""No request makes the catalogue fail, whatever is in it; and everything is there afterwards.

Hypothesis prints the request that failed, cut down to what it takes, and the line that repeats it.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable

import pytest
from flask import Flask
from flask.testing import FlaskClient
from fuzzing import Fuzzer, Seen
from hypothesis import HealthCheck, Phase, given, note, seed, settings
from hypothesis import strategies as st

from catalogue.collection.damage import damage
from catalogue.collection.folder import Collection
from catalogue.collection.seals import altered_changes, altered_records
from catalogue.collection.tables import KINDS

Maker = Callable[[str], FlaskClient]


def fuzz(app: Flask, clients: list[FlaskClient], requests: int, begin: int) -> Seen:
    """Make so many requests, in turn as each of the clients, and return what was met."""
    fuzzer, seen = Fuzzer(app, clients[0]), Seen()

    @seed(begin)
    @settings(
        max_examples=requests,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
        phases=[Phase.generate, Phase.shrink],
        print_blob=True,
    )
    @given(st.data())
    def one_request(data: st.DataObject) -> None:
        endpoint, method, address, asked = fuzzer.request(data.draw)
        note(f"{method} {address} {asked} (seed {begin})")
        # Hypothesis sets it alike for every example, and the index names its new files by it.
        random.seed()
        answer = clients[seen.requests % len(clients)].open(address, method=method, **asked)
        seen.codes[answer.status_code] += 1
        seen.rules.add(f"{method} {endpoint}")
        answer.close()
        assert answer.status_code < 500, f"{method} {address}: {answer.status_code}"

    one_request()
    return seen


def as_they_were_saved(collection: Collection) -> None:
    """Fail where the requests have damaged the database or left a record without its history."""
    database = collection.database
    assert not damage(database)
    assert not altered_changes(database)
    assert not [kind for kind in KINDS if altered_records(database, kind)]


@pytest.fixture
def without_tokens(attacked: Flask) -> Flask:
    """The same application without form tokens, so that what is sent reaches the views."""
    attacked.config.update(WTF_CSRF_ENABLED=False)
    return attacked


def test_three_hundred_requests_do_not_make_it_fail(
    without_tokens: Flask, hostile: Collection, client_of: Maker
) -> None:
    clients = [client_of(role) for role in ("keeper", "volunteer", "visitor")]
    seen = fuzz(without_tokens, clients, 300, begin=8)
    assert seen.requests >= 300
    assert len(seen.rules) > 40
    as_they_were_saved(hostile)


@pytest.mark.long
def test_ten_thousand_requests_do_not_make_it_fail(
    without_tokens: Flask, hostile: Collection, client_of: Maker
) -> None:
    clients = [client_of(role) for role in ("keeper", "historian", "volunteer", "visitor")]
    began, begin = time.perf_counter(), int(time.time())
    print(f"\nseed {begin}")
    seen = fuzz(without_tokens, clients, 10_000, begin)
    took = time.perf_counter() - began
    codes = ", ".join(f"{code}: {count}" for code, count in sorted(seen.codes.items()))
    print(f"{seen.requests} requests over {len(seen.rules)} rules in {took:.0f} s; {codes}")
    assert seen.requests >= 10_000
    as_they_were_saved(hostile)
