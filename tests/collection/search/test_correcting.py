"""A misspelt word is put right within the whole question."""

from __future__ import annotations

import pytest
from thousand import Thousand

from catalogue.collection.privacy import VISITOR
from catalogue.collection.search.finding import Wanted, find


@pytest.mark.parametrize(
    ("typed", "suggestion"),
    [
        ("weding", "wedding"),
        ("wedidng", "wedding"),
        ("weddings fodled", "weddings folded"),
        ("orchrad -stitched", "orchard -stitched"),
        ('"holow ford" ferry', '"hollow ford" ferry'),
        ("maker:wintre", "maker:winter"),
        ("hollowford", "hollow ford"),
        ("scoolhouse 1930s", "schoolhouse 1930s"),
        ("wedding", ""),
        ("xylophones", ""),
        ("", ""),
        ("stitchi* weding", "stitchi* wedding"),
    ],
)
def test_the_question_that_was_meant(thousand: Thousand, typed: str, suggestion: str) -> None:
    database = thousand.collection.database
    found = find(database, thousand.index, Wanted(typed), reader=VISITOR)
    assert found.suggestion == suggestion
    if suggestion:
        assert find(database, thousand.index, Wanted(suggestion), reader=VISITOR).total
