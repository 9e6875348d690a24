"""Every kind of paper: its size, its words, its edges, its code; read back by other libraries."""

from __future__ import annotations

import dataclasses
import io

import pytest
import zxingcpp
from paper import HOUSE, MARKUP, letters_of_pages, printed_text
from PIL import Image
from pypdf import PdfReader

from catalogue.collection.folder import Collection
from catalogue.collection.records import Inscription
from catalogue.printing.entries import Entry
from catalogue.printing.fonts import missing_letters
from catalogue.printing.kinds import KINDS, PAPERS, fingerprint, print_entries
from catalogue.printing.pictures import record_address

POINTS = 72
SIZED = [(kind.key, size) for kind in KINDS.values() for size in kind.sizes]
WHOLE = [key for key, kind in KINDS.items() if not kind.sizes]
LABEL_TEXT = "The strips are set as in the diagram. Look for the star that points the other way."


@pytest.fixture
def shown(entry: Entry) -> Entry:
    """The quilt with a number and a label text in an exhibit."""
    return dataclasses.replace(entry, number="7", label_text=LABEL_TEXT)


@pytest.fixture
def crowded(shown: Entry) -> Entry:
    """The quilt with more to say than any card holds."""
    labels = tuple(Inscription(f"Fact {n} " * 20, "label") for n in range(30))
    quilt = dataclasses.replace(shown.quilt, title="A long title " * 20, inscriptions=labels)
    return dataclasses.replace(shown, quilt=quilt, label_text="Word upon word. " * 200)


def size_of_page(pdf: bytes) -> tuple[float, float]:
    box = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    return float(box.width), float(box.height)


@pytest.mark.parametrize(("key", "size"), SIZED)
def test_a_piece_has_exactly_its_size(
    collection: Collection, shown: Entry, key: str, size: str
) -> None:
    width, height = KINDS[key].sizes[size]
    pdf = print_entries(collection, KINDS[key], [shown], size=size)
    assert size_of_page(pdf) == pytest.approx((width * POINTS, height * POINTS), abs=0.01)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("key", KINDS)
def test_a_sheet_has_the_size_of_its_paper(
    collection: Collection, shown: Entry, key: str, paper: str
) -> None:
    # ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter (A) is 8 1/2 x 11 in
    expected = {"A4": (210 / 25.4, 297 / 25.4), "Letter": (8.5, 11)}[paper]
    pdf = print_entries(collection, KINDS[key], [shown], paper=paper)
    assert size_of_page(pdf) == pytest.approx([side * POINTS for side in expected], abs=0.02)


@pytest.mark.parametrize("key", KINDS)
def test_who_when_and_the_number_are_on_every_kind(
    collection: Collection, shown: Entry, key: str
) -> None:
    text = printed_text(print_entries(collection, KINDS[key], [shown]))
    words = ["Evening Star", "1987.4.1"]
    words += ["Ada Winter", "1935"] if key != "tag" else ["Clean hands"]
    words += [LABEL_TEXT] if key in ("label", "booklet") else []
    words += ["Gift of the maker's family"] if key in ("label", "booklet", "file") else []
    assert [each for each in words if each not in text] == []


@pytest.mark.parametrize("key", KINDS)
def test_what_looks_like_markup_prints_as_itself_on_every_kind(
    collection: Collection, shown: Entry, key: str
) -> None:
    quilt = dataclasses.replace(shown.quilt, title=MARKUP, accession="$x$ #let")
    text = printed_text(
        print_entries(collection, KINDS[key], [dataclasses.replace(shown, quilt=quilt)])
    )
    assert "$x$ #let" in text
    assert MARKUP.replace(" ", "") in text.replace(" ", "")  # lines may end within it


@pytest.mark.parametrize("fixture", ["shown", "crowded"])
@pytest.mark.parametrize(("key", "size"), SIZED)
def test_no_letter_stands_outside_its_piece(
    collection: Collection, request: pytest.FixtureRequest, key: str, size: str, fixture: str
) -> None:
    entry: Entry = request.getfixturevalue(fixture)
    kind = KINDS[key]
    width, height = kind.sizes[size]
    margin = kind.margin * POINTS - 1  # a point for the overhang of letters
    (letters,) = letters_of_pages(print_entries(collection, kind, [entry], size=size))
    assert len(letters) > 10
    for letter in letters:
        assert margin <= letter.x0, letter
        assert letter.x1 <= width * POINTS - margin, letter
        assert margin - 2 <= letter.y0, letter
        assert letter.y1 <= height * POINTS - margin + 3, letter


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("key", "size"), SIZED)
def test_on_a_sheet_every_letter_stands_in_one_of_the_pieces(
    collection: Collection, crowded: Entry, key: str, size: str, paper: str
) -> None:
    kind = KINDS[key]
    pdf = print_entries(collection, kind, [crowded] * 5, size=size, paper=paper)
    places = _pieces(*PAPERS[paper], *kind.sizes[size])
    counted = 0
    for letters in letters_of_pages(pdf):
        for letter in letters:
            middle = ((letter.x0 + letter.x1) / 2, (letter.y0 + letter.y1) / 2)
            (place,) = [
                p for p in places if p[0] <= middle[0] <= p[2] and p[1] <= middle[1] <= p[3]
            ]
            assert place[0] <= letter.x0, letter
            assert letter.x1 <= place[2], letter
            counted += 1
    assert counted > 200


