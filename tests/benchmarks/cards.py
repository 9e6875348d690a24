"""Prints how long 200 catalogue cards with photographs take, and what another PDF library takes.

    .venv/bin/python tests/benchmarks/cards.py [CARDS [ROUNDS]]

The same quilts, words, photographs and codes, in one run: as the catalogue prints them (6 x 4 in),
then drawn with fpdf2, whose type shrinks until the words fit as the catalogue's does. fpdf2 is
spared the drawings of the layouts, which it does not read in full. The bar is 4 s and 800 MB for
200 cards.
"""

from __future__ import annotations

import dataclasses
import io
import logging
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import segno
from fpdf import FPDF
from pypdf import PdfReader

from catalogue import shipped
from catalogue.collection import settings
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.collection.store import load_many
from catalogue.exchange.sample import load_sample
from catalogue.printing.entries import Entry
from catalogue.printing.kinds import KINDS, print_entries
from catalogue.printing.pictures import Pictures

ADDRESS = "https://quilts.example.org"
FONTS = shipped.folder("templates") / "print" / "fonts"
WIDTH, HEIGHT = 6 * 72, 4 * 72


def main(cards: int = 200, rounds: int = 3) -> None:
    with tempfile.TemporaryDirectory() as folder:
        collection = Collection.create(Path(folder) / "collection")
        load_sample(collection, shipped.folder("sample_collection"), lambda _: None)
        entries = entries_of(collection, cards)
        ours = lambda: print_entries(collection, KINDS["card"], entries, size="6x4")  # noqa: E731
        theirs = lambda: with_fpdf2(collection, entries)  # noqa: E731
        ours()  # the smaller pictures are made once and kept
        print(f"{cards} cards of 6 x 4 in, each with photograph, drawing and code")
        ratios = []
        for _ in range(rounds):
            seconds, pdf = timed(ours)
            other_seconds, other = timed(theirs)
            ratios.append(seconds / other_seconds)
            print(f"  the catalogue {seconds:.2f} s, {size(pdf)}; ", end="")
            print(f"fpdf2 {other_seconds:.2f} s, {size(other)}; ratio {ratios[-1]:.2f}")
        child = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(f"peak memory: typesetter {child:.0f} MB, this process {own:.0f} MB (bar 800 MB)")
        collection.close()


def entries_of(collection: Collection, cards: int) -> list[Entry]:
    """Return so many entries, the quilts of the sample again and again, each with a number."""
    ids = [row["id"] for row in collection.database.query("SELECT id FROM quilt")]
    quilts = load_many(collection.database, Quilt, ids)
    related = related_to(collection.database, quilts)
    house = dataclasses.replace(settings.read(collection.database), base_address=ADDRESS)
    return [
        Entry(dataclasses.replace(quilts[n % len(quilts)], accession=f"{n}"), related, house)
        for n in range(1, cards + 1)
    ]


def with_fpdf2(collection: Collection, entries: list[Entry]) -> bytes:
    """Return the same cards as fpdf2 draws them."""
    pdf = FPDF(unit="pt", format=(WIDTH, HEIGHT))
    pdf.set_auto_page_break(False)
    pdf.set_margin(18)
    for style, name in (("", "Regular"), ("B", "Bold")):
        pdf.add_font("gentium", style, FONTS / f"GentiumBookPlus-{name}.ttf")
    for entry in entries:
        pictures = Pictures(collection)
        draw_card(pdf, KINDS["card"].item(entry, pictures), pictures.files)
    return bytes(pdf.output())


def draw_card(pdf: FPDF, item: dict[str, object], files: dict[str, bytes]) -> None:
    """Draw one card: pictures on the right, number, title and facts on the left."""
    pdf.add_page()
    if item["photo"] is not None:
        photograph = io.BytesIO(files[str(item["photo"])])
        pdf.image(photograph, 318, 18, w=96, h=96, keep_aspect_ratio=True)
    code = io.BytesIO()
    segno.make(f"{ADDRESS}/quilts/{item['accession']}", error="m", micro=False).save(code, "png")
    pdf.image(code, 366, 222, w=48, h=48)
    pdf.set_xy(18, 18)
    pdf.set_font("gentium", "B", 14)
    pdf.multi_cell(288, 16, f"{item['accession']}  {item['title']}", align="L")
    words = "\n".join(f"{label}: {fact}" for label, fact in item["facts"])  # type: ignore[union-attr, attr-defined]
    points = 9.0
    while points > 6 and not fits(pdf, words, points):
        points -= 0.25
    pdf.set_font("gentium", "", points)
    pdf.multi_cell(288, points * 1.15, words, align="L", max_line_height=points * 1.15)


def fits(pdf: FPDF, words: str, points: float) -> bool:
    """Return whether the words fit what is left of the card at this size."""
    pdf.set_font("gentium", "", points)
    height = pdf.multi_cell(288, points * 1.15, words, align="L", dry_run=True, output="HEIGHT")
    return float(height) <= HEIGHT - 18 - pdf.get_y()


def timed(make: Callable[[], bytes]) -> tuple[float, bytes]:
    begun = time.perf_counter()
    made = make()
    return time.perf_counter() - begun, made


def size(pdf: bytes) -> str:
    return f"{len(PdfReader(io.BytesIO(pdf)).pages)} pages, {len(pdf) / 1e6:.1f} MB"


if __name__ == "__main__":
    logging.disable(logging.WARNING)  # fpdf2 tells of every table of a font that it leaves out
    main(*(int(argument) for argument in sys.argv[1:]))
