"""Facets count what choosing them would leave, over what their reader may see."""

from __future__ import annotations

import pytest
from thousand import Thousand

from catalogue.collection.privacy import VISITOR, Reader
from catalogue.collection.search.facets import Facet
from catalogue.collection.search.finding import Found, Wanted, find

MEMBER = Reader("historian")

# Each facet counted in SQL, over all quilts with the alias `q`.
COUNTED = {
    "pattern": "SELECT pattern, q.id FROM q JOIN block_kind ON quilt = q.id",
    "technique": "SELECT name, q.id FROM q JOIN technique ON quilt = q.id",
    "place": "SELECT place, q.id FROM q JOIN phase ON quilt = q.id",
    "setting": "SELECT setting_seen, q.id FROM q JOIN quilt AS one ON one.id = q.id",
    "maker": """SELECT party, q.id FROM q JOIN phase ON quilt = q.id
                JOIN phase_maker ON phase = phase.id""",
    "condition": "SELECT grade, q.id FROM q JOIN condition_report ON quilt = q.id",
    "status": "SELECT status, q.id FROM q JOIN quilt AS one ON one.id = q.id",
}


def search(thousand: Thousand, reader: Reader = MEMBER, **wanted: object) -> Found:
    return find(
        thousand.collection.database,
        *(thousand.index, Wanted(**wanted)),  # type: ignore[arg-type]
        reader=reader,
        count=True,
        values_at_most=100,
        per_page=1000,
    )


def counts(found: Found, name: str) -> dict[object, int]:
    return {each.value: each.count for each in facet(found, name).values if each.count}


def facet(found: Found, name: str) -> Facet:
    return next(each for each in found.facets if each.name == name)


@pytest.mark.parametrize("reader", [VISITOR, MEMBER], ids=["visitor", "historian"])
@pytest.mark.parametrize("words", ["", "orchard", "1900-1950"])
def test_counts_are_those_of_sql(thousand: Thousand, reader: Reader, words: str) -> None:
    found = search(thousand, reader, words=words)
    for name in {each.name for each in found.facets} & COUNTED.keys():
        marks = ",".join(map(str, found.ids))
        rows = thousand.collection.database.execute(
            f"WITH q AS (SELECT id FROM quilt WHERE id IN ({marks}))"
            f" SELECT value, count(*) FROM ({COUNTED[name].replace(',', ' AS value,', 1)})"
            " GROUP BY value"
        )
        assert counts(found, name) == dict(rows.fetchall()), name


def test_decades_count_every_span_that_touches_them(thousand: Thousand) -> None:
    expected = {
        decade: len(thousand.having(lambda q, d=decade: q.first <= d + 9 and q.last >= d))
        for decade in range(1830, 2000, 10)
    }
    assert counts(search(thousand), "decade") == expected


def test_colours_count_as_plain_ones(thousand: Thousand) -> None:
    expected = {
        plain: len(thousand.having(lambda q, name=name: q.colour == name))
        for name, plain in {
            "Turkey red": "red",
            "chrome yellow": "yellow",
            "indigo": "blue",
            "madder brown": "brown",
        }.items()
    }
    assert counts(search(thousand), "colour") == expected


def test_values_of_one_facet_are_alternatives_and_facets_combine(thousand: Thousand) -> None:
    found = search(thousand, place=("Hollow Ford", "Ashlar Bend"), colour=("red",))
    assert set(found.ids) == thousand.having(
        lambda q: q.place in ("Hollow Ford", "Ashlar Bend") and q.colour == "Turkey red"
    )


def test_a_facet_is_counted_as_if_nothing_were_chosen_in_it(thousand: Thousand) -> None:
    one = search(thousand, place=("Hollow Ford",))
    assert counts(one, "place") == counts(search(thousand), "place")
    assert sum(counts(one, "technique").values()) == one.total


@pytest.mark.parametrize(
    "chosen", [{"status": ("declined",)}, {"condition": ("fragile",)}], ids=["status", "condition"]
)
def test_what_is_for_members_narrows_no_search_of_visitors(
    thousand: Thousand, chosen: dict[str, tuple[str, ...]]
) -> None:
    found = search(thousand, VISITOR, **chosen)
    assert set(found.ids) == thousand.having(lambda q: q.published)
    assert not {"status", "condition"} & {each.name for each in found.facets}
    assert search(thousand, **chosen).total == 0


def test_decades_beyond_all_reason_find_nothing(thousand: Thousand) -> None:
    assert search(thousand, decade=(10**30, -(10**9))).total == 0
    assert search(thousand, from_year=10**30).total == 0
    assert search(thousand, to_year=10**30, from_year=-(10**30)).total == 1000
