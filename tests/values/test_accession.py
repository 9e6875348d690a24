"""Accession numbers: The New Museum Registration Methods (1998), year.lot.item."""

import random
import sqlite3

import pytest

from catalogue.values.accession import (
    AccessionError,
    AccessionNumber,
    next_number,
    parse_accession,
)

CONVENTION = [  # every form of the convention, and how it is punctuated
    ("1995.1", (1995, 1, 0, 0, "")),
    ("1995.4.1", (1995, 4, 1, 0, "")),
    ("1995.4.3.1", (1995, 4, 3, 1, "")),
    ("1995.5.2a", (1995, 5, 2, 0, "a")),
    ("1995.1b", (1995, 1, 0, 0, "b")),
    ("1995-4-1", (1995, 4, 1, 0, "")),
    ("1995–4–1", (1995, 4, 1, 0, "")),
    ("1995.04.10", (1995, 4, 10, 0, "")),
    ("1995.5.2AB", (1995, 5, 2, 0, "ab")),
    ("  2004.12 ", (2004, 12, 0, 0, "")),
]


@pytest.mark.parametrize(("text", "parts"), CONVENTION)
def test_reads_the_convention_and_keeps_it_as_written(text, parts):
    number = parse_accession(text)
    assert (number.year, number.lot, number.item, number.part, number.component) == parts
    assert str(number) == text.strip()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is not an accession number"),
        ("quilt 7", "is not an accession number"),
        ("1995", "no number after the year"),
        ("95.4.1", "whole year"),
        ("19950.4", "whole year"),
        ("1995.4-1", "mixes points and hyphens"),
        ("1995.4.3.1.2", "too many parts"),
        ("1995.0", "count from 1"),
        ("1995.4.1abc", "component letters"),
        ("1995.4.1a-c", "is not an accession number"),
        ("1995..4", "is not an accession number"),
        ("1995.1234567", "999,999"),
        ("١٩٩٥.١", "is not an accession number"),
    ],
)
def test_refuses_with_one_sentence_that_quotes_the_text(text, says):
    with pytest.raises(AccessionError, match=says) as refusal:
        parse_accession(text)
    assert f'"{text}"' in str(refusal.value)


def test_numbers_with_the_same_parts_are_one_number_whatever_the_punctuation():
    assert parse_accession("1995.4.1") == parse_accession("1995-04-1")
    assert len({parse_accession("1995.4.1"), parse_accession("1995-4-1")}) == 1


# fmt: off
ORDERED = [
    "1994.12", "1995.1", "1995.1a", "1995.1b", "1995.4.1", "1995.4.3.1", "1995.4.3.2", "1995.4.9",
    "1995.4.10", "1995.5.2", "1995.5.2a", "1995.5.2z", "1995.5.2aa", "1995.10", "2004.1",
]
# fmt: on


def test_sorts_by_number_part_by_part():
    shuffled = [parse_accession(text) for text in ORDERED]
    random.Random(4).shuffle(shuffled)
    assert [str(number) for number in sorted(shuffled)] == ORDERED


def test_text_key_gives_the_same_order_in_sqlite():
    rows = [(text, parse_accession(text).sort_text) for text in ORDERED]
    random.Random(5).shuffle(rows)
    with sqlite3.connect(":memory:") as store:
        store.execute("create table objects (number text, sort_text text)")
        store.executemany("insert into objects values (?, ?)", rows)
        found = store.execute("select number from objects order by sort_text").fetchall()
    assert [number for (number,) in found] == ORDERED


def test_a_component_knows_the_object_it_belongs_to():
    assert str(parse_accession("1995-5-2a").whole) == "1995-5-2"
    assert parse_accession("1995.5.2").whole == parse_accession("1995.5.2")


@pytest.mark.parametrize(
    ("existing", "year", "lot", "expected"),
    [
        ([], 2024, None, "2024.1"),
        (["2024.1", "2024.9", "2024.10"], 2024, None, "2024.11"),
        (["2023.40"], 2024, None, "2024.1"),
        (["2024-3"], 2024, None, "2024-4"),
        (["2024.007"], 2024, None, "2024.008"),
        (["2024.4.1", "2024.4.2a", "2024.5"], 2024, 4, "2024.4.3"),
        (["2024.5"], 2024, 5, "2024.5.1"),
        (["2024.007.09"], 2024, 7, "2024.007.10"),
        (["2024.1", "2024.3"], 2024, None, "2024.4"),  # a gap is not filled
    ],
)
def test_next_number_follows_the_highest_and_the_house_style(existing, year, lot, expected):
    known = [parse_accession(text) for text in existing]
    assert str(next_number(known, year, lot)) == expected


def test_a_number_built_from_parts_prints_with_points():
    assert str(AccessionNumber(1995, 4, 3, 1, "a")) == "1995.4.3.1a"
