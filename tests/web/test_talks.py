"""Talks are prepared on the page, put in order, kept as given, and shown without notes."""

from __future__ import annotations

import dataclasses
import io
import re

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image
from pypdf import PdfReader

from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import (
    Location,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Photograph,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
    TalkItem,
)
from catalogue.collection.store import add, load
from catalogue.values.dates import read_date

KINDS = ("speaker", "handout", "slides", "pull")


@pytest.fixture
def shelf(collection: Collection) -> Collection:
    """Two published quilts and a hidden one, and one of everything else a talk can be about."""
    database = collection.database
    for number, title in enumerate(("Stars", "Bars", "Wheels"), start=1):
        quilt = Quilt(
            title,
            accession=f"1987.4.{number}",
            status="accessioned",
            published=title != "Wheels",
            locations=(Location("ShelfXYZ"),),
        )
        add(database, quilt, "Tess")
    for record in (
        Pattern("Evening Star", design="ohio-star"),
        Publication("The Leaf"),
        RelatedItem("A letter"),
        Party("Ada Winter"),
    ):
        add(database, record, "Tess")
    return collection


def form(**more: str) -> dict[str, str]:
    return {
        "title": "Sixty years",
        "on": "2027-03-09",
        "begins": "14:30",
        "minutes": "45",
        "place": "The hall",
        "audience": "friends",
        "notes": "Gloves **on**.",
        "items-0-what": "heading",
        "items-0-name": "The beginning",
        "items-0-minutes": "2",
        "items-1-what": "quilt",
        "items-1-name": "1987.4.1",
        "items-1-minutes": "8",
        "items-1-notes": "Hold it *up*.",
        "items-2-what": "borrowed quilt",
        "items-2-name": "Bars of wool, lent by a friend",
        "items-2-minutes": "5",
        **more,
    }


def titles(shelf: Collection, id: int = 1) -> list[str | int | None]:
    """Return what is in a talk, in its order: quilts by their ids, all else by its words."""
    return [item.quilt or item.words for item in load(shelf.database, Talk, id).items]


# --- preparing ---------------------------------------------------------------------------------


def test_a_talk_is_written_down_and_shown_on_the_clock(
    member: FlaskClient, shelf: Collection
) -> None:
    assert member.post("/talks/new", data=form()).headers["Location"] == "/talks/1"
    page = member.get("/talks/1").text
    for words in (
        *("Sixty years", "9 March 2027", "The hall", "2:30 pm", "2:32 pm", "2:40 pm"),
        *("Bars of wool, lent by a friend", "<em>up</em>", "15 minutes in all, 30 less than"),
    ):
        assert words in page, words
    assert "Sixty years" in member.get("/talks").text


FAULTS = [
    ({"title": ""}, "Give the talk a title."),
    ({"on": "next week"}, "“next week” is not a day"),
    ({"begins": "25:00"}, "“25:00” is no time of day"),
    ({"minutes": "long"}, "“long” is not a whole number"),
    ({"items-1-name": "1999.9"}, "No quilt of the name “1999.9” is on record."),
    ({"items-1-what": "pattern"}, "No pattern of the name “1987.4.1” is on record."),
    ({"items-1-what": "person"}, "No person of the name “1987.4.1” is on record."),
    ({"items-1-what": "related material"}, "No related material of the name “1987.4.1”"),
    ({"items-1-what": "nonsense"}, "“nonsense” is not one of the choices."),
    ({"items-1-name": ""}, "Write what this item is."),
]


@pytest.mark.parametrize(("wrong", "says"), FAULTS)
def test_what_is_wrong_is_said_in_one_sentence_and_nothing_is_lost(
    member: FlaskClient, shelf: Collection, wrong: dict[str, str], says: str
) -> None:
    answer = member.post("/talks/new", data=form(**wrong))
    assert answer.status_code == 422
    assert says in answer.text
    assert "Bars of wool, lent by a friend" in answer.text


