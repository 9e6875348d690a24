"""Eras have years, sources and the words people use, and no word means two eras."""

from __future__ import annotations

from collections import Counter

import pytest

from catalogue.dating.eras import UnknownEraError, era, eras, eras_within


def test_every_era_has_its_years_in_order_and_a_source() -> None:
    for each in eras():
        assert each.first <= each.last
        assert each.source
        assert all(word == word.casefold() for word in each.words)


def test_no_word_means_two_eras() -> None:
    counts = Counter(word for each in eras() for word in each.words)
    assert [word for word, number in counts.items() if number > 1] == []


@pytest.mark.parametrize(
    ("key", "first", "last"),
    [
        ("depression", 1930, 1940),  # Wylie House Museum, Indiana University
        ("crazy", 1876, 1890),  # Birmingham Museum of Art, Alabama
        ("world-war-2", 1939, 1945),
    ],
)
def test_eras_have_the_years_of_their_sources(key: str, first: int, last: int) -> None:
    assert (era(key).first, era(key).last) == (first, last)


def test_a_span_lies_in_the_eras_it_shares_years_with() -> None:
    assert {"depression", "colonial-revival"} <= {each.key for each in eras_within(1931, 1935)}
    assert "civil-war" not in {each.key for each in eras_within(1931, 1935)}


def test_an_era_nobody_knows_is_refused() -> None:
    with pytest.raises(UnknownEraError):
        era("jazz")
