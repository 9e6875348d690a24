"""A talk on paper: everything it needs is on its sheets, on the clock, and inside the margins."""

from __future__ import annotations

import dataclasses
import io
import re
from collections.abc import Callable

import pytest
from paper import MARKUP, letters_of_pages, printed_text
from pypdf import PdfReader

from catalogue.collection.folder import Collection
from catalogue.collection.records import Photograph, Quilt, Talk, TalkItem
from catalogue.collection.settings import Settings
from catalogue.collection.store import load
from catalogue.collection.talks.clock import on_the_clock
from catalogue.collection.talks.programme import Programme, programme_of
from catalogue.printing.kinds import PAPERS
from catalogue.printing.talks.handout import print_handout
from catalogue.printing.talks.pull_list import print_pull_list
from catalogue.printing.talks.slides import print_slides
from catalogue.printing.talks.speaker import print_speaker

POINTS = 72
HOUSE = Settings("Hollow Ford Guild")
PRINTERS: dict[str, Callable[[Collection, Programme, Settings, str], bytes]] = {
    "speaker": print_speaker,
    "handout": print_handout,
    "slides": print_slides,
    "pull": print_pull_list,
}
LONGEST = 500  # what a line of a form may hold


@pytest.fixture
def stars(sample: Collection) -> Programme:
    """The sample talk that was given."""
    return programme_of(sample.database, load(sample.database, Talk, 1))


@pytest.fixture
def wrapper(sample: Collection) -> Programme:
    """The sample talk that is planned, some of whose quilts may not travel."""
    return programme_of(sample.database, load(sample.database, Talk, 2))


@pytest.fixture
def crowded(sample: Collection, stars: Programme) -> Programme:
    """A talk with as much in every place as a form lets in, and a word that never ends."""
    words = ("W" * 200 + " and so on" * 40)[:LONGEST]
    borrowed = TalkItem(words, borrowed=True, minutes=600, notes="# Read\n\n" + "Slowly. " * 900)
    heading = TalkItem(words, notes="- one\n- " + "x" * 300)
    talk = dataclasses.replace(
        stars.talk,
        title=("Stars upon stars " * 40)[:LONGEST],
        place=words,
        notes=MARKUP,
        further_reading=f"## Books\n\n[A book](https://example.org/{'y' * 300})",
        items=(*stars.talk.items, heading, borrowed) * 2,
    )
    return programme_of(sample.database, talk)


def printed(key: str, sample: Collection, programme: Programme, paper: str = "A4") -> bytes:
    return PRINTERS[key](sample, programme, HOUSE, paper)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("key", PRINTERS)
def test_every_page_is_as_large_as_its_paper_and_slides_are_sixteen_to_nine(
    sample: Collection, stars: Programme, key: str, paper: str
) -> None:
    width, height = PAPERS[paper]
    if key == "slides":
        width, height = 7.5 * 16 / 9, 7.5
    for page in PdfReader(io.BytesIO(printed(key, sample, stars, paper))).pages:
        size = (float(page.mediabox.width), float(page.mediabox.height))
        assert size == pytest.approx((width * POINTS, height * POINTS), abs=0.02)


@pytest.mark.parametrize("key", PRINTERS)
def test_sheets_of_a_talk_can_be_read_aloud_and_carry_their_fonts(
    sample: Collection, stars: Programme, key: str
) -> None:
    reader = PdfReader(io.BytesIO(printed(key, sample, stars)))
    root = reader.trailer["/Root"]
    assert bool(root["/MarkInfo"]["/Marked"])
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert reader.metadata is not None
    assert stars.talk.title in str(reader.metadata.title)
    fonts = [f for p in reader.pages for f in p["/Resources"]["/Font"].values()]
    for font in fonts:
        descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert {"/FontFile2", "/FontFile3"} & descriptor.keys()


@pytest.mark.parametrize(
    ("key", "paper", "margin"),
    [
        # inches: the least of the templates
        *((key, paper, 0.7) for key in ("speaker", "handout", "pull") for paper in PAPERS),
        ("slides", "A4", 0.6),
    ],
)
@pytest.mark.parametrize("fixture", ["wrapper", "crowded"])
def test_no_letter_stands_in_a_margin(
    sample: Collection,
    request: pytest.FixtureRequest,
    key: str,
    paper: str,
    margin: float,
    fixture: str,
) -> None:
    pdf = printed(key, sample, request.getfixturevalue(fixture), paper)
    box = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    side = margin * POINTS - 1  # a point for the overhang of letters
    foot = 0.3 * POINTS  # the running foot stands in the margin below
    for letters in letters_of_pages(pdf):
        assert letters
        for letter in letters:
            assert side <= letter.x0, letter
            assert letter.x1 <= float(box.width) - side, letter
            assert foot <= letter.y0, letter
            assert letter.y1 <= float(box.height) - side + 4, letter


def test_what_looks_like_markup_prints_as_itself_on_the_sheets_of_a_talk(
    sample: Collection, stars: Programme
) -> None:
    items = (TalkItem(MARKUP, borrowed=True), *stars.talk.items)
    talk = dataclasses.replace(stars.talk, title=MARKUP, items=items)
    programme = programme_of(sample.database, talk)
    for key in PRINTERS:
        text = printed_text(printed(key, sample, programme)).replace(" ", "")
        assert text.count(MARKUP.replace(" ", "")) >= 2, key


