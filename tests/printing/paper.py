"""What is printed of: a quilt with something to say in every line, and how its paper is read."""

from __future__ import annotations

import io
from collections.abc import Iterator

from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTComponent
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
from catalogue.printing.entries import Entry
from catalogue.values.dates import read_date
from catalogue.values.lengths import parse_length

HOUSE = Settings("Hollow Ford Guild", base_address="https://quilts.example.org/")
MARKUP = "#let x = 1 $x^2$ \\u{41} <script>alert(1)</script> *bold* _under_ `code` @ref [link]"


def reading(part: str, dimension: str, written: str) -> Reading:
    return Reading(part, dimension, written, parse_length(written).inches)


def full_entry(collection: Collection) -> Entry:
    """Return the entry of a quilt with something to say in every line, in this collection."""
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
    return Entry(added, related_to(database, [added]), HOUSE)


def printed_text(pdf: bytes) -> str:
    """Return the words of a PDF as an independent reader finds them, white space tidied."""
    text = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    return " ".join(text.split())


def letters_of_pages(pdf: bytes) -> Iterator[list[LTChar]]:
    """Yield the letters of each page with their boxes in points, the origin at the lower left."""
    for page in extract_pages(io.BytesIO(pdf)):
        yield [each for each in _letters(page) if each.get_text().strip()]


def _letters(part: LTComponent) -> Iterator[LTChar]:
    if isinstance(part, LTChar):
        yield part
    elif hasattr(part, "__iter__"):
        for inner in part:
            yield from _letters(inner)
