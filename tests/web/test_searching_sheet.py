"""A whole result as a spreadsheet: what its reader may see, and nothing that acts when opened."""

from __future__ import annotations

import csv
import io
from fractions import Fraction

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    ConditionReport,
    Location,
    Party,
    Phase,
    Quilt,
    Reading,
)
from catalogue.collection.store import add
from catalogue.exchange.result_sheet import Cell, guarded
from catalogue.values.dates import read_date

FOR_MEMBERS = {"Status", "Shown to visitors", "Condition", "Came by", "Received", "Restrictions"}
PRIVATE = {"From", "Kept", "Value for insurance"}


@pytest.fixture
def shelf(collection: Collection) -> Collection:
    """A quilt with something in every column that is guarded, and one that is not published."""
    database = collection.database
    donor = add(database, Party("Zebulon Price"), "Tess")
    add(
        database,
        Quilt(
            '=HYPERLINK("http://x")',
            accession="1987.3.1",
            published=True,
            donor=donor.id,
            restrictions="not lent",
            insurance_value="450",
            phases=(Phase("pieced", read_date("about 1930"), "@home"),),
            readings=tuple(
                Reading("overall", way, "80 1/2", Fraction(161, 2)) for way in ("width", "length")
            ),
            conditions=(ConditionReport("good", text="one tear"),),
            locations=(Location("Shelf 4"),),
        ),
        "Tess",
    )
    add(database, Quilt("Put away"), "Tess")
    return collection


def rows(client: FlaskClient, query: str = "") -> list[dict[str, str]]:
    answer = client.get(f"/search/quilts.csv{query}")
    assert answer.mimetype == "text/csv"
    assert answer.data.startswith(b"\xef\xbb\xbf")
    return list(csv.DictReader(io.StringIO(answer.data.decode("utf-8-sig"), newline="")))


def test_each_reader_has_the_columns_of_their_level(app: Flask, shelf: Collection) -> None:
    of = {role: rows(signed_in(app, role)) for role in ("volunteer", "historian")}
    of["visitor"] = rows(app.test_client())
    headings = {role: set(found[0]) for role, found in of.items()}
    assert not headings["visitor"] & (FOR_MEMBERS | PRIVATE)
    assert headings["volunteer"] - headings["visitor"] == FOR_MEMBERS
    assert headings["historian"] - headings["volunteer"] == PRIVATE
    assert [row["Title"] for row in of["visitor"]] == ['\'=HYPERLINK("http://x")']
    assert [row["Title"] for row in of["volunteer"]][1] == "Put away"
    first = of["historian"][0]
    assert (first["From"], first["Kept"]) == ("Zebulon Price", "Shelf 4")


def test_numbers_stay_numbers_and_formulas_become_text(app: Flask, shelf: Collection) -> None:
    (row,) = rows(app.test_client())
    assert (row["Width (in)"], row["Length (cm)"]) == ("80.5", "204.47")
    assert (row["Earliest year"], row["Latest year"]) == ("1925", "1935")
    assert row["Place"] == "'@home"
    assert row["Number"] == "1987.3.1"


GUARDED: list[tuple[Cell, Cell]] = [
    ("=1+1", "'=1+1"),
    ("+1", "'+1"),
    ("-1", "'-1"),
    ("@SUM(A1)", "'@SUM(A1)"),
    ("\t=1", "'\t=1"),
    ("\r=1", "'\r=1"),
    ("1 = 1", "1 = 1"),
    ("", ""),
    (-12, -12),
    (80.5, 80.5),
    (None, None),
]


@pytest.mark.parametrize(("cell", "expected"), GUARDED)
def test_cells_are_guarded(cell: Cell, expected: Cell) -> None:
    assert guarded(cell) == expected


def test_the_sheet_holds_the_whole_of_what_was_asked(app: Flask, collection: Collection) -> None:
    for number in range(45):
        add(collection.database, Quilt(f"Star {number}", published=number % 3 > 0), "Tess")
    assert len(rows(app.test_client(), "?q=star&page=2")) == 30
    assert rows(app.test_client(), "?q=basket") == []


def test_an_export_by_a_member_is_noted_in_the_watch_book(
    member: FlaskClient, visitor: FlaskClient, shelf: Collection
) -> None:
    rows(visitor)
    assert "exported" not in member.get("/watch-book").text
    rows(member, "?q=away")
    book = member.get("/watch-book").text
    assert '<td>Tess</td><th scope="row">exported</th>' in book
    assert "1 quilt as a spreadsheet: away" in book