def test_the_speaker_reads_each_item_beside_the_time_at_which_it_begins(
    sample: Collection, stars: Programme
) -> None:
    text = printed_text(printed("speaker", sample, stars)).replace("\N{NO-BREAK SPACE}", " ")
    places = []
    for turn in stars.turns:
        clock = on_the_clock("14:00", turn.begins)
        number = f"{turn.number}. " if turn.number is not None else ""
        found = re.search(rf"{clock}.{{0,12}}{re.escape(number + turn.title)}", text)
        assert found, (clock, turn.title)
        places.append(found.start())
    assert places == sorted(places)
    assert "44 minutes in all, 1 less than the slot of 45." in text
    assert "2:44 pm the end, and questions" in text


def test_the_speaker_s_notes_are_set_large_with_their_lists_and_stress(
    sample: Collection, stars: Programme
) -> None:
    sizes: dict[str, float] = {}

    def visit(text: str, _: object, matrix: list[float], __: object, size: float) -> None:
        sizes[" ".join(text.split())] = abs(size * matrix[3])

    reader = PdfReader(io.BytesIO(printed("speaker", sample, stars)))
    for page in reader.pages:
        page.extract_text(visitor_text=visit)
    # 18 point: the least that is called large print (common practice, from memory)
    assert sizes["Fold a square of newspaper while they watch."] >= 18
    assert sizes["hatbox, 1890s"] >= 18
    text = printed_text(printed("speaker", sample, stars))
    for words in ("• the corded edge", "1. hatbox, 1890s 2. sheeting", "right: 1846, a bride’s"):
        assert words in text, words


def test_a_strip_that_fits_a_page_is_not_torn(sample: Collection, stars: Programme) -> None:
    notes = "\n\n".join(f"Say line {n}." for n in range(1, 9))
    items = tuple(TalkItem(f"Borrowed {n}", borrowed=True, notes=notes) for n in range(1, 9))
    talk = dataclasses.replace(stars.talk, items=items)
    pdf = printed("speaker", sample, programme_of(sample.database, talk))
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    assert len(pages) > 2
    for page in pages:
        assert page.count("Borrowed") == page.count("Say line 8.") == page.count("Say line 1.")


def test_the_speaker_is_told_who_holds_what_and_what_stays(
    sample: Collection, wrapper: Programme
) -> None:
    text = printed_text(printed("speaker", sample, wrapper))
    assert re.search(r"Framed star of chintz.*Stays where it is: condition fragile", text)
    assert re.search(r"Paths and Posies.*Stays where it is: it hangs in “What the column", text)
    assert re.search(r"Little Miss Merrilow.{0,80}Two people hold it\.", text)
    chintz = text[text.index("Framed star of chintz") :]
    assert "Two people" not in chintz  # nobody holds what stays where it is


def test_the_handout_takes_home_tombstones_sources_and_reading_and_no_notes(
    sample: Collection, stars: Programme
) -> None:
    text = printed_text(printed("handout", sample, stars))
    for words in (
        "Probably made by Charity Loomis Garrow (1828–1907)",
        "Gift of Ivor Quillan",
        "Picture: Dele Akande; CC0, drawn for this sample collection",
        "Eight-pointed star on feed sacks",
        "“The Corrow Star” (Friendship Star), The Thimble Corner, no. 271",
        "Plain Patchwork for Winter Evenings, privately printed",
    ):
        assert words in text, words
    for secret in ("Gloves on the table", "bride's trunk", "a bride’s trunk", "Hold up the back"):
        assert secret not in text, secret


def without_rights(quilt: Quilt) -> Quilt:
    silent: tuple[Photograph, ...] = tuple(
        dataclasses.replace(photo, rights="") for photo in quilt.photographs
    )
    return dataclasses.replace(quilt, photographs=silent)


@pytest.mark.parametrize("key", ["handout", "slides"])
def test_a_picture_without_permission_is_left_out_of_what_others_see(
    sample: Collection, stars: Programme, key: str
) -> None:
    def pictures(programme: Programme) -> int:
        reader = PdfReader(io.BytesIO(printed(key, sample, programme)))
        return sum(len(page.images) for page in reader.pages)

    turns = tuple(
        dataclasses.replace(turn, subject=without_rights(turn.quilt)) if turn.number == 1 else turn
        for turn in stars.turns
        if turn.quilt is not None or turn.kind == "heading"
    )
    allowed = dataclasses.replace(stars, turns=tuple(t for t in stars.turns if t.quilt))
    assert pictures(allowed) == 3
    assert pictures(dataclasses.replace(stars, turns=turns)) == 2


def test_slides_are_a_page_an_item_between_the_title_and_the_credits(
    sample: Collection, stars: Programme
) -> None:
    pdf = printed("slides", sample, stars)
    pages = [" ".join(p.extract_text().split()) for p in PdfReader(io.BytesIO(pdf)).pages]
    assert len(pages) == len(stars.turns) + 2
    assert pages[0].startswith("Ninety years of stars Marguerite Odell")
    for turn, page in zip(stars.turns, pages[1:-1], strict=True):
        assert page.startswith(turn.title)
    assert "Picture: Dele Akande; CC0" in pages[2]
    assert pages[-1].startswith("Pictures “Charity Garrow's stars”, “Elmina's stars,")
    assert "Gloves" not in "".join(pages)


def test_the_pull_list_goes_along_the_shelves_and_says_how_to_handle_things(
    sample: Collection, wrapper: Programme
) -> None:
    text = printed_text(printed("pull", sample, wrapper))
    order = ["Entry shelf", "vault shelf C1", "flat drawer 1", "roll 8", "roll 10"]
    places = [text.index(place) for place in order]
    assert places == sorted(places)
    for words in (
        "out back place what how to handle it",
        "two people",
        "stays: condition fragile",
        "Hazardous dyes and residues",
        "19.5 square yards (16.3 square metres) of cloth in 4 quilts.",
    ):
        assert words in text, words
