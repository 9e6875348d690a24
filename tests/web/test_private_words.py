"""A word of its own in every field of every record, and who finds it on any page, file or count.

What is hidden is read from the table of levels, so that a field that joins it is tried by itself.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from itertools import chain

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient
from markup import text_of_pdf
from PIL import Image
from planting import plant
from walking import VALUES, readable

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import LEVELS
from catalogue.collection.tables import TABLE_OF, fields_of
from catalogue.web import create_app

KINDS = {kind.__name__: kind for kind in TABLE_OF}
OPEN, LIVING, UNPUBLISHED = "aq", "bq", "cq"

# What no level names and no visitor's page shows either: work in hand, and who did it.
OF_MEMBERS = {
    *(("Reading", "by"), ("Talk", "notes"), ("TalkItem", "notes"), ("TalkGiven", "audience")),
    *(("TalkGiven", "notes"), ("TalkGiven", "by"), ("TalkGiven", "speaker")),
    *(("GivenItem", "title"), ("GivenItem", "lines"), ("GivenItem", "notes")),
    *(("ExhibitQuilt", "loan_papers"), ("ExhibitQuilt", "out_by"), ("ExhibitQuilt", "out_text")),
    *(("ExhibitQuilt", "back_by"), ("ExhibitQuilt", "back_text"), ("WallObstacle", "name")),
}
# Of an owner who lives: who it is, and whatever would tell it. How and when it passed is shown.
OF_LIVING_OWNERS = {
    ("OwnershipPeriod", name)
    for name in (
        *("party", "life", "relation", "agent", "place", "event", "seller_agent"),
        *("transfer_place", "stock_number", "price", "note", "citation"),
    )
}
# What was printed is public, whoever's quilt follows it.
PRINTED = {"Pattern", "PatternName", "Printing", "Publication"}


def word(set: str, kind: str, field: str) -> str:
    """Return the word planted in a field: letters alone, so that the search finds it whole."""
    return f"{set}{kind}{field.replace('_', '')}qx".lower()


def below(kind: str, field: str) -> Iterator[tuple[str, str]]:
    """Yield a field, and every field of the rows that it holds."""
    yield kind, field
    rows = next(each.rows for each in fields_of(KINDS[kind]) if each.name == field)
    if rows is not None:
        for each in fields_of(rows):
            yield from below(rows.__name__, each.name)


def of_level(*levels: str, living: bool) -> set[tuple[str, str]]:
    """Return the fields of these levels, with what lies below them."""
    named = (
        below(kind.removesuffix(" of the living"), field)
        for (kind, field), level in LEVELS.items()
        if level in levels and kind.endswith(" of the living") <= living
    )
    return set(chain.from_iterable(named))


def hidden_from_visitors() -> set[str]:
    """Return every word that no visitor may find."""
    levelled = {OPEN: of_level("members", "private", living=False) | OF_MEMBERS}
    levelled[LIVING] = of_level("members", "private", living=True) | OF_MEMBERS | OF_LIVING_OWNERS
    levelled[UNPUBLISHED] = {
        (name, each.name)
        for name, kind in KINDS.items()
        for each in fields_of(kind)
        if name not in PRINTED
    }
    return {word(set, *place) for set, places in levelled.items() for place in places}


def hidden_from_volunteers() -> set[str]:
    """Return every word that only historians and the keeper may find."""
    sets = {OPEN: False, LIVING: True, UNPUBLISHED: False}
    return {
        word(set, *place)
        for set, living in sets.items()
        for place in of_level("private", living=living)
    }


@pytest.fixture(scope="module")
def planted(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """Records of every kind, published, published and of living people, and not published."""
    collection = Collection.create(tmp_path_factory.mktemp("words") / "collection")
    sets = {OPEN: (True, False), LIVING: (True, True), UNPUBLISHED: (False, False)}
    for set, (published, living) in sets.items():
        plant(collection, lambda *of, set=set: word(set, *of), published=published, living=living)
    made = create_app(collection)
    made.config.update(TESTING=True, WTF_CSRF_ENABLED=False)
    yield made
    collection.close()


def addresses(app: Flask) -> list[str]:
    """Every address that can be read, with the ids of all that was planted."""
    values = VALUES | {"id": range(1, 7), "photo": (1, 2, 3), "number": (1, 2, 3, 4, 5, 6, 7, 8, 9)}
    built = (
        address
        for address in readable(app, values)
        if not address.startswith(("/static", "/print/")) and not address.endswith(".png")
    )
    printed = [
        f"/print/paper.pdf?{what}&kind={kind}"
        for kind in ("card", "label", "booklet", "tag", "back label", "file")
        for what in ("quilts=1,2,3", "exhibit=2", "find=&q=")
    ]
    return [*built, *printed, *(f"/print?exhibit={id}" for id in (1, 2, 3))]


def words_of(client: FlaskClient, address: str) -> str:
    """Return the words of an answer: of a page, of a PDF, of what a picture says of itself."""
    answer = client.get(address)
    assert answer.status_code < 500, address
    if answer.mimetype == "application/pdf":
        return text_of_pdf(answer.get_data()).replace("\n", "").replace("-", "").lower()
    return answer.get_data().decode("utf-8", "replace").lower()


def found(client: FlaskClient, app: Flask, hidden: set[str]) -> list[str]:
    """Return the words of `hidden` that any answer holds, each with its address."""
    any_planted = re.compile(r"[abc]q[a-z]+?qx")
    return [
        f"{each} at {address}"
        for address in addresses(app)
        for each in sorted({*any_planted.findall(words_of(client, address))} & hidden)
    ]


def test_no_answer_shows_a_visitor_a_hidden_word(planted: Flask) -> None:
    assert found(planted.test_client(), planted, hidden_from_visitors()) == []


def test_no_answer_shows_a_volunteer_a_private_word(planted: Flask) -> None:
    assert found(signed_in(planted, "volunteer"), planted, hidden_from_volunteers()) == []


def test_the_keeper_finds_what_the_others_do_not(planted: Flask) -> None:
    """Without this, the silence above would say nothing."""
    keeper = signed_in(planted, "keeper")
    pages = ("/quilts/1", "/quilts/3", "/people/2", "/people/4", "/people/6", "/related/1")
    edits = ("/quilts/1/edit/arrival", "/quilts/1/edit/keeping", "/people/4/edit", "/talks/1")
    shown = " ".join(words_of(keeper, address) for address in (*pages, *edits))
    seen = {each for each in hidden_from_visitors() if each in shown}
    assert len(seen) > 60
    assert {word(OPEN, *place) for place in _TOLD} <= seen


_TOLD = (
    *(("Quilt", "insurance_value"), ("Location", "place"), ("Contact", "address")),
    *(("RelatedItem", "kept"), ("Quilt", "restrictions"), ("ConditionReport", "text")),
)


@pytest.mark.parametrize("role", ["visitor", "volunteer"])
def test_no_search_counts_or_proposes_a_hidden_word(planted: Flask, role: str) -> None:
    visitor = role == "visitor"
    client = planted.test_client() if visitor else signed_in(planted, role)
    hidden = hidden_from_visitors() if visitor else hidden_from_volunteers()
    for each in sorted(hidden):
        assert "0 quilts found" in client.get(f"/search?q={each}").text, each
    for each in sorted(hidden)[::8]:
        for begun in (each[:-1], f"{each[:-3]}*"):
            assert each not in client.get(f"/search?q={begun}").text, each


def test_no_facet_counts_what_is_not_published(planted: Flask) -> None:
    visitor = planted.test_client()
    for page in ("/search", "/search?q=", "/", "/?as=table", "/patterns", "/people", "/eras"):
        text = visitor.get(page).text.lower()
        assert f"{UNPUBLISHED}quilt" not in text
        assert f"{UNPUBLISHED}party" not in text
    assert "2 quilts" in visitor.get("/").text
    assert visitor.get("/people/6").status_code == 404


def test_pictures_say_nothing_of_where_they_were_taken(planted: Flask) -> None:

    visitor = planted.test_client()
    for size in ("large", "page", "list"):
        for suffix in ("jpg", "webp"):
            answer = visitor.get(f"/quilts/1/photographs/1/{size}.{suffix}")
            assert answer.status_code == 200
            picture = Image.open(io.BytesIO(answer.get_data()))
            assert not picture.getexif()
            told = [value for value in picture.info.values() if isinstance(value, str | bytes)]
            assert not told
