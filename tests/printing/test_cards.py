"""A card says what the record says, in its place, and nothing in a record is markup."""

from __future__ import annotations

import dataclasses
import io

import pytest
from paper import HOUSE, MARKUP, printed_text
from PIL import Image
from pypdf import PdfReader

from catalogue.collection.folder import Collection
from catalogue.collection.records import Inscription
from catalogue.collection.settings import Settings
from catalogue.printing.entries import Entry
from catalogue.printing.facts import facts_of
from catalogue.printing.kinds import KINDS, print_entries
from catalogue.printing.pictures import Pictures, record_address
from catalogue.printing.typeset import Format

CARD = KINDS["card"]


def printed(collection: Collection, entries: list[Entry], size: str, format: Format) -> bytes:
    return print_entries(collection, CARD, entries, size=size, format=format)


@pytest.mark.parametrize("size", CARD.sizes)
def test_every_fact_is_on_the_paper_and_the_paper_has_its_size(
    collection: Collection, entry: Entry, size: str
) -> None:
    pdf = printed(collection, [entry], size, "pdf")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    width, height = CARD.sizes[size]
    assert (page.mediabox.width, page.mediabox.height) == (width * 72, height * 72)
    text = printed_text(pdf)
    for label, fact in facts_of(entry.quilt, entry.related):
        assert label in text
        assert " ".join(fact.split()) in text
    for words in (entry.accession, entry.quilt.title, HOUSE.name, "revision 1"):
        assert words in text


def test_a_card_names_makers_published_names_and_house_names(entry: Entry) -> None:
    facts = dict(facts_of(entry.quilt, entry.related))
    assert facts["Maker"] == "Ada Winter (1871\N{EN DASH}1940): pieced"
    assert "published as “Star of Eve”, The Fireside Page, no. 112, May 1931" in facts["Pattern"]
    assert "Aunt Prudence (a house name, not a person)" in facts["Pattern"]
    assert facts["Size"] == "length 90 1/2 x width 90 1/2 in (229.9 x 229.9 cm)"
    assert facts["Layout"].startswith("Straight set, 6 × 6, sashing between")


def test_what_looks_like_markup_prints_as_itself(collection: Collection, entry: Entry) -> None:
    text = printed_text(printed(collection, [entry], "6x4", "pdf"))
    assert MARKUP in text


def test_cards_are_tagged_for_reading_aloud_and_their_pictures_have_words(
    collection: Collection, entry: Entry
) -> None:
    pdf = printed(collection, [entry], "6x4", "pdf")
    reader = PdfReader(io.BytesIO(pdf))
    root = reader.trailer["/Root"]
    assert bool(root["/MarkInfo"]["/Marked"])
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert len(reader.pages[0].images) == 1
    assert reader.metadata is not None
    assert reader.metadata.title == "Catalogue card: Evening Star"


def test_fonts_are_embedded(collection: Collection, entry: Entry) -> None:
    reader = PdfReader(io.BytesIO(printed(collection, [entry], "6x4", "pdf")))
    fonts = reader.pages[0]["/Resources"]["/Font"]
    for font in fonts.values():
        descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert {"/FontFile2", "/FontFile3"} & descriptor.keys()


def test_several_cards_are_several_pages(collection: Collection, entry: Entry) -> None:
    pdf = printed(collection, [entry] * 3, "5x3", "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 3


def test_what_does_not_fit_is_said_and_not_cut_in_silence(
    collection: Collection, entry: Entry
) -> None:
    labels = tuple(Inscription(f"Fact {n} " * 20, "label") for n in range(30))
    quilt = dataclasses.replace(entry.quilt, title="A long title " * 20, inscriptions=labels)
    crowded = dataclasses.replace(entry, quilt=quilt)
    pdf = printed(collection, [crowded], "5x3", "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 1
    assert "More is on record than this card holds." in printed_text(pdf)


def test_without_an_address_no_code_is_printed(collection: Collection, entry: Entry) -> None:
    nowhere = dataclasses.replace(entry, house=Settings("Hollow Ford Guild"))
    data = CARD.item(nowhere, Pictures(collection))
    assert data["qr"] is None
    assert record_address(entry.quilt, HOUSE) == "https://quilts.example.org/quilts/1"


def test_a_card_as_a_picture_has_the_card_s_proportions(
    collection: Collection, entry: Entry
) -> None:
    picture = Image.open(io.BytesIO(printed(collection, [entry], "6x4", "png")))
    assert picture.size == (900, 600)
