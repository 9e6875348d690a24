"""A search is narrowed by facets that stand in the address, and shown in four ways."""

from __future__ import annotations

import re
from html import unescape
from urllib.parse import parse_qsl, urlsplit

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st
from werkzeug.datastructures import MultiDict

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    BlockKind,
    ConditionReport,
    Material,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Quilt,
    Technique,
)
from catalogue.collection.search.facets import LABELS, NUMBERED
from catalogue.collection.search.finding import SORTS, Wanted
from catalogue.collection.search.searchable import FIELDS, MEMBERS_FIELDS
from catalogue.collection.store import add
from catalogue.values.dates import read_date
from catalogue.web.addresses import wanted_from
from catalogue.web.asking import MEANINGS
from catalogue.web.search_addresses import VIEWS, SearchAddress

# title, published, year, pattern, maker, place, colours, technique
SHELF = (
    ("Stars", True, "1931", 1, 1, "Ohio", "red and white", "pieced"),
    ("More stars", True, "1935", 1, 2, "Iowa", "blue", "pieced"),
    ("Baskets", True, "1912", 2, 1, "Ohio", "red", "appliqué"),
    ("Put away", False, "1933", 1, 1, "Ohio", "red", "pieced"),
)


@pytest.fixture
def shelf(collection: Collection) -> Collection:
    """Three published quilts and one that is not, in two patterns by two makers."""
    database = collection.database
    for name in ("Ohio Star", "Cake Stand"):
        add(database, Pattern(name), "Tess")
    for name in ("Ada Winter", "Bess Orr"):
        add(database, Party(name), "Tess")
    for title, published, year, pattern, maker, place, colours, technique in SHELF:
        add(
            database,
            Quilt(
                title,
                published=published,
                status="accessioned",
                blocks=(BlockKind(pattern=pattern),),
                phases=(
                    Phase("pieced", read_date(year), place, makers=(PhaseMaker(maker),)),
                    Phase("quilted", read_date(f"{year}?")),
                ),
                materials=(Material("top", "cotton", colours),),
                techniques=(Technique(technique),),
                conditions=(ConditionReport("good"),),
            ),
            "Tess",
        )
    return collection


def titles(page: str) -> list[str]:
    """Return the titles of the quilts that a page of results shows, in its order."""
    results = page[page.index('class="results"') : page.index("<aside")]
    return re.findall(r'<a href="/quilts/\d+">([^<]*)</a>', results)


def links(page: str, words: str) -> list[str]:
    """Return the addresses of the links that hold the words."""
    found = re.findall(r'<a href="([^"]*)"[^>]*>((?:(?!</a>).)*)</a>', page, re.DOTALL)
    return [unescape(address) for address, text in found if words in re.sub("<[^>]*>", "", text)]


NARROWED = [
    ("", ["Stars", "More stars", "Baskets"]),
    ("pattern=1", ["Stars", "More stars"]),
    ("pattern=1&pattern=2", ["Stars", "More stars", "Baskets"]),
    ("pattern=1&maker=1", ["Stars"]),
    ("maker=1&colour=red", ["Stars", "Baskets"]),
    ("place=ohio&decade=1910", ["Baskets"]),
    ("technique=appliqu%C3%A9", ["Baskets"]),
    ("q=stars&from=1934", ["More stars"]),
    ("q=stars&to=1934", ["Stars"]),
    ("from=1940&to=1930&sort=title", ["More stars", "Stars"]),
    ("display=no", ["Stars", "More stars", "Baskets"]),
    ("display=perhaps", ["Stars", "More stars", "Baskets"]),
]


@pytest.mark.parametrize(("query", "expected"), NARROWED)
@pytest.mark.parametrize("view", VIEWS)
def test_facets_combine(
    visitor: FlaskClient, shelf: Collection, query: str, expected: list[str], view: str
) -> None:
    page = visitor.get(f"/search?{query}&as={view}").text
    assert titles(page) == expected
    assert f"{len(expected)} quilt{'s' * (len(expected) != 1)} found" in page


def test_a_value_is_chosen_by_its_link_and_left_off_by_its_chip(
    visitor: FlaskClient, shelf: Collection
) -> None:
    page = visitor.get("/search?q=stars").text
    (choose,) = links(page, "Bess Orr")
    narrowed = visitor.get(choose).text
    assert titles(narrowed) == ["More stars"]
    leave_off, also = links(narrowed, "Bess Orr")  # the chip, and the value in its facet
    assert leave_off == also == "/search?q=stars"


