"""Nobody deletes: what should not be there is put away whole, and only the keeper destroys."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image

from catalogue.collection import photographs
from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.happenings import happenings
from catalogue.collection.putting_away import put_away as hide
from catalogue.collection.records import (
    BlockKind,
    Exhibit,
    Link,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Printing,
    Publication,
    Quilt,
    RelatedItem,
    Talk,
    TalkGiven,
    TalkItem,
)
from catalogue.collection.register import Kind, Register
from catalogue.collection.store import NotFound, add, load, save, update
from catalogue.collection.talks.giving import keep_as_given
from catalogue.web.subjects import SUBJECTS

KINDS = [
    ("quilt", Quilt("Stars", published=True), "/quilts/1", "/"),
    ("person", Party("Ada Winter"), "/people/1", "/people"),
    ("pattern", Pattern("Evening Star"), "/patterns/1", "/patterns"),
    ("publication", Publication("The Weekly"), "/publications/1", "/publications"),
    ("related", RelatedItem("A letter", published=True), "/related/1", "/related"),
    ("exhibit", Exhibit("Red and green", published=True), "/exhibits/1", "/exhibits"),
    ("talk", Talk("Sixty years", published=True), "/talks/1", "/talks"),
]


def put_away(client: FlaskClient, kind: str, id: int = 1, seen: int = 1) -> str:
    sent = {"reason": "entered twice", "seen": str(seen)}
    return client.post(f"/put-away/{kind}/{id}", data=sent, follow_redirects=True).text


def jpeg() -> bytes:
    made = BytesIO()
    Image.new("RGB", (300, 200), "indigo").save(made, "JPEG")
    return made.getvalue()


def named(record: object) -> str:
    return str(getattr(record, "title", "") or getattr(record, "name", ""))


@pytest.mark.parametrize(
    ("kind", "record", "page", "all_of_them"), KINDS, ids=lambda each: str(each)
)
def test_what_is_put_away_is_in_no_list_and_not_there_for_visitors(
    member: FlaskClient,
    visitor: FlaskClient,
    collection: Collection,
    kind: str,
    record: Quilt,
    page: str,
    all_of_them: str,
) -> None:
    add(collection.database, record, "Tess")
    assert named(record) in member.get(all_of_them).text
    assert "entered twice" in put_away(member, kind)
    assert named(record) not in member.get(all_of_them).text
    assert visitor.get(page).status_code == 404
    assert "entered twice" in member.get(page).text  # its own page opens, and says so
    assert getattr(load(collection.database, type(record), 1), "published", False) is False


@pytest.mark.parametrize(
    ("kind", "record", "page", "all_of_them"), KINDS, ids=lambda each: str(each)
)
def test_what_is_taken_out_again_is_listed_as_before(
    member: FlaskClient,
    collection: Collection,
    kind: str,
    record: Quilt,
    page: str,
    all_of_them: str,
) -> None:
    add(collection.database, record, "Tess")
    put_away(member, kind)
    member.post(f"/put-away/{kind}/1/take-out")
    assert named(record) in member.get(all_of_them).text
    assert "entered twice" not in member.get(page).text


def test_a_search_passes_over_what_is_put_away(member: FlaskClient, collection: Collection) -> None:
    for title in ("Blue stars", "Red stars"):
        add(collection.database, Quilt(title), "Tess")
    put_away(member, "quilt", 1)
    page = member.get("/search?q=stars").text
    assert "Red stars" in page
    assert "Blue stars" not in page


def test_a_name_that_is_put_away_is_not_suggested(collection: Collection) -> None:
    add(collection.database, Party("Ada Winter", put_away="entered twice"), "Tess")
    names = Register(collection.database, "Tess")
    assert names.labels(Kind.PARTY) == []
    assert names.find(Kind.PARTY, "Ada Winter") is None


def made_by_ada(collection: Collection) -> None:
    database = collection.database
    ada = add(database, Party("Ada Winter"), "Tess")
    weekly = add(database, Publication("The Weekly"), "Tess")
    star = add(database, Pattern("Star", printings=(Printing(weekly.id or 0),)), "Tess")
    phases = (Phase("pieced", makers=(PhaseMaker(ada.id or 0),)),)
    add(database, Quilt("Stars", phases=phases, blocks=(BlockKind("a", star.id),)), "Tess")
    add(database, RelatedItem("A letter", links=(Link(quilt=1),)), "Tess")
    add(database, Talk("Sixty years", items=(TalkItem(pattern=star.id),)), "Tess")


@pytest.mark.parametrize(
    ("kind", "referrers"),
    [
        ("person", ["Stars"]),
        ("pattern", ["Stars", "Sixty years"]),
        ("publication", ["Star"]),
        ("quilt", ["A letter"]),
    ],
)
def test_what_others_refer_to_is_not_put_away_and_the_page_names_them(
    member: FlaskClient, collection: Collection, kind: str, referrers: list[str]
) -> None:
    made_by_ada(collection)
    page = put_away(member, kind)
    assert all(name in page for name in referrers)
    record = SUBJECTS[kind].record
    assert load(collection.database, record, 1).put_away == ""


def test_without_a_reason_nothing_is_put_away(member: FlaskClient, collection: Collection) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    answer = member.post("/put-away/quilt/1", data={"reason": " ", "seen": "1"})
    assert answer.status_code == 422
    assert "Write why" in answer.text


def test_what_somebody_changed_meanwhile_is_looked_at_once_more(
    member: FlaskClient, collection: Collection
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    hide(collection.database, Quilt, 1, "a mistake", by="Joan", expecting=1)
    assert "Joan changed this meanwhile" in put_away(member, "quilt", seen=1)


def test_what_is_put_away_cannot_be_published(member: FlaskClient, collection: Collection) -> None:
    add(collection.database, Quilt("Stars", published=True), "Tess")
    put_away(member, "quilt")
    assert 'name="published"' not in member.get("/quilts/1/edit/identity").text
    sent = {"revision": "2", "field": "published", "seen": "2"}
    assert member.post("/changes/quilt/1", data=sent).status_code == 403
    assert load(collection.database, Quilt, 1).published is False


@pytest.mark.parametrize(
    ("role", "address", "status"),
    [
        ("volunteer", "/put-away/quilt/1", 403),
        ("volunteer", "/put-away/quilt/1/take-out", 403),
        ("historian", "/put-away/quilt/1/purge", 403),
        ("keeper", "/put-away/quilt/9/purge", 404),
        ("keeper", "/put-away/nonsense/1", 404),
    ],
)
def test_each_role_may_do_its_own(
    app: Flask, collection: Collection, role: str, address: str, status: int
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    assert signed_in(app, role).post(address).status_code == status


# --- purging -----------------------------------------------------------------------------------


def purge(member: FlaskClient, name: str, kind: str = "quilt") -> str:
    answer = member.post(f"/put-away/{kind}/1/purge", data={"name": name}, follow_redirects=True)
    return answer.text


def files_with(collection: Collection, word: bytes) -> list[str]:
    files = (file for file in collection.folder.rglob("*") if file.is_file())
    return [file.name for file in files if word in file.read_bytes()]


def test_what_is_purged_is_gone_from_every_file_and_the_watch_book_says_so(
    member: FlaskClient, collection: Collection
) -> None:
    photo = photographs.keep(collection, jpeg())
    secret = Quilt("Stars", "1988.2", history="Whisperedword", photographs=(photo,))
    add(collection.database, secret, "Tess")
    assert "Stars" in member.get("/search?q=whisperedword").text
    put_away(member, "quilt")
    assert "It is destroyed" in purge(member, "1988.2 Stars")
    with pytest.raises(NotFound):
        load(collection.database, Quilt, 1)
    assert files_with(collection, b"hisperedword") == []
    assert not any(photo.file in file.name for file in collection.folder.rglob("*"))
    (purged,) = (each for each in happenings(collection.database) if each.what == "purged")
    assert purged.about == "quilt 1, 1988.2, with 2 revisions"
    assert list(check(collection.folder)) == []


def test_the_name_of_a_person_who_is_purged_leaves_the_index_too(
    member: FlaskClient, collection: Collection
) -> None:
    database = collection.database
    add(database, Party("Zephyrine Quatrefoil"), "Tess")
    phases = (Phase("pieced", makers=(PhaseMaker(1),)),)
    add(database, Quilt("Stars", phases=phases), "Tess")
    assert "Stars" in member.get("/search?q=quatrefoil").text
    update(database, Quilt, 1, lambda quilt: replace(quilt, phases=()), by="Tess")
    put_away(member, "person")
    purge(member, "Zephyrine Quatrefoil", "person")
    assert files_with(collection, b"uatrefoil") == []


def test_a_photograph_that_another_record_has_stays(
    member: FlaskClient, collection: Collection
) -> None:
    photo = photographs.keep(collection, jpeg())
    for title in ("Stars", "Bars"):
        add(collection.database, Quilt(title, photographs=(photo,)), "Tess")
    put_away(member, "quilt")
    purge(member, "Stars")
    assert photographs.original(collection, photo).exists()
    assert member.get("/quilts/2").status_code == 200


@pytest.mark.parametrize("name", ["", "stars", "Bars"])
def test_nothing_is_destroyed_before_its_name_is_typed(
    member: FlaskClient, collection: Collection, name: str
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    put_away(member, "quilt")
    assert "Write “Stars” to destroy it" in purge(member, name)
    assert load(collection.database, Quilt, 1).title == "Stars"


def test_what_stands_open_cannot_be_purged(member: FlaskClient, collection: Collection) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    assert member.post("/put-away/quilt/1/purge", data={"name": "Stars"}).status_code == 404


def test_a_talk_that_was_given_goes_on_telling_of_it_in_words(
    member: FlaskClient, collection: Collection
) -> None:
    database = collection.database
    add(database, Quilt("Stars"), "Tess")
    add(database, Talk("Sixty years", items=(TalkItem(quilt=1),)), "Tess")
    keep_as_given(database, 1, TalkGiven("Sixty years", "2020-05-01"), "Tess")
    save(database, Talk, 1, {"items": ()}, by="Tess", expecting=2)
    put_away(member, "quilt")
    purge(member, "Stars")
    (giving,) = load(database, Talk, 1).givings
    assert [(item.title, item.quilt) for item in giving.items] == [("Stars", None)]


def test_the_number_of_a_purged_record_is_never_given_again(
    member: FlaskClient, collection: Collection
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    put_away(member, "quilt")
    purge(member, "Stars")
    assert add(collection.database, Quilt("Bars"), "Tess").id == 2


def test_people_who_were_made_one_and_are_purged_leave_nothing_behind(
    member: FlaskClient, collection: Collection
) -> None:
    for name in ("Ada Winter", "A. Winter"):
        add(collection.database, Party(name), "Tess")
    member.post("/people/alike", data={"kept": "2", "other": "1", "apart": "1"})
    put_away(member, "person")
    purge(member, "Ada Winter", "person")
    with pytest.raises(NotFound):
        load(collection.database, Party, 1)
    assert collection.database.table("told_apart").count == 0
