"""Requests that nobody would make: any address, any form, any field, any bytes."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from hypothesis import strategies as st
from markup import HOSTILE, Page
from planting import picture
from walking import VALUES, readable, rules
from werkzeug.datastructures import MultiDict
from werkzeug.routing import Rule

WORDS = (
    *("", " ", "0", "1", "2", "-1", "999999", "1.5", "½", "12 1/2", "c. 1935", "1890s", "y", "on"),
    *("1987.4.1", "1987-05-14", "14:30", "new", "keep", "star", "up", "1 up", "Ada Winter", "\x00"),
    *(
        "' OR 1=1 --",
        "../../secret",
        "javascript:x",
        "=1+1",
        "a" * 600,
        "é\u0301",
        HOSTILE,
    ),
    *("1940 until 1950", "gift to", "unknown", "none", "present", "quilt", "accepted", "members"),
)
TEXT = st.one_of(st.sampled_from(WORDS), st.text(max_size=40), st.integers().map(str))
# Endings that would leave the fuzzer outside: nobody signed in, or the account closed.
_ENDS = ("sign_in.sign_out", "accounts.change", "accounts.end_sessions", "accounts.change_password")


@dataclass
class Seen:
    """What the requests met: how many there were, by answer and by rule."""

    codes: Counter[int] = field(default_factory=Counter)
    rules: set[str] = field(default_factory=set)

    @property
    def requests(self) -> int:
        """How many were made."""
        return sum(self.codes.values())


class Fuzzer:
    """Draws requests over every rule of an application and over the fields of its own forms."""

    def __init__(self, app: Flask, keeper: FlaskClient) -> None:
        self.app, self.keeper = app, keeper
        self.rules = [r for r in rules(app, ["GET", "POST"]) if r.endpoint not in _ENDS]
        self.fields = self._fields_of_forms()
        self.names = sorted({name for names in self.fields.values() for name in names})

    def _fields_of_forms(self) -> dict[str, tuple[str, ...]]:
        """Return the names of the fields of every form, by the endpoint it is sent to."""
        found: dict[str, tuple[str, ...]] = {}
        for address in readable(self.app):
            answer = self.keeper.get(address)
            if answer.mimetype == "text/html":
                for form in Page(answer.text).forms:
                    endpoint = self._endpoint(form.action or address, form.method)
                    names = {name for name, _, _ in form.fields}
                    found[endpoint] = tuple(sorted({*found.get(endpoint, ()), *names}))
        return found

    def _endpoint(self, address: str, method: str) -> str:
        bound = self.app.url_map.bind("")
        endpoint, _ = bound.match(address.split("?")[0], method=method.upper())
        return str(endpoint)

    def request(self, draw: Any) -> tuple[str, str, str, dict[str, Any]]:
        """Return one request: whom it is for, its method, its address, what goes with it."""
        rule = draw(st.sampled_from(self.rules))
        methods = sorted((rule.methods or set()) & {"GET", "POST"})
        method = draw(st.sampled_from(methods))
        names = self.fields.get(rule.endpoint) or tuple(self.names)
        chosen = st.lists(st.tuples(st.sampled_from(names), TEXT), max_size=12)
        asked: dict[str, Any] = {"query_string": MultiDict(draw(chosen))}
        if method == "POST":
            asked["data"] = MultiDict([*draw(chosen), *draw(_FILES)])
        return rule.endpoint, method, self._address(rule, draw), asked

    def _address(self, rule: Rule, draw: Any) -> str:
        values = {}
        for name in rule.arguments:
            known = st.sampled_from(VALUES.get(f"{rule.endpoint} {name}") or VALUES[name])
            numbers = st.integers(0, 10**12)
            odd = numbers if name in ("id", "number", "photo") else st.sampled_from(WORDS[1:])
            values[name] = draw(st.one_of(known, known, known, odd))
        return str(self.app.url_map.bind("").build(rule.endpoint, values))


_FILE = st.one_of(
    st.sampled_from([b"", picture(), picture(format="PNG"), b"%PDF-1.7", b"<svg onload=x>"]),
    st.binary(max_size=200),
    st.integers(1, 600).map(lambda end: picture()[:end]),
)
_FILES = st.lists(
    st.tuples(
        st.just("photographs"),
        st.tuples(_FILE, st.sampled_from(["a.jpg", "a.svg", "../a", "a\x00b", "é.png"])),
    ).map(lambda sent: (sent[0], (BytesIO(sent[1][0]), sent[1][1]))),
    max_size=2,
)