def test_several_chips_are_left_off_together(visitor: FlaskClient, shelf: Collection) -> None:
    page = visitor.get("/search?q=stars&pattern=1&from=1930&to=1939&as=table").text
    assert links(page, "pattern: Ohio Star") == ["/search?q=stars&from=1930&to=1939&as=table"]
    assert links(page, "made 1930 to 1939") == ["/search?q=stars&pattern=1&as=table"]
    assert links(page, "Leave off all") == ["/search?q=stars&as=table"]


def test_the_form_keeps_what_is_chosen(visitor: FlaskClient, shelf: Collection) -> None:
    page = visitor.get("/search?q=stars&pattern=1&place=Ohio&sort=date&as=pictures").text
    kept = re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)">', page)
    assert kept == [("pattern", "1"), ("place", "Ohio"), ("sort", "date"), ("as", "pictures")]


def test_visitors_have_no_facets_of_members_even_in_the_address(
    visitor: FlaskClient, member: FlaskClient, shelf: Collection
) -> None:
    address = "/search?status=offered&condition=poor"
    page = visitor.get(address).text
    assert titles(page) == ["Stars", "More stars", "Baskets"]
    assert "Condition" not in page
    assert "status=offered" not in page
    assert visitor.get("/search/all/status").status_code == 404
    assert titles(member.get("/search?status=accessioned").text) == [row[0] for row in SHELF]
    assert "0 quilts found" in member.get(address).text


def test_counts_do_not_tell_visitors_of_what_is_put_away(
    visitor: FlaskClient, member: FlaskClient, shelf: Collection
) -> None:
    def count(client: FlaskClient) -> list[str]:
        page = client.get("/search/all/pattern").text
        return re.findall(r"Ohio Star</span>\s*<span[^>]*>(\d+)", page)

    assert count(visitor) == ["2"]
    assert count(member) == ["3"]


def test_a_long_facet_has_a_page_of_all_its_values(
    visitor: FlaskClient, collection: Collection
) -> None:
    places = [f"Place {n:02}" for n in range(30)]
    for place in places:
        work = (Phase("pieced", place=place),)
        add(collection.database, Quilt("Q", published=True, phases=work), "Tess")
    page = visitor.get("/search?q=q").text
    (address,) = links(page, "All 30")
    every = visitor.get(address).text
    assert re.findall(r"<span>(Place \d\d)", every) == places
    assert titles(visitor.get(links(every, "Place 07")[0]).text) == ["Q"]


def test_pages_follow_one_another_and_keep_the_search(
    visitor: FlaskClient, collection: Collection
) -> None:
    for number in range(45):
        add(
            collection.database,
            Quilt(f"Star {number:02}", accession=f"1990.{number + 1}", published=True),
            "Tess",
        )
    seen: list[str] = []
    address = "/search?q=star&sort=number"
    for _ in range(3):
        page = visitor.get(address).text
        found = page[page.index('class="results"') :]
        seen += re.findall(r'<a href="/quilts/\d+">([^<]*)</a>', found)
        address = next(iter(links(page, "Next page")), "")
    assert seen == [f"Star {number:02}" for number in range(45)]
    assert address == ""


def test_an_era_is_told_with_its_years_and_source(visitor: FlaskClient, shelf: Collection) -> None:
    page = visitor.get("/search?q=depression+era").text
    assert titles(page) == ["Stars", "More stars"]
    assert "is taken as 1930 to 1940" in page
    assert "Wylie House Museum" in page


def test_other_names_of_a_pattern_are_told(visitor: FlaskClient, shelf: Collection) -> None:
    page = visitor.get("/search?q=variable+star+1931").text
    assert titles(page) == ["Stars"]
    assert re.search(r"<strong>Ohio Star</strong> is also called .*Variable Star", page)


def test_a_misspelling_has_its_suggestion_one_click_away(
    visitor: FlaskClient, shelf: Collection
) -> None:
    page = visitor.get("/search?q=baskts&sort=title").text
    (address,) = links(page, "baskets") or links(page, "basket")
    assert titles(visitor.get(address).text) == ["Baskets"]
    assert "sort=title" in address


def test_the_timeline_says_in_words_what_its_bars_show(
    visitor: FlaskClient, shelf: Collection
) -> None:
    page = visitor.get("/search?as=timeline&sort=date").text
    assert titles(page) == ["Baskets", "Stars", "More stars"]
    assert page.count('<svg class="years-bar"') == 3
    assert "pieced 1912; quilted " in page
    assert "style=" not in page


