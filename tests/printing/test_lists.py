"""Lists to carry and walls drawn to scale are pages that say what the record says."""

from __future__ import annotations

import io

import pytest
from paper import MARKUP, printed_text
from pypdf import PdfReader

from catalogue.collection.exhibits.hanging import plan_of
from catalogue.collection.exhibits.lists import (
    hardware_lines,
    insurance_rows,
    press_rows,
    steps_home,
    steps_up,
)
from catalogue.collection.folder import Collection
from catalogue.collection.records import Exhibit, Quilt
from catalogue.collection.related import Related, related_to
from catalogue.collection.settings import Settings
from catalogue.collection.store import load, load_many
from catalogue.printing.kinds import PAPERS
from catalogue.printing.lists import Listing, print_list, print_walls

HOUSE = Settings("Hollow Ford Guild")


@pytest.fixture
def show(sample: Collection) -> tuple[Exhibit, dict[int, Quilt], Related]:
    """The sample show that has been, its quilts by id, and what they refer to."""
    found = load(sample.database, Exhibit, 1)
    quilts = load_many(sample.database, Quilt, [each.quilt for each in found.quilts])
    return found, {q.id: q for q in quilts if q.id}, related_to(sample.database, quilts)


Show = tuple[Exhibit, dict[int, Quilt], Related]


@pytest.mark.parametrize("paper", PAPERS)
def test_lists_tell_every_quilt_on_paper_of_the_size_asked_for(show: Show, paper: str) -> None:
    exhibit, quilts, _ = show
    lists = (
        Listing.of_steps("Installation", "installation checklist", steps_up(*show)),
        Listing.of_steps("Return", "return checklist", steps_home(*show)),
        Listing.of_values(insurance_rows(*show)),
        Listing.of_press(press_rows(*show)),
        Listing.of_hardware(hardware_lines(exhibit, quilts)),
    )
    for listing in lists:
        pdf = print_list(listing, exhibit, HOUSE, paper)
        box = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
        expected = [side * 72 for side in PAPERS[paper]]
        assert [float(box.width), float(box.height)] == pytest.approx(expected, abs=0.02)
        text = printed_text(pdf)
        for words in (exhibit.title, "Elmina's stars", "Charity Garrow's stars", HOUSE.name):
            assert words in text, (listing.name, words)


def test_the_press_hears_of_published_quilts_alone(show: Show) -> None:
    exhibit, quilts, related = show
    first = exhibit.quilts[0].quilt
    hidden = quilts | {first: Quilt("Not for the press", id=first)}
    titles = [row[1] for row in press_rows(exhibit, hidden, related)]
    assert titles == ["Charity Garrow's stars"]


def test_the_walls_are_a_page_each_with_their_figures_and_their_words(show: Show) -> None:
    exhibit, quilts, _ = show
    pdf = print_walls(plan_of(exhibit, quilts), exhibit, HOUSE, "Letter")
    reader = PdfReader(io.BytesIO(pdf))
    assert len(reader.pages) == len(exhibit.walls)
    box = reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((11 * 72, 8.5 * 72))
    text = printed_text(pdf)
    for words in ("Shelf wall", "Elmina's stars", "88"):
        assert words in text


def test_what_looks_like_markup_prints_as_itself_in_a_list(show: Show) -> None:
    listing = Listing("Press", ("", ""), (0.5, 0), ((MARKUP, MARKUP),))
    text = printed_text(print_list(listing, show[0], HOUSE, "A4"))
    assert text.replace(" ", "").count(MARKUP.replace(" ", "")) >= 1
