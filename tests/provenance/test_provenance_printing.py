"""Periods that were entered as fields, printed in the standard's order and read back."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.provenance.date_phrases import dates_from_bounds
from catalogue.provenance.methods import preferred_forms
from catalogue.provenance.periods import Note, Period, Provenance
from catalogue.provenance.printing import print_period, print_provenance
from catalogue.provenance.reading import parse_provenance
from catalogue.provenance.transfer_dates import read_transfer_dates

FULL = Period(
    party="Ann Roe",
    life="1940-",
    relation="his daughter",
    place="Dayton, OH",
    method="purchased at auction by",
    agent="John Roe",
    event="Spring Sale",
    seller_agent="Elm Auctions",
    transfer_place="Lima, Ohio",
    dates=read_transfer_dates("1975"),
    stock_number="lot 10",
    price="for $10",
    notes=("1", "a"),
    possibly=True,
    doubtful=frozenset({"party", "place"}),
    unread=("illustrated",),
)


def test_fields_are_printed_in_the_order_of_the_standard():
    assert print_period(FULL) == (
        "Possibly purchased at auction by John Roe for Ann Roe? [1940-], his daughter, "
        'Dayton, OH?, from "Spring Sale", Elm Auctions, in Lima, Ohio, 1975, illustrated '
        "(lot 10, for $10) [1][a]"
    )


def test_a_dealers_period_stands_in_parentheses_with_its_notes_behind():
    period = Period("Elm Auctions", place="Lima", notes=("2",), dealer=True)
    assert print_period(period) == "(Elm Auctions, Lima) [2]"


def test_a_method_by_marriage_follows_the_name():
    assert print_period(Period("Ann Roe", life="1911-", method="via marriage", place="Lima")) == (
        "Ann Roe [1911-] via marriage, Lima"
    )


def test_a_party_is_never_blank():
    assert print_period(Period(party="", place="Lima")) == "Unknown party, Lima"


def test_methods_take_a_capital_at_the_begin_of_a_sentence_only():
    gift = Period("Ann Roe", method="gift to")
    direct, indirect = (replace(gift, direct_transfer=way) for way in (True, False))
    assert print_provenance(Provenance((direct, gift))) == "Gift to Ann Roe; gift to Ann Roe."
    assert print_provenance(Provenance((indirect, gift))) == "Gift to Ann Roe. Gift to Ann Roe."


def test_a_changed_field_is_printed_at_the_place_where_the_writer_had_it():
    (period,) = parse_provenance("Ann Roe, 1950, Dayton (lot 5).").periods
    changed = replace(period, place="Lima", relation="her niece", price="for $5")
    assert print_period(changed) == "Ann Roe, her niece, 1950, Lima (lot 5, for $5)"


def test_two_points_never_meet():
    firm = Period("Lowe & Co.", direct_transfer=False)
    gift = Period("Ann Roe", method="gift to")
    assert print_provenance(Provenance((firm, gift))) == "Lowe & Co. Gift to Ann Roe."
    assert print_provenance(Provenance((firm,))) == "Lowe & Co."


def test_where_nothing_else_would_tell_the_periods_apart_both_points_are_printed():
    firm = Period("Lowe & Co.", direct_transfer=False)
    text = print_provenance(Provenance((firm, Period("Ann Roe"))))
    assert [period.party for period in parse_provenance(text).periods] == ["Lowe & Co.", "Ann Roe"]


def test_notes_are_printed_under_their_headings():
    notes = (Note("1", "First."), Note("2", "Second."), Note("a", "File.", "Citations"))
    text = print_provenance(Provenance((Period("Ann Roe", notes=("1", "2", "a")),), notes))
    assert text == (
        "Ann Roe [1][2][a].\n\nNotes:\n[1]. First.\n[2]. Second.\n\nCitations:\n[a]. File."
    )


NAMES = st.sampled_from(
    ["Ann Lowe", "Mrs. B. C. Roe", "Amos Fell, Jr.", "Zoë Łącka", "Rosewater Guild", "Lowe & Co."]
)
PLACES = st.sampled_from(["", "Dayton, Ohio", "St. Clair, OH", "Łódź, Poland", "Lima"])
DATES = st.sampled_from(
    ["", "1950", "by 1995", "July 4, 1976", "c. 1935 until at least 1940", "the 1950s?"]
)
DOUBTS = st.frozensets(st.sampled_from(["party", "place", "transfer_place"]))


@st.composite
def periods(draw):
    place, transfer = draw(PLACES), draw(PLACES)
    phrase = draw(DATES)
    doubts = draw(DOUBTS) - ({"place"} if not place else set())
    return Period(
        party=draw(NAMES),
        life=draw(st.sampled_from(["", "1880-1955", "1880?-", "-1955"])),
        relation=draw(st.sampled_from(["", "her son", "daughter of previous"])),
        place=place,
        method=draw(st.sampled_from(["", *preferred_forms()])),
        event=(event := draw(st.sampled_from(["", "Spring Sale; part 2."]))),
        seller_agent=draw(st.sampled_from(["", "Elm Auctions"])) if event else "",
        transfer_place=transfer,
        dates=read_transfer_dates(phrase) if phrase else dates_from_bounds((None, None)),
        stock_number=draw(st.sampled_from(["", "lot 12", "stock no. 7"])),
        price=draw(st.sampled_from(["", "for $1,000", "for £5"])),
        notes=draw(st.sampled_from([(), ("1",), ("2", "b")])),
        possibly=draw(st.booleans()),
        doubtful=doubts - ({"transfer_place"} if not transfer else set()),
        dealer=draw(st.booleans()),
        direct_transfer=draw(st.booleans()),
    )


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.lists(periods(), min_size=1, max_size=4))
def test_what_is_printed_from_fields_is_read_back_as_the_same_fields(chain):
    chain[-1] = replace(chain[-1], direct_transfer=None)
    text = print_provenance(Provenance(tuple(chain)))
    read = parse_provenance(text)
    assert read.periods == tuple(chain), text
    assert print_provenance(read) == text
