"""Paper is previewed, read by a second person, approved, printed and remembered."""

from __future__ import annotations

import dataclasses
import io
import re

import pytest
import zxingcpp
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image
from pypdf import PdfReader

from catalogue.collection import settings
from catalogue.collection.folder import Collection
from catalogue.collection.records import Exhibit, ExhibitQuilt, Quilt
from catalogue.collection.store import add, save


@pytest.fixture
def drawer(collection: Collection) -> Collection:
    """Two published quilts and a hidden one."""
    add(collection.database, Quilt("Stars", accession="1.1", published=True), "Ruth")
    add(collection.database, Quilt("Bars", accession="1.2", published=True), "Ruth")
    add(collection.database, Quilt("Hidden one"), "Ruth")
    return collection


def mark_on(page: str) -> str:
    found = re.search(r'name="fingerprint" value="(\w+)"', page)
    assert found, page
    return found.group(1)


def words_of(pdf: bytes) -> str:
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def test_a_wording_is_a_proof_until_a_second_person_has_read_it_and_it_is_approved(
    app: Flask, drawer: Collection
) -> None:
    ruth = signed_in(app, "historian", "Ruth")
    joan = signed_in(app, "volunteer", "Joan")
    sent = {"quilts": "1", "quilt": "1", "kind": "card"}
    sent["fingerprint"] = mark_on(ruth.get("/print?quilts=1").text)
    assert "PROOF" in words_of(ruth.get("/print/paper.pdf?quilts=1").data)

    answer = ruth.post("/print/state", data=sent, follow_redirects=True)
    assert "You changed the record last: a second person has to read it." in answer.text
    answer = ruth.post("/print/state", data=sent | {"approve": "1"}, follow_redirects=True)
    assert "A second person has to read it before it can be approved." in answer.text

    joan.post("/print/state", data=sent)
    assert "read by a second person" in joan.get("/print?quilts=1").text
    assert joan.post("/print/state", data=sent | {"approve": "1"}).status_code == 403
    ruth.post("/print/state", data=sent | {"approve": "1"})
    assert "PROOF" not in words_of(ruth.get("/print/paper.pdf?quilts=1").data)


def test_a_changed_wording_is_drafted_again(app: Flask, drawer: Collection) -> None:
    joan = signed_in(app, "historian", "Joan")
    sent = {"quilts": "1", "quilt": "1", "kind": "card"}
    sent["fingerprint"] = mark_on(joan.get("/print?quilts=1").text)
    joan.post("/print/state", data=sent)
    joan.post("/print/state", data=sent | {"approve": "1"})
    save(drawer.database, Quilt, 1, {"title": "Stars, set on point"}, by="Ruth", expecting=1)
    assert "PROOF" in words_of(joan.get("/print/paper.pdf?quilts=1").data)
    answer = joan.post("/print/state", data=sent, follow_redirects=True)
    assert "The wording has changed meanwhile: read it once more." in answer.text


def test_printed_paper_is_remembered_and_said_to_be_out_of_date(
    member: FlaskClient, drawer: Collection
) -> None:
    printed = member.post("/print/paper.pdf", data={"quilts": "1,2", "kind": "card"})
    assert printed.data.startswith(b"%PDF")
    assert "Stars" not in member.get("/print/out-of-date").text
    save(drawer.database, Quilt, 1, {"credit_line": "Gift"}, by="Ruth", expecting=1)
    page = member.get("/print/out-of-date").text
    assert "Stars" in page
    assert "credit line" in page
    assert "Bars" not in page


def test_looking_at_paper_is_not_printing_it(member: FlaskClient, drawer: Collection) -> None:
    member.get("/print/paper.pdf?quilts=1")
    member.get("/print/page.png?quilts=1")
    save(drawer.database, Quilt, 1, {"credit_line": "Gift"}, by="Ruth", expecting=1)
    assert "Stars" not in member.get("/print/out-of-date").text


def test_a_whole_exhibit_prints_in_its_order_with_its_label_texts(
    member: FlaskClient, drawer: Collection
) -> None:
    quilts = (ExhibitQuilt(2, "Bars are plain."), ExhibitQuilt(1))
    add(drawer.database, Exhibit("Plain and starry", published=True, quilts=quilts), "Ruth")
    pdf = PdfReader(io.BytesIO(member.get("/print/paper.pdf?exhibit=1&kind=label").data))
    first, second = (page.extract_text() for page in pdf.pages)
    assert "Bars are plain." in first
    assert "Stars" in second


def test_the_preview_turns_to_the_pages_there_are(member: FlaskClient, drawer: Collection) -> None:
    first = member.get("/print?quilts=1,2").text
    assert "page 1 of 2" in first
    assert "Page after" in first
    last = member.get("/print?quilts=1,2&page=2").text
    assert "Page before" in last
    assert "Page after" not in last
    assert "page 1 of" not in member.get("/print?quilts=1,2&paper=A4").text  # both on one sheet


def test_a_search_result_prints(member: FlaskClient, drawer: Collection) -> None:
    text = words_of(member.get("/print/paper.pdf?find=1&q=bars").data)
    assert "Bars" in text
    assert "Stars" not in text


def test_visitors_print_published_quilts_on_public_kinds_alone(
    visitor: FlaskClient, drawer: Collection
) -> None:
    text = words_of(visitor.get("/print/paper.pdf?quilts=1,3").data)
    assert "Stars" in text
    assert "Hidden one" not in text
    assert visitor.get("/print/paper.pdf?quilts=3").status_code == 404
    for kind in ("file", "tag", "back"):
        assert visitor.get(f"/print/paper.pdf?quilts=1&kind={kind}").status_code == 404, kind


def test_letters_that_will_not_print_are_named_beside_the_preview(
    member: FlaskClient, drawer: Collection
) -> None:
    assert "恵美" not in member.get("/print?quilts=1").text
    save(drawer.database, Quilt, 1, {"title": "Stars of 恵美"}, by="Ruth", expecting=1)
    page = member.get("/print?quilts=1").text
    assert "恵美" in page[page.index("print as empty boxes:") :]


def test_the_code_leads_to_the_address_of_the_house(
    member: FlaskClient, drawer: Collection
) -> None:
    house = settings.read(drawer.database)
    assert zxingcpp.read_barcodes(picture(member)) == []
    settings.write(
        drawer.database, dataclasses.replace(house, base_address="https://quilts.example.org")
    )
    (code,) = zxingcpp.read_barcodes(picture(member))
    assert code.text == "https://quilts.example.org/quilts/1"


def picture(member: FlaskClient) -> Image.Image:
    return Image.open(io.BytesIO(member.get("/print/page.png?quilts=1").data))
