"""Questions with known answers: over a thousand made-up quilts, and over the sample collection."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from thousand import Made, Thousand

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import VISITOR, Reader
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.indexing import SearchIndex

MEMBER = Reader("historian")

Fits = Callable[[Made], bool]


def within(first: int, last: int) -> Fits:
    return lambda quilt: quilt.first <= last and quilt.last >= first


GOLDEN: list[tuple[str, Fits]] = [
    ("wedding", lambda q: q.noun == "wedding"),
    ("weddings", lambda q: q.noun == "wedding"),
    ("CAFE's", lambda q: q.noun == "café"),
    ("stitched", lambda q: q.verb.startswith("stitch")),
    ("stitchi*", lambda q: q.verb == "stitching"),
    ("bakery tied", lambda q: q.noun == "bakery" and q.verb == "tied"),
    ("bakery -tied", lambda q: q.noun == "bakery" and q.verb != "tied"),
    ('"hollow ford"', lambda q: q.place == "Hollow Ford"),
    ("hollow-ford", lambda q: q.place == "Hollow Ford"),
    ("place:crossing", lambda q: q.place == "Pellam Crossing"),
    ("maker:winter ferry", lambda q: q.surname == "Winter" and q.noun == "ferry"),
    ("colour:red", lambda q: q.colour == "Turkey red"),
    ("hole in the barn door", lambda q: q.design == "churn-dash"),
    ('"hole in the barn door"', lambda q: q.design == "churn-dash"),
    ("1930s", within(1930, 1939)),
    ("1930-1940 orchard", lambda q: q.noun == "orchard" and within(1930, 1940)(q)),
    ("before 1850", within(0, 1849)),
    ("after 1850 before 1860", within(1851, 1859)),
    ("before 1850 after 1900", lambda q: within(0, 1849)(q) or within(1901, 2100)(q)),
    # what is left out is what was made for the better half within those years
    ("after 1850 -before 1860", lambda q: 2 * (1860 - q.first) <= q.last - q.first),
    ("depression era", within(1930, 1940)),
    ("colonial revival chapel", lambda q: q.noun == "chapel" and within(1900, 1940)(q)),
    ("feed sack", lambda q: q.sack or within(1925, 1950)(q)),
    ('"feed sack"', lambda q: q.sack),
    ("feedsack cloth", lambda q: q.sack),
    ("feed sack era", within(1925, 1950)),
    ("-title:number harvest", lambda q: False),
    ('location:"vault 3"', lambda q: q.shelf == "Vault 3"),
]  # fmt: skip


@pytest.mark.parametrize("reader", [VISITOR, MEMBER], ids=["visitor", "historian"])
def test_a_thousand_quilts(
    thousand: Thousand, reader: Reader, figures: Callable[[str], None]
) -> None:
    found_right = found_all = right_all = 0
    for typed, fits in GOLDEN:
        right = thousand.having(
            lambda q, fits=fits: fits(q) and (q.published or not reader.is_visitor)
        )
        if typed.startswith("location:") and reader.is_visitor:
            right = set()
        found = find(
            thousand.collection.database,
            *(thousand.index, Wanted(typed)),
            reader=reader,
            per_page=1000,
        )
        if set(found.ids) != right:
            figures(f"{typed}: {found.total} found, {len(right)} right")
        found_right += len(right & set(found.ids))
        found_all += found.total
        right_all += len(right)
    precision, recall = found_right / found_all, found_right / right_all
    figures(f"1,000 quilts, {reader.role}: precision {precision:.3f}, recall {recall:.3f}")
    assert (precision, recall) == (1, 1)


# By accession number; told by reading the sample collection's files.
SAMPLE = [
    ("churn dash", {"1979.4.2"}),
    ("broken plate", {"1979.4.2"}),
    ("pond ice", {"1983.5.2"}),
    ('"company china" label:1847', {"2001.7"}),
    ("maker:teague basket", {"1986.7"}),
    ("prussian buff", {"1991.1.3", "1979.4.2", "1988.2"}),
    ('"aunt persis"', {"1987.3.1", "2001.7", ""}),
    ("zigzag", {"1991.1.3"}),
]


@pytest.mark.parametrize(("typed", "expected"), SAMPLE)
def test_the_sample_collection(sample: Collection, typed: str, expected: set[str]) -> None:
    index = SearchIndex(sample)
    found = find(sample.database, index, Wanted(typed), reader=MEMBER, per_page=100)
    numbers = {
        row[0]
        for row in sample.database.execute("SELECT accession, id FROM quilt").fetchall()
        if row[1] in found.ids
    }
    index.close()
    assert numbers == expected