def _pieces(
    paper_width: float, paper_height: float, width: float, height: float
) -> list[tuple[float, float, float, float]]:
    """Return the boxes of the pieces on a sheet in points, as many as go on it 0.3 in apart."""
    across = max(1, int((paper_width - 0.3) / (width + 0.3)))
    down = max(1, int((paper_height - 0.3) / (height + 0.3)))
    left = (paper_width - across * width - (across - 1) * 0.3) / 2
    low = (paper_height - down * height - (down - 1) * 0.3) / 2
    corners = [
        (left + column * (width + 0.3), low + row * (height + 0.3))
        for row in range(down)
        for column in range(across)
    ]
    return [
        (x * POINTS, y * POINTS, (x + width) * POINTS, (y + height) * POINTS) for x, y in corners
    ]


@pytest.mark.parametrize(("key", "size"), [pair for pair in SIZED if pair[0] in ("card", "tag")])
@pytest.mark.parametrize("fixture", ["shown", "crowded"])
def test_the_code_is_read_back_and_no_letter_stands_on_it(
    collection: Collection, request: pytest.FixtureRequest, key: str, size: str, fixture: str
) -> None:
    entry: Entry = request.getfixturevalue(fixture)
    kind = KINDS[key]
    picture = Image.open(
        io.BytesIO(print_entries(collection, kind, [entry], size=size, format="png"))
    )
    (code,) = zxingcpp.read_barcodes(picture)
    assert code.text == record_address(entry.quilt, HOUSE)
    scale = picture.width / (kind.sizes[size][0] * POINTS)
    across = [p.x / scale for p in _corners(code)]
    down = [(picture.height - p.y) / scale for p in _corners(code)]
    (letters,) = letters_of_pages(print_entries(collection, kind, [entry], size=size))
    for letter in letters:
        outside = letter.x1 < min(across) or letter.x0 > max(across)
        outside = outside or letter.y1 < min(down) or letter.y0 > max(down)
        assert outside, letter


def _corners(code: zxingcpp.Barcode) -> list[zxingcpp.Point]:
    at = code.position
    return [at.top_left, at.top_right, at.bottom_left, at.bottom_right]


def test_nothing_on_a_wall_label_is_smaller_than_24_point(
    collection: Collection, shown: Entry
) -> None:
    # the least size, 24 point: US National Park Service, as in label_rules.csv
    sizes = set()

    def visit(text: str, _: object, matrix: list[float], __: object, size: float) -> None:
        if text.strip():
            sizes.add(abs(size * matrix[3]))

    pdf = print_entries(collection, KINDS["label"], [shown])
    PdfReader(io.BytesIO(pdf)).pages[0].extract_text(visitor_text=visit)
    assert sizes
    assert min(sizes) >= 24


def test_a_label_text_that_does_not_fit_is_left_out_and_that_is_said(
    collection: Collection, crowded: Entry
) -> None:
    text = printed_text(print_entries(collection, KINDS["label"], [crowded]))
    assert "The text is too long for this label." in text
    assert "Word upon word." not in text


@pytest.mark.parametrize("key", KINDS)
def test_every_kind_is_tagged_and_declares_that_it_can_be_read_aloud(
    collection: Collection, shown: Entry, key: str
) -> None:
    root = PdfReader(io.BytesIO(print_entries(collection, KINDS[key], [shown]))).trailer["/Root"]
    assert bool(root["/MarkInfo"]["/Marked"])
    assert b"pdfuaid" in root["/Metadata"].get_data()


def test_what_is_not_approved_bears_the_word_proof_outside_what_is_read_aloud(
    collection: Collection, shown: Entry
) -> None:
    draft = dataclasses.replace(shown, proof=True)
    for key in ("card", "label", "tag", "back"):
        assert "PROOF" in printed_text(print_entries(collection, KINDS[key], [draft])), key
        assert "PROOF" not in printed_text(print_entries(collection, KINDS[key], [shown])), key


def test_a_wording_keeps_its_fingerprint_until_its_words_change(shown: Entry) -> None:
    kind = KINDS["label"]
    later = dataclasses.replace(shown.quilt, revision=9)
    assert fingerprint(kind, shown) == fingerprint(kind, dataclasses.replace(shown, quilt=later))
    assert fingerprint(kind, shown) == fingerprint(kind, dataclasses.replace(shown, proof=True))
    other = dataclasses.replace(shown, label_text="Other words.")
    assert fingerprint(kind, shown) != fingerprint(kind, other)


@pytest.mark.parametrize(
    "name",
    [
        "Zsófia Szűcs-Łuczak",  # Latin with marks
        "Ελένη Παππά",  # Greek
        "Олена Ковальчук",  # Cyrillic
        "רבקה לוי",  # Hebrew
        "فاطمة",  # Arabic
        "आशा देवी",  # Devanagari
        "Անահիտ",  # Armenian
        "ნინო",  # Georgian
    ],
)
def test_names_in_the_scripts_of_the_fonts_print(
    collection: Collection, shown: Entry, name: str
) -> None:
    assert missing_letters(name) == ""
    quilt = dataclasses.replace(shown.quilt, title=name)
    pdf = print_entries(collection, KINDS["label"], [dataclasses.replace(shown, quilt=quilt)])
    drawn = {letter.get_text() for letters in letters_of_pages(pdf) for letter in letters}
    assert "\N{REPLACEMENT CHARACTER}" not in "".join(drawn)


def test_letters_that_no_font_holds_are_named() -> None:
    assert missing_letters("Emi 恵美 Quilt") == "恵美"
