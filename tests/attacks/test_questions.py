"""SQL, and the syntax of questions, in every argument of every address."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import parse_qsl, urlsplit

import pytest
from flask import Flask
from flask.testing import FlaskClient
from markup import Page
from walking import addresses_of, rules

import catalogue.web
from catalogue.collection.search.facets import LABELS

ROOT = Path(catalogue.web.__file__).parent

QUESTIONS = (
    *("' OR 1=1 --", '" OR ""="', "1; DROP TABLE quilt; --", "') UNION SELECT * FROM account --"),
    *("%", "_", "\\", "'", '"', "`", "\x00", "\ud7ff", "-1", "9" * 25, "1e308", "NaN", "٣", "½"),
    *("*", "a*", "*a", "?", "~", "a~9", "a^9", "[a TO z]", "{a TO z}", "maker:*", "id:1", "title:"),
    *("published:0", "donor:quiet", "insurance_value:quiet", "locations:quiet", "_stored_id:1"),
    *("NOT star", "star AND", "AND OR NOT", "(((", '"', '"a" "', "a" * 5000, "a " * 2000),
    *("[" * 500, '"' * 501, "-" * 500, "a OR " * 300, "(a " * 300, "\N{COMBINING ACUTE ACCENT}"),
)


def arguments(app: Flask) -> list[str]:
    """Return every argument that a view reads, a form of a page sends, or a link of one holds."""
    found: set[str] = set(LABELS)
    for file in ROOT.rglob("*.py"):
        source = file.read_text("utf-8")
        found |= set(re.findall(r'(?:args|arguments)\.get(?:list)?\("([\w-]+)"', source))
        found |= set(re.findall(r'"([\w-]+)" in (?:request\.args|arguments)', source))
    visitor = app.test_client()
    for address in ("/search?q=star", "/?as=table", "/print?quilts=1", "/search/how"):
        page = Page(visitor.get(address).text)
        found |= {name for form in page.forms for name, _, _ in form.fields if name}
        for link in page.links:
            found |= {name for name, _ in parse_qsl(urlsplit(link).query, keep_blank_values=True)}
    return sorted(found - {"csrf_token"})


def test_the_arguments_are_found(unchanged: Flask) -> None:
    assert {"q", "from", "to", "maker", "sort", "page", "quilts", "exhibit", "kind", "next"} <= {
        *arguments(unchanged)
    }


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda text: repr(text)[:24])
def test_no_argument_is_more_than_a_value(unchanged: Flask, question: str) -> None:
    """Every page is asked with it in all arguments at once, the search in single ones too."""
    visitor, names = unchanged.test_client(), arguments(unchanged)
    together = dict.fromkeys(names, question)
    asked = [(page, together) for page in ("/", "/search", "/sign-in")]
    alone = names if question in QUESTIONS[:6] else ["q", "maker"]
    asked += [("/search", {name: question}) for name in alone]
    for page, query in asked:
        answer = visitor.get(page, query_string=query)
        assert answer.status_code in (200, 302, 404), f"{page} {[*query]}"
        shown = re.findall(r"quiet (?:Quilt|Party|Talk|Exhibit|RelatedItem)\w* \w+", answer.text)
        assert not shown, f"{page} {[*query]} shows what is not published"


def test_no_argument_of_a_members_page_is_more_than_a_value(
    attacked: Flask, client_of: Callable[[str], FlaskClient], told: Callable[[], str]
) -> None:
    keeper, names, asked = client_of("keeper"), arguments(attacked), 0
    before = told()
    for rule in rules(attacked, ["GET"]):
        if rule.endpoint.startswith("sign_in.") or "pdf" in rule.rule or "png" in rule.rule:
            continue
        for question in QUESTIONS[:2]:
            address = addresses_of(attacked, rule)[0]
            answer = keeper.get(address, query_string=dict.fromkeys(names, question))
            assert answer.status_code < 500, f"{address} {question}"
            asked += 1
    assert asked > 100
    assert told() == before