def test_items_are_shown_again_as_they_were_named(member: FlaskClient, shelf: Collection) -> None:
    member.post("/talks/new", data=form())
    page = member.get("/talks/1/edit").text
    assert 'value="1987.4.1 Stars"' in page
    sent = form(**{"revision": "1", "items-1-name": "1987.4.1 Stars"})
    sent |= {f"items-{n}-id": str(n + 1) for n in range(3)}
    member.post("/talks/1/edit", data=sent)
    assert load(shelf.database, Talk, 1).revision == 1  # nothing differs
    member.post("/talks/1/edit", data=sent | {"items-0-order": "3", "items-2-order": "1"})
    assert titles(shelf) == ["Bars of wool, lent by a friend", 1, "The beginning"]


def test_two_people_in_one_talk_are_told_of_each_other(
    member: FlaskClient, shelf: Collection
) -> None:
    member.post("/talks/new", data=form())
    member.post("/talks/1/edit", data=form(revision="1", title="Mine"))
    answer = member.post("/talks/1/edit", data=form(revision="1", title="Theirs"))
    assert "changed this meanwhile" in answer.text
    assert load(shelf.database, Talk, 1).title == "Mine"


# --- adding ------------------------------------------------------------------------------------

PAGES = [
    ("/quilts/1", "quilt"),
    ("/patterns/1", "pattern"),
    ("/publications/1", "publication"),
    ("/related/1", "related_item"),
    ("/people/1", "party"),
]


@pytest.mark.parametrize(("address", "what"), PAGES)
def test_anything_is_added_from_its_own_page(
    member: FlaskClient, shelf: Collection, address: str, what: str
) -> None:
    add(shelf.database, Talk("A talk"), "Tess")
    page = member.get(address).text
    assert f'name="what" value="{what}"' in page
    assert '<option value="1">A talk</option>' in page
    sent = {"what": what, "chosen": "1", "talk": "1", "back": address}
    answer = member.post("/talks/add", data=sent)
    assert answer.headers["Location"] == address
    assert getattr(load(shelf.database, Talk, 1).items[0], what) == 1
    assert 'Added: <a href="/talks/1">A talk</a>, 1 item now.' in member.get(address).text


def test_several_are_added_from_a_search_each_once(member: FlaskClient, shelf: Collection) -> None:
    add(shelf.database, Talk("A talk", items=(TalkItem(quilt=2),)), "Tess")
    page = member.get("/search?q=stars").text
    assert 'name="chosen" value="1" form="add-ticked"' in page
    sent = {"what": "quilt", "chosen": ["1", "2", "3", "3"], "talk": "1", "back": "/search?q=s"}
    assert member.post("/talks/add", data=sent).headers["Location"] == "/search?q=s"
    assert titles(shelf) == [2, 1, 3]
    assert "2 added" in member.get("/talks").text


def test_a_new_talk_is_begun_with_what_is_added(member: FlaskClient, shelf: Collection) -> None:
    member.post("/talks/add", data={"what": "quilt", "chosen": "2", "talk": "new"})
    assert titles(shelf) == [2]


def test_a_talk_that_was_given_takes_no_more(member: FlaskClient, shelf: Collection) -> None:
    member.post("/talks/new", data=form())
    member.post("/talks/1/give", data={"on": "2027-03-09"})
    assert '<option value="1">' not in member.get("/quilts/2").text


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        ({"what": "account", "chosen": "1", "talk": "1"}, 400),
        ({"what": "quilt", "chosen": "1", "talk": "x"}, 400),
        ({"what": "quilt", "chosen": "1", "talk": "9"}, 404),
        ({"what": "quilt", "chosen": "99", "talk": "1"}, 404),
        ({"what": "quilt", "chosen": "x", "talk": "1"}, 302),
        ({"what": "quilt", "talk": "1"}, 302),
    ],
)
def test_nonsense_adds_nothing(
    member: FlaskClient, shelf: Collection, sent: dict[str, str], status: int
) -> None:
    add(shelf.database, Talk("A talk"), "Tess")
    assert member.post("/talks/add", data=sent).status_code == status
    assert titles(shelf) == []


