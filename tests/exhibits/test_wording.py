"""One table of house wording, and the tombstone text composed with it."""

from fractions import Fraction

import pytest

from catalogue.exhibits.tombstone import TombstoneFacts, size_words, tombstone
from catalogue.exhibits.wording import (
    HOUSE_WORDING,
    Maker,
    WordingError,
    date_words,
    life_words,
    maker_words,
    phase_words,
    wordings,
)
from catalogue.values.dates import read_date
from catalogue.values.life_dates import parse_life_dates

ANN = Maker("Ann Pell", parse_life_dates("1842-1910"))
BEA, CORA = Maker("Bea Hale"), Maker("Cora Dunn")


def sure(maker, certainty, work=""):
    return Maker(maker.name, maker.life, work, certainty)


MAKERS = [
    ((), "Maker not known"),
    ((Maker(""),), "Maker not known"),
    ((ANN,), "Ann Pell (1842–1910)"),
    ((ANN, BEA), "Ann Pell (1842–1910) and Bea Hale"),
    ((BEA, CORA, ANN), "Bea Hale, Cora Dunn and Ann Pell (1842–1910)"),
    ((sure(BEA, "probable"),), "Probably made by Bea Hale"),
    ((sure(BEA, "possible"), sure(CORA, "possible")), "Possibly made by Bea Hale and Cora Dunn"),
    ((sure(BEA, "disputed"),), "Attributed to Bea Hale, which is disputed"),
    (
        (sure(BEA, "certain", "pieced"), sure(CORA, "probable", "quilted")),
        "Pieced by Bea Hale; probably quilted by Cora Dunn",
    ),
    (
        (sure(BEA, "certain", "pieced"), Maker("", work="quilted")),
        "Pieced by Bea Hale; quilted by a maker not known",
    ),
]


@pytest.mark.parametrize(("makers", "expected"), MAKERS)
def test_makers_are_worded_as_sure_as_they_are(makers, expected):
    assert maker_words(makers) == expected


LIVES = [
    ("1842-1910", "1842–1910"),
    ("1842?-1910", "about 1842–1910"),
    ("1880-", "born 1880"),
    ("-1955?", "died about 1955"),
]


@pytest.mark.parametrize(("text", "expected"), LIVES)
def test_life_dates_are_worded_with_their_doubt(text, expected):
    assert life_words(parse_life_dates(text)) == expected


DATES = [
    ("1935", "1935"),
    ("c. 1935", "About 1935"),
    ("1935?", "Possibly 1935"),
    ("1930s", "The 1930s"),
    ("before 1940", "1939 or earlier"),
    ("July 1942", "July 1942"),
    ("undated", "Date not known"),
]


@pytest.mark.parametrize(("written", "expected"), DATES)
def test_dates_are_worded_with_their_doubt(written, expected):
    assert date_words(read_date(written)) == expected


def test_a_date_that_is_not_there_is_not_known():
    assert date_words(None) == "Date not known"


def test_phases_are_told_together_where_their_dates_agree():
    about, late = read_date("c. 1935"), read_date("1972")
    assert phase_words([("top", about), ("quilted", late), ("bound", late)]) == (
        "Top about 1935; quilted and bound 1972"
    )
    assert phase_words([("top", late), ("quilted", late)]) == "1972"
    assert phase_words([]) == "Date not known"


def test_a_collection_words_doubt_in_its_own_way_everywhere():
    ours = HOUSE_WORDING.changed(
        {"maker.unknown": "Unrecorded maker", "date.about": "c.", "maker.probable": "{names}?"}
    )
    assert maker_words((), ours) == "Unrecorded maker"
    assert date_words(read_date("c. 1935"), ours) == "C. 1935"
    assert maker_words((sure(BEA, "probable"),), ours) == "Bea Hale?"
    assert maker_words(()) == "Maker not known"


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({"maker.nobody": "x"}, "has no “maker.nobody”"),
        ({"maker": "x"}, "has no “maker”"),
        ({"maker.probable": "probably somebody"}, "must hold {names}"),
        ({"maker.unknown": "by {names}"}, "must hold nothing in braces"),
        ({"maker.probable": "{names"}, "do not match"),
        ({"maker.probable": "{names:>99}"}, "more than a name"),
        ({"maker.probable": "{names.__class__}"}, "must hold {names}"),
    ],
)
def test_wordings_that_do_not_fit_are_refused(settings, says):
    with pytest.raises(WordingError, match=says):
        HOUSE_WORDING.changed(settings)


def test_a_certainty_that_is_none_is_refused():
    with pytest.raises(WordingError, match="“sure”"):
        Maker("Ann", certainty="sure")


def test_every_wording_can_be_changed_to_itself():
    assert HOUSE_WORDING.changed(dict(wordings())).table == HOUSE_WORDING.table


FULL = TombstoneFacts(
    title="Ocean Waves",
    makers=(sure(ANN, "probable"),),
    places=("Fennimore Valley", "Fennimore Valley"),
    date=read_date("July 1942"),
    materials=("cotton", "wool batting"),
    techniques=("pieced by machine", "quilted by hand"),
    length=Fraction(87),
    width=Fraction(159, 2),
    credit_line="Gift of the Larkfield Guild",
    accession="1995.4.2",
    picture_credit="Jo Marsh",
)


def test_a_tombstone_text_has_its_lines_in_order():
    assert [(line.kind, line.text) for line in tombstone(FULL)] == [
        ("title", "Ocean Waves"),
        ("maker", "Probably made by Ann Pell (1842–1910)"),
        ("place and date", "Fennimore Valley, July 1942"),
        ("materials", "Cotton, wool batting; pieced by machine, quilted by hand"),
        ("size", "Length 87 × width 79½ in (221 × 201.9 cm)"),
        ("credit", "Gift of the Larkfield Guild"),
        ("accession", "1995.4.2"),
        ("picture", "Photograph: Jo Marsh"),
    ]


def test_what_is_not_known_of_maker_and_date_is_said_and_the_rest_left_out():
    assert [line.text for line in tombstone(TombstoneFacts("Stars"))] == [
        "Stars",
        "Maker not known",
        "Date not known",
    ]
    placed = tombstone(TombstoneFacts("Stars", places=("Larkfield",), date=read_date("undated")))
    assert placed[2].text == "Larkfield, date not known"


def test_a_loan_is_lent_by_name_or_without():
    lent = TombstoneFacts("Stars", lender="Dora Finch", credit_line="ignored")
    assert tombstone(lent)[-1].text == "Lent by Dora Finch"
    hidden = TombstoneFacts("Stars", lender="Dora Finch", lent_anonymously=True)
    assert tombstone(hidden)[-1].text == "Lent by a private owner"
    assert not any("Finch" in line.text for line in tombstone(hidden))


SIZES = [
    (Fraction(87), Fraction(80), "Length 87 × width 80 in (221 × 203.2 cm)"),
    (Fraction(87), None, "Length 87 in (221 cm)"),
    (None, Fraction(80), "Width 80 in (203.2 cm)"),
    (None, None, ""),
]


@pytest.mark.parametrize(("length", "width", "expected"), SIZES)
def test_a_size_names_its_directions_and_both_units(length, width, expected):
    assert size_words(length, width) == expected
