"""Dates as cataloguers and museums write them, against bounds worked out by hand."""

import csv
import json
from pathlib import Path

import pytest
from edtf import parse_edtf

from catalogue.values.date_policy import DEFAULT_POLICY
from catalogue.values.dates import (
    UNDATED,
    DateError,
    answer_date,
    read_date,
    read_edtf,
    read_phases,
)


def table(name):
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


WRITTEN = table("written_dates.csv")


def test_the_table_holds_at_least_150_different_dates_with_their_sources():
    assert len({row["text"] for row in WRITTEN}) >= 150
    assert all(row["rule"] and row["source"] for row in WRITTEN)


@pytest.mark.parametrize("row", WRITTEN, ids=lambda row: row["text"])
def test_a_written_date_has_the_edtf_and_the_bounds_of_the_rule(row):
    date = read_date(row["text"])
    assert date.written == row["text"]
    assert (date.edtf, date.earliest or "", date.latest or "") == (
        row["edtf"],
        row["earliest"],
        row["latest"],
    )


@pytest.mark.parametrize("row", WRITTEN, ids=lambda row: row["text"])
def test_what_is_written_as_edtf_is_read_back_the_same_and_by_a_second_reader(row):
    date = read_date(row["text"])
    again = read_edtf(date.edtf)
    assert (again.earliest, again.latest, again.says) == (date.earliest, date.latest, date.says)
    if row["edtf"] != "1984-1X":  # the second reader crashes over it
        assert parse_edtf(date.edtf)


@pytest.mark.parametrize("row", table("refused_dates.csv"), ids=lambda row: row["text"])
def test_what_cannot_be_told_is_refused_and_every_reading_named(row):
    with pytest.raises(DateError) as refusal:
        read_date(row["text"])
    message = str(refusal.value)
    for reading in row["names"].split(";"):
        assert reading in message
    assert not row["text"].strip() or f'"{row["text"]}"' in message


def test_two_readings_are_counted_and_named_in_one_sentence():
    with pytest.raises(DateError) as refusal:
        read_date("7/4/1876")
    assert str(refusal.value) == (
        '"7/4/1876" can be read in two ways, as 7 April 1876 or as 4 July 1876; '
        "write which is meant."
    )


@pytest.mark.parametrize(
    ("text", "phases"),
    [
        ("top 1935; quilted 1972", [("top", "1935"), ("quilted", "1972")]),
        (
            "blocks 1890s, set and quilted 1978",
            [("blocks", "189X"), ("set and quilted", "1978")],
        ),
        ("pieced c. 1890, quilted 1978", [("pieced", "1890~"), ("quilted", "1978")]),
        ("1890s top, quilted 1978", [("top", "189X"), ("quilted", "1978")]),
        ("Top: c. 1935; quilting: 1972", [("top", "1935~"), ("quilting", "1972")]),
        ("top June 4, 1935, quilted 1972", [("top", "1935-06-04"), ("quilted", "1972")]),
        ("1860 (quilt top), 1930 (quilting)", [("quilt top", "1860"), ("quilting", "1930")]),
        ("begun 1930, finished 1935", [("begun", "1930"), ("finished", "1935")]),
        (
            "late nineteenth-century top; quilted 1972",
            [("top", "1867/1899"), ("quilted", "1972")],
        ),
        (
            "top 1870-90; backing and binding 1930-60; quilted c. 1950",
            [("top", "1870/1890"), ("backing and binding", "1930/1960"), ("quilted", "1950~")],
        ),
        ("quilted 1972", [("quilted", "1972")]),
        ("c. 1935", [("", "1935~")]),
    ],
)
def test_texts_that_tell_of_phases_are_offered_as_phases(text, phases):
    assert [(phase.done, phase.date.edtf) for phase in read_phases(text)] == phases


def test_a_phase_whose_date_is_not_understood_is_refused_by_name():
    with pytest.raises(DateError, match='"7/4/1876" can be read in two ways'):
        read_phases("top 7/4/1876; quilted 1972")


def test_an_undated_quilt_is_undated_in_edtf_too():
    date = read_date("n.d.")
    assert (date.edtf, date.earliest, date.latest, date.says) == (
        UNDATED.edtf,
        None,
        None,
        "undated",
    )
    assert (date.earliest_year, date.latest_year) == (None, None)


@pytest.mark.parametrize(
    ("text", "years"),
    [("c. 1935", (1930, 1940)), ("before 1940", (None, 1939)), ("500 BC", (-499, -499))],
)
def test_the_years_of_the_bounds_are_numbers(text, years):
    date = read_date(text)
    assert (date.earliest_year, date.latest_year) == years


class TestAnswers:
    """The objects that `catalogue read dates` prints."""

    def test_a_date_is_answered_in_full(self):
        assert answer_date("c. 1935") == {
            "text": "c. 1935",
            "edtf": "1935~",
            "earliest": "1930-01-01",
            "latest": "1940-12-31",
            "says": "about 1935",
        }

    def test_what_is_not_understood_is_answered_with_a_sentence(self):
        answer = answer_date("sometime")
        assert answer["text"] == "sometime"
        assert answer["error"] == '"sometime" is not understood as a date.'

    def test_only_edtf_is_read_where_only_edtf_is_asked_for(self):
        assert "error" in answer_date("c. 1935", edtf_only=True)
        assert answer_date("1908-12", edtf_only=True)["earliest"] == "1908-12-01"
        assert answer_date("-1940", edtf_only=True)["earliest"] == "-1940-01-01"

    @pytest.mark.parametrize(
        "line",
        ["\x00", "\ud800", "١٩٣٥", "²", "1935\u2028", "(" * 5000, "c " * 60, "Y9E9999", "🧵 1935"],
    )
    def test_no_line_is_too_strange_to_be_answered(self, line):
        for edtf_only in (False, True):
            answer = answer_date(line, edtf_only)
            assert json.loads(json.dumps(answer))["text"] == line


class TestPolicy:
    """The table of vague words can be changed for a collection."""

    @pytest.mark.parametrize(
        ("settings", "text", "edtf", "earliest", "latest"),
        [
            ({"about_years": 10}, "c. 1935", "1935~", "1925-01-01", "1945-12-31"),
            ({"early_decade_last": 2}, "early 1930s", "1930/1932", "1930-01-01", "1932-12-31"),
            ({"hundreds": 100}, "late 1800s", "1867/1899", "1867-01-01", "1899-12-31"),
            ({"hundreds": 10}, "1800s", "180X", "1800-01-01", "1809-12-31"),
            ({"turn_years": 5}, "turn of the century", "1895/1905", "1895-01-01", "1905-12-31"),
            ({"spring_first_month": "9"}, "spring 1935", "1935-21", "1935-09-01", "1935-11-30"),
            ({"winter_first_month": 6}, "winter 1935", "1935-24", "1935-06-01", "1935-08-31"),
        ],
    )
    def test_a_changed_word_changes_what_is_read(self, settings, text, edtf, earliest, latest):
        date = read_date(text, DEFAULT_POLICY.changed(settings))
        assert (date.edtf, date.earliest, date.latest) == (edtf, earliest, latest)

    def test_a_turn_that_names_no_century_can_be_refused(self):
        with pytest.raises(DateError, match="three ways"):
            read_date("turn of the century", DEFAULT_POLICY.changed({"turn_bare": 0}))