@pytest.mark.parametrize("back", ["https://elsewhere.example", "//elsewhere", "/\\elsewhere", ""])
def test_the_way_back_never_leads_out_of_the_catalogue(
    member: FlaskClient, shelf: Collection, back: str
) -> None:
    sent = {"what": "quilt", "chosen": "1", "talk": "new", "back": back}
    assert member.post("/talks/add", data=sent).headers["Location"] == "/talks"


# --- order -------------------------------------------------------------------------------------


def test_items_are_moved_by_buttons_and_by_numbers(member: FlaskClient, shelf: Collection) -> None:
    items = (TalkItem("One"), TalkItem("Two"), TalkItem("Three"))
    add(shelf.database, Talk("A talk", items=items), "Tess")
    page = member.get("/talks/1").text
    assert 'name="move" value="2 up" aria-label="Move “Two” up"' in page
    answer = member.post("/talks/1/order", data={"move": "2 up"})
    assert answer.headers["Location"] == "/talks/1#programme"
    assert titles(shelf) == ["Two", "One", "Three"]
    member.post("/talks/1/order", data={"place-2": "3", "place-1": "1", "place-3": "2"})
    assert titles(shelf) == ["One", "Three", "Two"]
    member.post("/talks/1/order", data={"place-2": "first", "place-9": "1", "else": "1"})
    assert titles(shelf) == ["One", "Three", "Two"]


@pytest.mark.parametrize("move", ["2", "2 sideways", "x up"])
def test_a_step_that_means_nothing_is_refused(
    member: FlaskClient, shelf: Collection, move: str
) -> None:
    add(shelf.database, Talk("A talk", items=(TalkItem("One"), TalkItem("Two"))), "Tess")
    assert member.post("/talks/1/order", data={"move": move}).status_code == 400
    assert member.post("/talks/9/order", data={"move": "1 up"}).status_code == 404


# --- given -------------------------------------------------------------------------------------


def test_a_talk_is_kept_as_given_and_the_quilt_says_so(
    member: FlaskClient, shelf: Collection
) -> None:
    member.post("/talks/new", data=form())
    assert "Shown at" not in member.get("/quilts/1").text
    assert 'value="2027-03-09"' in member.get("/talks/1/give").text
    answer = member.post("/talks/1/give", data={"on": "2027-03-10", "place": "The barn"})
    assert answer.headers["Location"] == "/talks/1/given/1"
    member.post("/quilts/1/edit/identity", data={"title": "Renamed", "revision": "1"})
    page = member.get("/talks/1/given/1").text
    for words in ("As given on 10 March 2027, The barn", ">Stars</a>", "<em>up</em>", "8 min"):
        assert words in page, words
    quilt = member.get("/quilts/1").text
    assert "Shown at" in quilt
    assert '<a href="/talks/1/given/1">Sixty years</a>' in quilt
    assert member.get("/talks/1/given/9").status_code == 404


def test_a_day_is_needed_to_keep_a_version(member: FlaskClient, shelf: Collection) -> None:
    add(shelf.database, Talk("A talk"), "Tess")
    answer = member.post("/talks/1/give", data={"on": ""})
    assert answer.status_code == 422
    assert "Write the day on which it was given." in answer.text


def test_a_copy_waits_for_its_own_day(member: FlaskClient, shelf: Collection) -> None:
    member.post("/talks/new", data=form())
    assert member.post("/talks/1/copy").headers["Location"] == "/talks/2/edit"
    assert titles(shelf, 2) == titles(shelf, 1)
    assert load(shelf.database, Talk, 2).on == ""
    assert member.post("/talks/9/copy").status_code == 404


# --- visitors ----------------------------------------------------------------------------------


