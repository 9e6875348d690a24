"""Nothing that can be typed or stand in an address is an error."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from thousand import Thousand

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import VISITOR, Reader
from catalogue.collection.records import Phase, Quilt
from catalogue.collection.search.extracts import extracts_of
from catalogue.collection.search.facets import LABELS, NUMBERED
from catalogue.collection.search.finding import SORTS, Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add
from catalogue.values.dates import read_edtf

PIECES = st.sampled_from(
    [
        *("maker:", "-", '"', "“", "*", "1930", "1930s", "-1940", "before", "after", "era", "s"),
        *("feed sack", "depression", "c.", "?", "19th century", "wedding"),
        *("\N{COMBINING ACUTE ACCENT}", "²", "(", "OR"),
        *("date:", "1987.4.1", "'", "’s", "\x00", "\ud800", "ﬁ", "İ", "１９３０", "𝟏𝟗𝟑𝟎", "\\"),
    ]
)  # fmt: skip
TYPED = st.lists(PIECES | st.text(max_size=5), max_size=12).map("".join) | st.lists(
    PIECES | st.text(max_size=5), max_size=12
).map(" ".join)
YEARS = st.none() | st.integers()


@settings(
    max_examples=250,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(typed=TYPED, first=YEARS, last=YEARS, sort=st.sampled_from(SORTS), visitor=st.booleans())
@example(typed="a-" * 150, first=None, last=None, sort="fit", visitor=True)
@example(typed="- -- *", first=None, last=None, sort="fit", visitor=False)
@example(typed="zzzz", first=10**30, last=-(10**30), sort="size", visitor=False)
def test_any_question_has_an_answer(
    thousand: Thousand, typed: str, first: int | None, last: int | None, sort: str, visitor: bool
) -> None:
    reader = VISITOR if visitor else Reader("historian")
    wanted = Wanted(typed, from_year=first, to_year=last, sort=sort)
    database = thousand.collection.database
    found = find(database, thousand.index, wanted, reader=reader, count=True)
    extracts_of(database, found.ids, found.question, reader=reader)
    assert len(found.ids) <= found.total


@pytest.mark.parametrize("facet", LABELS)
@pytest.mark.parametrize("page", [-5, 10**9])
def test_values_that_nobody_has_find_nothing(thousand: Thousand, facet: str, page: int) -> None:
    values = (10**18, -1) if facet in NUMBERED else ("nothing of the kind", "\x00")
    wanted = Wanted(**{facet: values})  # type: ignore[arg-type]
    found = find(
        *(thousand.collection.database, thousand.index, wanted),
        reader=Reader("keeper"),
        count=True,
        page=page,
    )
    assert found.total == (1000 if facet == "display" else 0)
    assert found.page == 1 or facet == "display"


@pytest.mark.parametrize("edtf", ["Y33000", "Y-40000", "Y170000000", "-0500", "9999", "Y-17E7"])
def test_any_year_on_record_can_be_searched(
    collection: Collection, index: SearchIndex, edtf: str
) -> None:
    phases = (Phase("pieced", read_edtf(edtf)),)
    add(collection.database, Quilt("Stars of any age", phases=phases), "Tess")
    for sort in SORTS:
        found = find(
            *(collection.database, index, Wanted("stars", sort=sort)),
            reader=Reader("keeper"),
            count=True,
        )
        assert found.total == 1
