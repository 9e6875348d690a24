"""A card says what the record says, in its place, and nothing in a record is markup."""

from __future__ import annotations

import io

import pytest
from PIL import Image
from pypdf import PdfReader

from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import (
    BlockKind,
    Border,
    Inscription,
    Material,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Printing,
    Publication,
    Quilt,
    Reading,
    Technique,
)
from catalogue.collection.related import related_to
from catalogue.collection.settings import Settings
from catalogue.collection.store import add
from catalogue.printing.cards import CARD_SIZES, CardFace, card_face, print_cards
from catalogue.values.dates import read_date
from catalogue.values.lengths import parse_length

HOUSE = Settings("Hollow Ford Guild", base_address="https://quilts.example.org/")
MARKUP = "#let x = 1 $x^2$ \\u{41} <script>alert(1)</script> *bold* _under_ `code` @ref [link]"


def reading(part: str, dimension: str, written: str) -> Reading:
    return Reading(part, dimension, written, parse_length(written).inches)


@pytest.fixture
def face(collection: Collection) -> CardFace:
    """The card of a quilt with something to say in every line."""
    database = collection.database
    maker = add(
        database, Party("Ada Winter", born=read_date("1871"), died=read_date("1940")), "Tess"
    )
    column = add(database, Publication("The Fireside Page"), "Tess")
    pattern = add(
        database,
        Pattern(
            "Evening Star",
            printings=(
                Printing(
                    column.id,
                    "112",
                    read_date("May 1931"),
                    name_as_printed="Star of Eve",
                    designer_as_printed="Aunt Prudence",
                    house_name="yes",
                ),
            ),
        ),
        "Tess",
    )
    buffer = io.BytesIO()
    Image.new("RGB", (1200, 1400), "#7a2f2a").save(buffer, "JPEG")
    quilt = Quilt(
        "Evening Star",
        accession="1987.4.1",
        blocks=(BlockKind("star", pattern.id, pattern.printings[0].id),),
        phases=(Phase("pieced", read_date("c. 1935"), "Hollow Ford", "", (PhaseMaker(maker.id),)),),
        readings=(
            reading("overall", "width", "90 1/2"),
            reading("overall", "length", "90 1/2"),
            reading("block", "width", "12"),
            reading("sashing", "width", "2 1/2"),
            reading("border", "width", "3"),
        ),
        borders=(Border(),),
        materials=(Material("top", "cotton prints"),),
        techniques=(Technique("pieced", "by hand"),),
        inscriptions=(Inscription(MARKUP, "label"),),
        credit_line="Gift of the maker's family",
        photographs=(keep(collection, buffer.getvalue()),),
    )
    added = add(database, quilt, "Tess")
    return card_face(added, related_to(database, [added]), HOUSE)


def printed_text(pdf: bytes) -> str:
    text = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    return " ".join(text.split())


@pytest.mark.parametrize("size", CARD_SIZES)
def test_every_fact_is_on_the_paper_and_the_paper_has_its_size(
    collection: Collection, face: CardFace, size: str
) -> None:
    pdf = print_cards(collection, [face], HOUSE, size, "pdf")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    width, height = CARD_SIZES[size]
    assert (page.mediabox.width, page.mediabox.height) == (width * 72, height * 72)
    text = printed_text(pdf)
    for label, fact in face.facts:
        assert label in text
        assert " ".join(fact.split()) in text
    for words in (face.accession, face.title, HOUSE.name, "revision 1"):
        assert words in text


def test_a_card_names_makers_published_names_and_house_names(face: CardFace) -> None:
    facts = dict(face.facts)
    assert facts["Maker"] == "Ada Winter (1871\N{EN DASH}1940): pieced"
    assert "published as “Star of Eve”, The Fireside Page, no. 112, May 1931" in facts["Pattern"]
    assert "Aunt Prudence (a house name, not a person)" in facts["Pattern"]
    assert facts["Size"] == "length 90 1/2 x width 90 1/2 in (229.9 x 229.9 cm)"
    assert facts["Layout"].startswith("Straight set, 6 × 6, sashing between")


def test_what_looks_like_markup_prints_as_itself(collection: Collection, face: CardFace) -> None:
    text = printed_text(print_cards(collection, [face], HOUSE, "6x4", "pdf"))
    assert MARKUP in text


def test_cards_are_tagged_for_reading_aloud_and_their_pictures_have_words(
    collection: Collection, face: CardFace
) -> None:
    pdf = print_cards(collection, [face], HOUSE, "6x4", "pdf")
    reader = PdfReader(io.BytesIO(pdf))
    root = reader.trailer["/Root"]
    assert bool(root["/MarkInfo"]["/Marked"])
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert len(reader.pages[0].images) == 1
    assert reader.metadata is not None
    assert reader.metadata.title == "Catalogue card: Evening Star"


def test_fonts_are_embedded(collection: Collection, face: CardFace) -> None:
    reader = PdfReader(io.BytesIO(print_cards(collection, [face], HOUSE, "6x4", "pdf")))
    fonts = reader.pages[0]["/Resources"]["/Font"]
    for font in fonts.values():
        descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert {"/FontFile2", "/FontFile3"} & descriptor.keys()


def test_several_cards_are_several_pages(collection: Collection, face: CardFace) -> None:
    pdf = print_cards(collection, [face] * 3, HOUSE, "5x3", "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 3


def test_what_does_not_fit_is_said_and_not_cut_in_silence(
    collection: Collection, face: CardFace
) -> None:
    import dataclasses

    many = (*face.facts, *(("Note", f"Fact {n} " * 20) for n in range(30)))
    crowded = dataclasses.replace(face, facts=many, title="A very long title " * 20)
    pdf = print_cards(collection, [crowded], HOUSE, "5x3", "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 1
    assert "More is on record than this card holds." in printed_text(pdf)


def test_without_an_address_no_code_is_printed(collection: Collection, face: CardFace) -> None:
    import dataclasses

    bare = dataclasses.replace(face, address="", photograph=None, drawing="")
    pdf = print_cards(collection, [bare], HOUSE, "6x4", "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages[0].images) == 0
    assert face.address == "https://quilts.example.org/quilts/1"


def test_a_card_as_a_picture_has_the_card_s_proportions(
    collection: Collection, face: CardFace
) -> None:
    picture = Image.open(io.BytesIO(print_cards(collection, [face], HOUSE, "6x4", "png")))
    assert picture.size == (1200, 800)
