"""The dates of a period: the standard's own tables, and how our additions are read."""

import csv
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.provenance.date_phrases import dates_from_bounds
from catalogue.provenance.transfer_dates import UNKNOWN, read_transfer_dates
from catalogue.values.dates import DateError

PUBLISHED = Path(__file__).parents[1] / "published" / "provenance_dates.csv"
with PUBLISHED.open(encoding="utf-8", newline="") as lines:
    TABLE = list(csv.DictReader(lines))


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row["phrase"])
def test_every_phrase_of_the_standard_gives_its_bounds(row):
    dates = read_transfer_dates(row["phrase"])
    begins = (row["begins_earliest"] or None, row["begins_latest"] or None)
    ends = (row["ends_earliest"] or None, row["ends_latest"] or None)
    assert (dates.begins, dates.ends) == (begins, ends)
    assert dates.phrase == row["phrase"]


OURS = [  # phrase, begins, ends; common practice, no source
    ("1935–60", ("1935-01-01", "1935-12-31"), ("1960-01-01", "1960-12-31")),
    ("from 1935 to 1960", ("1935-01-01", "1935-12-31"), ("1960-01-01", "1960-12-31")),
    ("1935 to 1960", ("1935-01-01", "1935-12-31"), ("1960-01-01", "1960-12-31")),
    ("May 1935 through June 1936", ("1935-05-01", "1935-05-31"), ("1936-06-01", "1936-06-30")),
    ("since 1940", ("1940-01-01", "1940-12-31"), UNKNOWN),
    ("by October 1990", (None, "1990-10-31"), UNKNOWN),
    ("c. 1935", ("1930-01-01", "1940-12-31"), UNKNOWN),
    ("the 19th century", ("1800-01-01", "1899-12-31"), UNKNOWN),
    ("in the 1960s", (None, "1969-12-31"), ("1960-01-01", None)),
    ("1935-06-01", ("1935-06-01", "1935-06-01"), UNKNOWN),
    (
        "sometime between May 5, 1935 and June 1, 1936",
        ("1935-05-05", "1936-06-01"),
        UNKNOWN,
    ),
]


@pytest.mark.parametrize(("phrase", "begins", "ends"), OURS)
def test_other_wordings_in_use_are_read_too(phrase, begins, ends):
    dates = read_transfer_dates(phrase)
    assert (dates.begins, dates.ends) == (begins, ends)


def test_a_question_mark_qualifies_the_date_before_it_and_moves_no_bound():
    dates = read_transfer_dates("1901? until 1923")
    assert (dates.begins_doubtful, dates.ends_doubtful) == (True, False)
    assert dates.begins == ("1901-01-01", "1901-12-31")
    assert read_transfer_dates("until October 1885?").ends_doubtful


def test_between_without_sometime_is_read_as_the_standard_says_and_remarked_upon():
    assert 'write "sometime between"' in read_transfer_dates("between 1995 and 1996").caution
    assert not read_transfer_dates("sometime between 1995 and 1996").caution


def test_an_end_before_the_begin_is_kept_and_remarked_upon():
    dates = read_transfer_dates("1996 until 1995")
    assert dates.ends == ("1995-01-01", "1995-12-31")
    assert "ends before it begins" in dates.caution


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("7/4/1876", "two ways"),
        ("until 1908-12", "two ways"),
        ("Worcester", "has no date"),
        ("12 Main Street", "not understood"),
        ("until", "has no date"),
        ("sometime between 1996 and 1990", "ends before it begins"),
        ("in 1990 until", "not understood"),
    ],
)
def test_what_cannot_be_read_is_refused_with_the_reason(text, says):
    with pytest.raises(DateError, match=says):
        read_transfer_dates(text)


days = st.dates(min_value=date(1700, 1, 1), max_value=date(2100, 12, 31)).map(str)


@st.composite
def bounds(draw):
    first, last = sorted((draw(days), draw(days)))
    year = first[:4]
    shapes = [
        (None, None),
        (first, None),
        (None, last),
        (first, last),
        (f"{year}-01-01", f"{year}-12-31"),
        (first, first),
    ]
    return draw(st.sampled_from(shapes))


@settings(max_examples=200, deadline=None, derandomize=True)
@given(begins=bounds(), ends=bounds(), doubts=st.tuples(st.booleans(), st.booleans()))
def test_the_phrase_made_for_any_bounds_reads_back_as_these_bounds(begins, ends, doubts):
    begins_doubt, ends_doubt = doubts[0] and begins != UNKNOWN, doubts[1] and ends != UNKNOWN
    dates = dates_from_bounds(begins, ends, begins_doubt, ends_doubt)
    if dates.phrase:
        read = read_transfer_dates(dates.phrase)
        assert (read.begins, read.ends) == (begins, ends)


@pytest.mark.parametrize("row", TABLE[:12], ids=lambda row: row["phrase"])
def test_bounds_are_printed_in_a_phrase_of_the_standard(row):
    dates = read_transfer_dates(row["phrase"])
    preferred = {
        "before 1995": "by 1995",
        "as of 1995": "by 1995",
        "until sometime after 1996": "until at least 1996",
    }
    expected = preferred.get(row["phrase"], row["phrase"])
    assert dates_from_bounds(dates.begins, dates.ends).phrase == expected
