"""Every answer is guarded, and every fault is a page in plain words."""

from __future__ import annotations

import pytest
from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.store import add
from catalogue.web import create_app


@pytest.mark.parametrize("address", ["/", "/nothing", "/search?q=x", "/sign-in"])
def test_every_answer_forbids_foreign_script_and_framing(
    visitor: FlaskClient, address: str
) -> None:
    headers = visitor.get(address).headers
    assert "script-src 'self'" in headers["Content-Security-Policy"]
    assert "unsafe" not in headers["Content-Security-Policy"]
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]
    assert headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize(
    ("address", "code", "words"),
    [
        ("/quilts/99", 404, "Nothing here"),
        ("/quilts/99/card-6x4.pdf", 404, "Nothing here"),
        ("/people/99", 404, "Nothing here"),
        ("/sign-out", 405, "Not this way"),
    ],
)
def test_a_fault_is_a_page_with_a_way_on(
    visitor: FlaskClient, address: str, code: int, words: str
) -> None:
    answer = visitor.get(address)
    assert answer.status_code == code
    assert words in answer.text
    assert 'href="/"' in answer.text


def test_a_form_without_its_token_is_refused_in_words(collection: Collection) -> None:
    client = create_app(collection).test_client()
    answer = client.post("/sign-out")
    assert answer.status_code == 400
    assert "Please send it again" in answer.text


@pytest.mark.parametrize(
    "query",
    [
        '"', "-", "*", "maker:", "maker:*", '"unclosed', 'title:"a b', "a OR AND NOT", "((((",
        "''; DROP",
        "\u0000", "😀", "x" * 5000, "[]", "text:/", "-star", "e\u0301", "quil*",
    ],
)  # fmt: skip
def test_nothing_typed_in_the_search_box_is_an_error(
    app: Flask, collection: Collection, query: str
) -> None:
    add(collection.database, Quilt("Star", published=True), "Tess")
    answer = app.test_client().get("/search", query_string={"q": query})
    assert answer.status_code == 200


@pytest.mark.parametrize(
    "query",
    ["from=abc", "to=-5", "from=99999", "page=-1", "page=x", "sort=;", "as=<b>", "pattern=x"],
)
def test_nothing_in_an_address_is_an_error(visitor: FlaskClient, query: str) -> None:
    for path in ("/", "/search"):
        answer = visitor.get(f"{path}?{query}")
        assert answer.status_code == 200
        assert "<b>" not in answer.text


def test_script_in_a_record_is_shown_as_text(visitor: FlaskClient, collection: Collection) -> None:
    nasty = "<script>alert(1)</script><img src=x onerror=alert(1)>[x](javascript:alert(1))"
    add(
        collection.database,
        Quilt(nasty, published=True, description=nasty, history=nasty, subject=nasty),
        "Tess",
    )
    page = visitor.get("/quilts/1").text
    assert "<script>alert" not in page
    assert "onerror=" not in page.replace("onerror=alert(1)&gt;", "")
    assert 'href="javascript' not in page
