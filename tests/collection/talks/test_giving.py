"""A talk keeps its version as given, is copied, and is remembered on what it showed."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from catalogue.collection.privacy import VISITOR
from catalogue.collection.records import (
    Location,
    Party,
    Pattern,
    Printing,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
    TalkGiven,
    TalkItem,
)
from catalogue.collection.register import Register
from catalogue.collection.same_person import merge, part
from catalogue.collection.store import add, history, load, save
from catalogue.collection.talks.giving import copy_talk, keep_as_given
from catalogue.collection.talks.naming import item_named, name_of, names_to_offer
from catalogue.collection.talks.programme import programme_of
from catalogue.collection.talks.shown import all_talks, open_talks, shown_at
from catalogue.collection.talks.slides import slides_of
from catalogue.collection.talks.sources import sources_of
from catalogue.values.dates import read_date


@pytest.fixture
def talk(shelf: Any) -> Talk:
    """A talk of one quilt, a heading and a borrowed quilt."""
    quilt = shelf.quilt("Stars", "1931", "Ada Winter")
    items = (
        TalkItem("First", notes="Say **hello**."),
        TalkItem(quilt=quilt.id, minutes=8, notes="Hold it up."),
        TalkItem("Bars, lent by a friend", borrowed=True, minutes=4),
    )
    return add(shelf.database, Talk("A talk", place="The hall", items=items), "Tess")


def test_the_version_as_given_does_not_follow_the_record(shelf: Any, talk: Talk) -> None:
    given = keep_as_given(shelf.database, talk.id, TalkGiven("", "2027-03-09", "Hall"), "Tess")
    (version,) = given.givings
    save(shelf.database, Quilt, 1, {"title": "Renamed"}, by="Tess", expecting=1)
    save(shelf.database, Talk, talk.id, {"items": (), "title": "New"}, by="Tess", expecting=2)
    (kept,) = load(shelf.database, Talk, talk.id).givings
    assert kept == version
    assert [(i.kind, i.title, i.lines, i.minutes, i.notes) for i in kept.items] == [
        ("heading", "First", "", None, "Say **hello**."),
        ("quilt", "Stars", "Ada Winter\n1931", 8, "Hold it up."),
        ("borrowed quilt", "Bars, lent by a friend", "", 4, ""),
    ]
    assert (kept.title, kept.by, kept.at[:2]) == ("A talk", "Tess", "20")


def test_a_talk_given_twice_keeps_both_versions(shelf: Any, talk: Talk) -> None:
    keep_as_given(shelf.database, talk.id, TalkGiven("", "2027-03-09"), "Tess")
    keep_as_given(shelf.database, talk.id, TalkGiven("", "2027-04-09"), "Tess")
    given = load(shelf.database, Talk, talk.id).givings
    assert [version.on for version in given] == ["2027-03-09", "2027-04-09"]
    assert len(history(shelf.database, Talk, talk.id)) == 3


def test_a_quilt_says_where_it_was_shown_and_not_where_it_will_be(shelf: Any, talk: Talk) -> None:
    assert shown_at(shelf.database, 1, published_only=False) == []
    keep_as_given(shelf.database, talk.id, TalkGiven("", "2027-03-09", "Hall"), "Tess")
    (shown,) = shown_at(shelf.database, 1, published_only=False)
    assert (shown.talk, shown.title, shown.on, shown.place) == (1, "A talk", "2027-03-09", "Hall")
    assert shown_at(shelf.database, 1, published_only=True) == []
    save(shelf.database, Talk, talk.id, {"published": True}, by="Tess", expecting=2)
    assert len(shown_at(shelf.database, 1, published_only=True)) == 1


def test_a_copy_is_a_talk_of_its_own(shelf: Any, talk: Talk) -> None:
    keep_as_given(shelf.database, talk.id, TalkGiven("", "2027-03-09"), "Tess")
    copied = copy_talk(shelf.database, talk.id, "Tess")
    assert (copied.title, copied.place, copied.givings) == ("A talk (copy)", "", ())
    original = load(shelf.database, Talk, talk.id)
    without_ids = [dataclasses.replace(item, id=None) for item in original.items]
    assert [dataclasses.replace(item, id=None) for item in copied.items] == without_ids
    assert {item.id for item in copied.items}.isdisjoint({item.id for item in original.items})


def test_only_what_has_not_been_given_is_open(shelf: Any, talk: Talk) -> None:
    later = add(shelf.database, Talk("Later", on="2028-01-01"), "Tess")
    assert [each.title for each in open_talks(shelf.database)] == ["Later", "A talk"]
    keep_as_given(shelf.database, talk.id, TalkGiven("", "2027-03-09"), "Tess")
    assert [each.id for each in open_talks(shelf.database)] == [later.id]
    titles = [each.title for each in all_talks(shelf.database, published_only=False)]
    assert titles == ["Later", "A talk"]
    assert all_talks(shelf.database, published_only=True) == []


def test_an_item_is_about_one_thing(shelf: Any) -> None:
    quilt = shelf.quilt("Stars")
    for item in (TalkItem(), TalkItem("Words", quilt=quilt.id)):
        with pytest.raises(Exception, match="CHECK"):
            add(shelf.database, Talk("A talk", items=(item,)), "Tess")


def test_a_person_made_one_with_another_stays_in_the_talk(shelf: Any) -> None:
    kept, other = shelf.named(Party, "Ada Winter"), shelf.named(Party, "Mrs. Winter")
    talk = add(shelf.database, Talk("A talk", items=(TalkItem(party=other),)), "Tess")
    merge(shelf.database, kept, other, "Tess")
    assert load(shelf.database, Talk, talk.id).items[0].party == kept
    part(shelf.database, 1, "Tess")
    assert load(shelf.database, Talk, talk.id).items[0].party == other


# --- names -------------------------------------------------------------------------------------


@pytest.fixture
def named(shelf: Any) -> Any:
    """One of everything an item can be about, and two letters of one title."""
    shelf.quilt("Stars", accession="1987.4.1")
    for kind, name in ((Pattern, "Evening Star"), (Publication, "The Leaf"), (Party, "Ada Winter")):
        shelf.named(kind, name)
    for _ in range(2):
        add(shelf.database, RelatedItem("A letter"), "Tess")
    add(shelf.database, RelatedItem("A leaflet"), "Tess")
    return shelf


NAMES = [
    ("quilt", "1987.4.1", TalkItem(quilt=1), "1987.4.1 Stars"),
    ("quilt", "1987.4.1 stars", TalkItem(quilt=1), "1987.4.1 Stars"),
    ("pattern", "evening star", TalkItem(pattern=1), "Evening Star"),
    ("publication", "The Leaf", TalkItem(publication=1), "The Leaf"),
    ("person", "Ada Winter", TalkItem(party=1), "Ada Winter"),
    ("related material", "a leaflet", TalkItem(related_item=3), "A leaflet"),
    ("related material", "A letter [2]", TalkItem(related_item=2), "A letter [2]"),
    ("heading", "First", TalkItem("First"), "First"),
    ("borrowed quilt", "Lent", TalkItem("Lent", borrowed=True), "Lent"),
]


@pytest.mark.parametrize(("kind", "typed", "item", "name"), NAMES)
def test_an_item_is_found_by_what_people_type(
    named: Any, kind: str, typed: str, item: TalkItem, name: str
) -> None:
    register = Register(named.database, "Tess")
    assert item_named(register, kind, typed) == item
    assert name_of(register, item) == name
    assert kind in ("heading", "borrowed quilt") or name in names_to_offer(register)


@pytest.mark.parametrize("kind", ["quilt", "pattern", "publication", "person", "related material"])
def test_what_is_not_on_record_is_not_found(named: Any, kind: str) -> None:
    register = Register(named.database, "Tess")
    assert item_named(register, kind, "Nothing of the kind") is None


# --- what slides and sources say ---------------------------------------------------------------


def test_sources_are_the_printings_followed_and_what_is_spoken_of_each_once(shelf: Any) -> None:
    leaf = shelf.named(Publication, "The Leaf")
    printing = Printing(leaf, date=read_date("May 1909"), page="14", name_as_printed="Lone Plate")
    pattern = add(shelf.database, Pattern("Churn Dash", printings=(printing,)), "Tess")
    block = {"pattern": pattern.id, "printing": pattern.printings[0].id}
    from catalogue.collection.records import BlockKind

    quilt = shelf.quilt("Dash", blocks=(BlockKind(**block),))
    programme = shelf.programme(
        quilt, TalkItem(pattern=pattern.id), TalkItem(publication=leaf), TalkItem("Words")
    )
    assert sources_of(programme) == (
        "“Lone Plate” (Churn Dash), The Leaf, May 1909, page 14",
        "The Leaf, newspaper column",
    )


def test_visitors_are_shown_no_notes_no_hidden_quilt_and_nobody_who_made_nothing(
    shelf: Any,
) -> None:
    hidden = shelf.quilt("Hidden", locations=(Location("ShelfXYZ"),))
    shown = shelf.quilt("Shown", published=True, locations=(Location("ShelfXYZ"),))
    donor = shelf.named(Party, "Zebulon Price")
    items = tuple(
        TalkItem(**about, notes="Keepsecret")
        for about in ({"quilt": hidden.id}, {"quilt": shown.id}, {"party": donor}, {"words": "End"})
    )
    talk = add(shelf.database, Talk("A talk", notes="Keepsecret", items=items), "Tess")
    programme = programme_of(shelf.database, talk, VISITOR)
    assert [turn.title for turn in programme.turns] == ["Shown", "End"]
    assert "Keepsecret" not in repr(programme)
    assert "ShelfXYZ" not in repr(programme)
    assert [slide.title for slide in slides_of(programme)] == ["A talk", "Shown", "End"]