@pytest.fixture
def told(shelf: Collection) -> Collection:
    """A talk with a hidden quilt and private words in every note, and one that is not published."""
    items = tuple(
        TalkItem(**about, notes="Keepsecret")
        for about in (
            *({"quilt": 1}, {"quilt": 3}, {"pattern": 1}, {"related_item": 1}, {"party": 1}),
            {"words": "The end"},
        )
    )
    add(shelf.database, Talk("Shown", notes="Keepsecret", published=True, items=items), "Tess")
    add(shelf.database, Talk("Zebulon's talk", items=items), "Tess")
    return shelf


PRIVATE = ("Keepsecret", "ShelfXYZ", "Wheels", "A letter", "Ada Winter", "Zebulon")


def test_visitors_see_a_published_talk_without_what_is_private(
    visitor: FlaskClient, told: Collection
) -> None:
    for address in ("/talks", "/talks/1", "/talks/1/slides"):
        page = visitor.get(address).text
        assert "Shown" in page, address
        assert [word for word in PRIVATE if word in page] == [], address
    page = visitor.get("/talks/1").text
    assert "Stars" in page
    assert "Before you go" not in page
    for key in ("handout", "slides"):
        text = words_of(visitor.get(f"/talks/1/{key}.pdf").data)
        assert "Stars" in text
        assert [word for word in PRIVATE if word in text] == [], key


@pytest.mark.parametrize(
    "address",
    [
        *("/talks/2", "/talks/2/slides", "/talks/2/handout.pdf", "/talks/2/slides.pdf"),
        *("/talks/1/speaker.pdf", "/talks/1/pull.pdf", "/talks/1/else.pdf", "/talks/9"),
    ],
)
def test_what_is_not_for_visitors_does_not_exist_for_them(
    visitor: FlaskClient, told: Collection, address: str
) -> None:
    assert visitor.get(address).status_code == 404


def test_visitors_read_where_a_quilt_was_shown_only_in_published_talks(
    member: FlaskClient, visitor: FlaskClient, told: Collection
) -> None:
    for id in (1, 2):
        member.post(f"/talks/{id}/give", data={"on": "2027-03-09", "audience": "Keepsecret"})
    page = visitor.get("/quilts/1").text
    assert '<a href="/talks/1">Shown</a>' in page
    assert "Zebulon" not in page
    assert "Keepsecret" not in page


def test_a_volunteer_prepares_talks_and_neither_publishes_them_nor_learns_where_quilts_are(
    app: Flask, shelf: Collection
) -> None:
    volunteer = signed_in(app, "volunteer", name="Vera")
    assert "Shown to visitors" not in volunteer.get("/talks/new").text
    volunteer.post("/talks/new", data=form(published="y"))
    assert not load(shelf.database, Talk, 1).published
    assert "Pull list" not in volunteer.get("/talks/1").text
    assert volunteer.get("/talks/1/pull.pdf").status_code == 404
    text = words_of(volunteer.get("/talks/1/speaker.pdf").data)
    assert "Hold it" in text
    assert "ShelfXYZ" not in text


def test_a_handout_and_slides_say_of_the_living_no_more_than_visitors_may_know(
    member: FlaskClient, shelf: Collection
) -> None:
    born, place = read_date("1951"), "3 Quagmire Lane"
    alive = add(shelf.database, Party("Bertha Coil", living=True, born=born, place=place), "Tess")
    phases = (Phase("quilted", read_date("1987"), makers=(PhaseMaker(alive.id),)),)
    quilt = add(shelf.database, Quilt("New", phases=phases), "Tess")
    items = (TalkItem(quilt=quilt.id), TalkItem(party=alive.id))
    add(shelf.database, Talk("A talk", items=items), "Tess")
    for key in ("handout", "slides"):
        text = words_of(member.get(f"/talks/1/{key}.pdf").data)
        assert "Bertha Coil" in text
        assert "1951" not in text
        assert "Quagmire" not in text


# --- slides and paper --------------------------------------------------------------------------


