"""Results stand in the order asked for; those nearest to the years asked for come first."""

from __future__ import annotations

from fractions import Fraction

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Phase, Quilt, Reading
from catalogue.collection.search.finding import SORTS, Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, save
from catalogue.values.dates import read_date

MEMBER = Reader("historian")


def made(title: str, number: str, when: str, inches: int = 0, history: str = "") -> Quilt:
    sides = [Reading("overall", side, str(inches), Fraction(inches)) for side in SIDES]
    phases = (Phase("pieced", read_date(when)),) if when else ()
    return Quilt(
        *(title, number),
        history=history,
        phases=phases,
        readings=tuple(sides) if inches else (),
    )


SIDES = ("width", "length")
QUILTS = (
    made("Cactus", "1990.10", "1930s", 80, "A centennial quilt."),
    made("basket", "1990.9", "before 1900", 90),
    made("Anvil", "", "1935", 70),
    made("Dresden", "1990.9.1", "", 0),
    made("Élan", "1989.1", "1876", 60),
    made("Fan", "1991.1", "undated"),
)


@pytest.fixture
def titled(collection: Collection) -> dict[int, str]:
    quilts = [add(collection.database, quilt, "Tess") for quilt in QUILTS]
    return {quilt.id: quilt.title for quilt in quilts if quilt.id is not None}


def titles(
    collection: Collection, index: SearchIndex, titled: dict[int, str], wanted: Wanted
) -> list[str]:
    found = find(collection.database, index, wanted, reader=MEMBER)
    return [titled[id] for id in found.ids]


@pytest.mark.parametrize(
    ("sort", "expected"),
    [
        ("number", ["Élan", "basket", "Dresden", "Cactus", "Fan", "Anvil"]),
        ("date", ["Élan", "Cactus", "Anvil", "basket", "Dresden", "Fan"]),
        ("title", ["Anvil", "basket", "Cactus", "Dresden", "Fan", "Élan"]),
        ("size", ["basket", "Cactus", "Anvil", "Élan", "Dresden", "Fan"]),
    ],
)
def test_each_sort(
    collection: Collection,
    index: SearchIndex,
    titled: dict[int, str],
    sort: str,
    expected: list[str],
) -> None:
    assert titles(collection, index, titled, Wanted(sort=sort)) == expected


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("1935", ["Anvil", "Cactus"]),  # all of the span, then a tenth of it
        ("1930s", ["Cactus", "Anvil"]),  # both wholly within, so by number
        ("1890s", ["basket"]),
        ("centennial", ["Cactus", "Élan", "basket"]),  # says so, made then, may have been
        ("before 1880", ["Élan", "basket"]),
    ],
)
def test_the_nearest_in_years_come_first_and_undated_quilts_match_no_years(
    collection: Collection,
    index: SearchIndex,
    titled: dict[int, str],
    typed: str,
    expected: list[str],
) -> None:
    assert titles(collection, index, titled, Wanted(typed, sort="fit")) == expected


@pytest.mark.parametrize("sort", SORTS)
def test_orders_after_saves_are_those_of_an_index_opened_anew(
    collection: Collection, index: SearchIndex, titled: dict[int, str], sort: str
) -> None:
    index.catch_up()
    for id, fields in (
        (1, {"title": "Zinnia", "accession": "1988.1"}),
        (3, {"title": "aster", "phases": (Phase("pieced", read_date("1850")),)}),
        (6, {"readings": QUILTS[1].readings}),
    ):
        save(collection.database, Quilt, id, fields, by="Tess", expecting=1)
        index.catch_up()
    after = titles(collection, index, titled, Wanted(sort=sort))
    assert after == titles(collection, SearchIndex(collection), titled, Wanted(sort=sort))


def test_pages_together_are_the_whole_in_order(
    collection: Collection, index: SearchIndex, titled: dict[int, str]
) -> None:
    pages = [
        find(collection.database, index, Wanted(), reader=MEMBER, page=page, per_page=2).ids
        for page in (1, 2, 3)
    ]
    whole = find(collection.database, index, Wanted(), reader=MEMBER).ids
    assert sum(pages, ()) == whole