@pytest.mark.parametrize("view", VIEWS)
def test_quilts_are_ticked_for_a_talk_in_every_view(
    visitor: FlaskClient, member: FlaskClient, shelf: Collection, view: str
) -> None:
    page = member.get(f"/search?q=stars&as={view}").text
    for id in (1, 2):
        assert f'name="chosen" value="{id}" form="add-ticked"' in page
    assert 'id="add-ticked"' in page
    assert 'name="chosen"' not in visitor.get(f"/search?q=stars&as={view}").text


def test_a_whole_result_is_printed(member: FlaskClient, shelf: Collection) -> None:
    page = member.get("/search?pattern=1&pattern=2&maker=1").text
    (address,) = links(page, "print labels")
    paper = member.get(address).text
    assert "of 3 quilts" in paper
    assert paper.count('name="pattern" value="1"') >= 1
    assert paper.count('name="pattern" value="2"') >= 1


def test_more_like_this_gives_its_reasons(visitor: FlaskClient, shelf: Collection) -> None:
    add(shelf.database, Quilt("Unlike", published=True), "Tess")
    page = visitor.get("/quilts/1").text
    alike = page[page.index("More like this") :]
    assert "More stars" in alike
    assert "the same pattern: Ohio Star" in alike
    assert "Put away" not in alike
    assert "More like this" not in visitor.get("/quilts/5").text


@pytest.mark.parametrize(
    "query",
    [
        *("decade=99999999999", "decade=-1", "decade=x", "maker=0", "maker=999999999", "as=x"),
        *("pattern=1&pattern=1", "place=%00", "colour=%ED%A0%80", "sort=size&as=timeline&page=99"),
        *("from=9999&to=0", "from=0", "to=0&as=timeline", "publication=7", "family=;", "q=%22"),
        "&".join(f"place={n}" for n in range(300)),
        "technique=" + "x" * 5000,
    ],
)
@pytest.mark.parametrize(
    "path", ["/search", "/search/quilts.csv", "/search/all/place", "/search/all/decade"]
)
def test_no_nonsense_in_an_address_is_an_error(
    visitor: FlaskClient, shelf: Collection, path: str, query: str
) -> None:
    assert visitor.get(f"{path}?{query}").status_code == 200


def test_a_facet_that_does_not_exist_has_no_page(visitor: FlaskClient) -> None:
    assert visitor.get("/search/all/nothing").status_code == 404


def test_how_to_ask_is_made_from_the_tables(visitor: FlaskClient, member: FlaskClient) -> None:
    assert set(MEANINGS) == {*FIELDS, *MEMBERS_FIELDS}
    public, whole = visitor.get("/search/how").text, member.get("/search/how").text
    assert 'href="/search?q=maker:winter"' in public
    assert "Depression era" in public
    assert "Wylie House Museum" in public
    assert ">location</th>" not in public
    assert ">location</th>" in whole


TEXTS = st.text(st.characters(codec="utf-8"), min_size=1, max_size=20).map(str.strip).filter(bool)
NUMBERS = st.integers(0, 10**9)
FACETS = {
    name: st.lists(NUMBERS if name in NUMBERED else TEXTS, max_size=3, unique=True).map(tuple)
    for name in LABELS
} | {"display": st.sampled_from([(), ("yes",), ("no", "yes")])}
YEARS = st.one_of(
    st.tuples(st.none() | st.integers(0, 9999), st.none()),
    st.lists(st.integers(0, 9999), min_size=2, max_size=2).map(lambda ys: tuple(sorted(ys))),
)


@given(
    st.fixed_dictionaries(dict(FACETS, words=TEXTS | st.just(""), sort=st.sampled_from(SORTS))),
    YEARS,
    st.sampled_from(VIEWS),
)
def test_what_stands_in_an_address_is_read_from_it(
    fields: dict[str, object], years: tuple[int | None, int | None], view: str
) -> None:
    wanted = Wanted(from_year=years[0], to_year=years[1], **fields)  # type: ignore[arg-type]
    asked = SearchAddress(wanted, view)
    assert SearchAddress.read(MultiDict(asked.parts())) == asked


def test_an_address_survives_being_sent(app: Flask) -> None:
    wanted = Wanted("Grandmother's “fan” & more", place=("Ohio; or Iowa", "São Tomé"), pattern=(3,))
    with app.test_request_context():
        address = SearchAddress(wanted, "timeline").at()
    assert wanted_from(MultiDict(parse_qsl(urlsplit(address).query))) == wanted