def words_of(pdf: bytes) -> str:
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def pictured(collection: Collection, colour: str, rights: str) -> tuple[Photograph, ...]:
    buffer = io.BytesIO()
    Image.new("RGB", (300, 200), colour).save(buffer, "PNG")
    photograph = keep(collection, buffer.getvalue())
    taken = dataclasses.replace(photograph, photographer="Joan Parrish", rights=rights)
    return (taken,)


@pytest.fixture
def allowed(shelf: Collection) -> Collection:
    """A talk of a quilt whose picture may be shown, and of one whose picture may not."""
    for title, colour, rights in (("May", "#aa3333", "CC0"), ("May not", "#33aa33", "")):
        photographs = pictured(shelf, colour, rights)
        add(shelf.database, Quilt(title, published=True, photographs=photographs), "Tess")
    items = (TalkItem(quilt=4), TalkItem(quilt=5), TalkItem(pattern=1))
    add(shelf.database, Talk("A talk", items=items), "Tess")
    return shelf


def test_slides_are_a_sequence_of_anchored_sections_with_their_credits(
    member: FlaskClient, allowed: Collection
) -> None:
    page = member.get("/talks/1/slides").text
    assert re.findall(r'id="(slide-\d+)"', page) == [f"slide-{n}" for n in range(1, 6)]
    assert re.findall(r'href="#(slide-\d+)" rel="next"', page) == [
        f"slide-{n}" for n in range(2, 6)
    ]
    assert page.count("Picture: Joan Parrish; CC0") == 1
    assert "“May”: Joan Parrish; CC0" in page  # on the last slide


def test_pictures_without_permission_are_on_no_slide_and_no_handout(
    member: FlaskClient, allowed: Collection
) -> None:
    page = member.get("/talks/1/slides").text
    assert "/quilts/4/photographs/" in page
    assert "/quilts/5/photographs/" not in page
    for key, pages in (("slides", 5), ("handout", 1)):
        reader = PdfReader(io.BytesIO(member.get(f"/talks/1/{key}.pdf").data))
        assert len(reader.pages) == pages
        assert sum(len(each.images) for each in reader.pages) == 1, key
    assert "No picture of “May not” may be shown" in member.get("/talks/1").text


@pytest.mark.parametrize("key", KINDS)
def test_every_paper_is_served_on_either_size(
    member: FlaskClient, allowed: Collection, key: str
) -> None:
    for paper, width in (("A4", 595), ("Letter", 612), ("nonsense", 595)):
        answer = member.get(f"/talks/1/{key}.pdf?paper={paper}")
        assert answer.mimetype == "application/pdf"
        box = PdfReader(io.BytesIO(answer.data)).pages[0].mediabox
        assert round(float(box.width)) == (960 if key == "slides" else width)


def test_an_empty_talk_can_be_shown_and_printed(member: FlaskClient, shelf: Collection) -> None:
    add(shelf.database, Talk("Nothing yet"), "Tess")
    assert "Nothing is in it yet." in member.get("/talks/1").text
    assert member.get("/talks/1/slides").status_code == 200
    for key in KINDS:
        assert member.get(f"/talks/1/{key}.pdf").status_code == 200, key


def test_an_offer_is_added_with_one_click(member: FlaskClient, shelf: Collection) -> None:
    for title, year in (("Early", "1870"), ("Late", "1931"), ("Between", "1888")):
        phases = (Phase("quilted", read_date(year)),)
        add(shelf.database, Quilt(title, status="accessioned", phases=phases), "Tess")
    add(shelf.database, Talk("A talk", items=(TalkItem(quilt=4), TalkItem(quilt=5))), "Tess")
    assert 'name="chosen" value="6" aria-label="Add “Between”"' in member.get("/talks/1").text
    sent = {"what": "quilt", "talk": "1", "chosen": "6", "back": "/talks/1#advice"}
    member.post("/talks/add", data=sent)
    assert titles(shelf) == [4, 5, 6]
