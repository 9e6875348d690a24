"""Photographs on the web: kept once, squared up, measured, read, and decided on by a historian."""

from __future__ import annotations

import hashlib
import io
import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image
from werkzeug.test import TestResponse

from catalogue import shipped
from catalogue.collection import photograph_readings, photographs
from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import BlockKind, Photograph, Quilt, Reading
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.squaring import FROM_PHOTOGRAPH
from catalogue.collection.store import add, load, update

SAMPLE = shipped.folder("sample_collection") / "photographs"
CORNERS = ((107, 96), (1209, 97), (1237, 1403), (93, 1403))
PAGE = "/quilts/1/photographs/1"
BASKET = {"column": "4", "row": "5", "turn": "180"}


_read = photograph_readings._read
_known: dict[object, photograph_readings.KeptReading] = {}


@pytest.fixture(autouse=True)
def read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A reading takes seconds, and is the same in every test."""

    def read(
        collection: Collection, quilt: Quilt, photo: Photograph
    ) -> photograph_readings.KeptReading:
        key = photo.file, photo.corners, len(quilt.readings)
        if key not in _known:
            _known[key] = _read(collection, quilt, photo)
        return _known[key]

    monkeypatch.setattr(photograph_readings, "_read", read)


def basket() -> bytes:
    return (SAMPLE / "1986.7-overall.jpg").read_bytes()


def typed(corners: tuple[tuple[float, float], ...] = CORNERS) -> dict[str, str]:
    return {
        f"corner{number}-{axis}": str(value)
        for number, corner in enumerate(corners)
        for axis, value in zip("xy", corner, strict=True)
    }


def send(member: FlaskClient, *files: bytes, **headers: str) -> TestResponse:
    sent = [(io.BytesIO(data), f"{number}.jpg") for number, data in enumerate(files)]
    return member.post(
        "/quilts/1/photographs/add", data={"photographs": sent}, headers=headers or None
    )


@pytest.fixture
def quilt(collection: Collection, member: FlaskClient) -> Quilt:
    """A quilt measured overall, with one photograph of the whole."""
    readings = (
        Reading("overall", "width", "69", Fraction(69)),
        Reading("overall", "length", "80", Fraction(80)),
    )
    blocks = (BlockKind("basket"),)
    add(
        collection.database,
        Quilt("Baskets", published=True, readings=readings, blocks=blocks),
        "Tess",
    )
    send(member, basket())
    return load(collection.database, Quilt, 1)


@pytest.fixture
def squared(collection: Collection, member: FlaskClient, quilt: Quilt) -> Quilt:
    """The same once its corners are set."""
    assert member.post(f"{PAGE}/corners", data=typed()).status_code == 302
    return load(collection.database, Quilt, 1)


# --- keeping -----------------------------------------------------------------------------------


def test_a_page_that_sends_one_by_one_is_answered_one_by_one(
    member: FlaskClient, quilt: Quilt
) -> None:
    block = (SAMPLE / "1986.7-turned.jpg").read_bytes()
    answer = send(member, block, Accept="application/json")
    assert answer.json == {"kept": 1, "again": 0, "refused": []}
    assert send(member, block, Accept="application/json").json["again"] == 1
    refused = send(member, b"no picture", Accept="application/json").json
    assert "not a JPEG" in refused["refused"][0]


def test_what_is_kept_is_known_by_its_hash_and_need_not_be_sent(
    member: FlaskClient, quilt: Quilt
) -> None:
    digest = hashlib.sha256(basket()).hexdigest()
    for sha256, kept in ((digest, True), ("0" * 64, False), ("", False)):
        answer = member.get(f"/quilts/1/photographs/kept?sha256={sha256}")
        assert answer.json == {"kept": kept}


def test_what_is_to_be_seen_is_proposed_from_the_record(quilt: Quilt) -> None:
    assert quilt.photographs[0].alternative_text.startswith(
        "The whole quilt from the front “Baskets”."
    )


def test_a_bad_file_among_good_ones_changes_nothing_else(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    send(member, basket()[:5000], (SAMPLE / "1986.7-turned.jpg").read_bytes())
    assert len(load(collection.database, Quilt, 1).photographs) == 2


@pytest.mark.parametrize(
    ("name", "left"),
    [("page.webp", 500), ("large.jpg", 500), ("squared.webp", 0), ("block.webp", 500)],
)
def test_pictures_that_damage_cut_short_are_made_again(
    name: str, left: int, member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    whole = member.get(f"{PAGE}/{name}").data
    kind = name.replace("block", "block-median")
    (file,) = collection.photographs.rglob(f"smaller/*/*{kind}")
    file.write_bytes(whole[:left])
    assert member.get(f"{PAGE}/{name}").data == whole


def test_one_photograph_sent_twice_at_once_is_kept_and_counted_once(
    member: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    block = (SAMPLE / "1986.7-turned.jpg").read_bytes()
    answer = send(member, block, block, Accept="application/json")
    assert answer.json == {"kept": 1, "again": 1, "refused": []}
    assert len(load(collection.database, Quilt, 1).photographs) == 2


def test_smaller_pictures_that_are_missing_are_made_again(
    visitor: FlaskClient, collection: Collection, quilt: Quilt
) -> None:
    for file in (collection.photographs / "smaller").rglob("*.webp"):
        file.unlink()
    assert visitor.get(f"{PAGE}/page.webp").status_code == 200
    Path(photographs.original(collection, quilt.photographs[0])).write_bytes(b"damaged")
    for file in (collection.photographs / "smaller").rglob("*.webp"):
        file.unlink()
    assert visitor.get(f"{PAGE}/page.webp").status_code == 404


# --- squaring up -------------------------------------------------------------------------------


def test_corners_are_proposed_until_somebody_sets_them(member: FlaskClient, quilt: Quilt) -> None:
    assert "Proposed:" in member.get(f"{PAGE}/corners").text
    assert member.get(f"{PAGE}/read").headers["Location"].endswith("/corners")


def test_corners_once_set_are_kept_with_the_colours_between_them(squared: Quilt) -> None:
    (photo,) = squared.photographs
    assert photo.corners == "107.0,96.0 1209.0,97.0 1237.0,1403.0 93.0,1403.0"
    assert {colour.plain for colour in photo.colours} >= {"pink", "brown"}


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"corner0-x": "left"}, "are not two numbers"),
        ({"corner0-x": ""}, "are not two numbers"),
        ({"corner0-x": "nan"}, "are not two numbers"),
        ({"corner2-x": "90000"}, "far outside"),
        ({"corner0-x": "1300", "corner1-x": "20"}, "clockwise from the top left"),
        ({"card-x": "12"}, "are not two numbers"),
    ],
)
def test_corners_that_cannot_be_stay_as_typed_with_a_sentence(
    changed: dict[str, str], says: str, member: FlaskClient, quilt: Quilt, collection: Collection
) -> None:
    answer = member.post(f"{PAGE}/corners", data=typed() | changed)
    assert answer.status_code == 422
    assert says in answer.text
    for value in changed.values():
        assert f'value="{value}"' in answer.text
    assert load(collection.database, Quilt, 1).photographs[0].corners == ""


def test_the_squared_up_picture_has_the_proportion_of_the_tape(
    member: FlaskClient, squared: Quilt
) -> None:
    picture = Image.open(io.BytesIO(member.get(f"{PAGE}/squared.webp").data))
    assert picture.width / picture.height == pytest.approx(69 / 80, rel=0.01)


def test_two_places_read_as_inches_with_their_error(member: FlaskClient, squared: Quilt) -> None:
    ends = "from-x=10&from-y=40&to-x=22&to-y=40"
    says = member.get(f"{PAGE}/distance?{ends}").json["says"]
    assert says.startswith("12 in ± ")
    assert "12 in ±" in member.get(f"{PAGE}/read?{ends}").text
    wrong = member.get(f"{PAGE}/distance?from-x=abc&from-y=40&to-x=900&to-y=40").json["says"]
    assert "abc" in wrong


def test_a_distance_is_kept_as_a_reading_marked_and_weighed(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    ends = {"from-x": "10", "from-y": "40", "to-x": "21 5/8", "to-y": "40"}
    data = ends | {"part": "block", "dimension": "width", "which": "1"}
    assert member.post(f"{PAGE}/distance", data=data).status_code == 302
    reading = load(collection.database, Quilt, 1).readings[-1]
    assert (reading.where, reading.written) == (FROM_PHOTOGRAPH, "11.625 in")
    assert reading.error is not None
    assert 0.1 < reading.error < 1
    page = member.get("/quilts/1").text
    assert "from photograph, ±" in page
    assert "from photograph" in member.get("/quilts/1/measurements").text


@pytest.mark.parametrize(
    ("data", "status"),
    [
        ({"part": "overall", "dimension": "width"}, 400),
        ({"part": "block", "dimension": "depth"}, 400),
    ],
)
def test_what_is_no_reading_is_not_kept(
    data: dict[str, str],
    status: int,
    member: FlaskClient,
    collection: Collection,
    squared: Quilt,
) -> None:
    assert member.post(f"{PAGE}/distance", data=data).status_code == status
    assert len(load(collection.database, Quilt, 1).readings) == 2


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"which": "0"}, "“0” is not a whole number from 1 to 20."),
        ({"which": "two"}, "“two” is not a whole number from 1 to 20."),
        ({"from-x": "500"}, "500 in lies beside the quilt, which measures 69 in there."),
        ({"to-y": "half"}, "half"),
    ],
)
def test_what_is_typed_wrongly_at_the_ruler_is_kept_in_its_box_with_what_is_wrong(
    typed: dict[str, str],
    says: str,
    member: FlaskClient,
    collection: Collection,
    squared: Quilt,
) -> None:
    data = {"part": "border", "dimension": "length", "from-x": "12", **typed}
    page = member.post(f"{PAGE}/distance", data=data, follow_redirects=True).text
    assert "Nothing was kept" in page
    assert says in page
    for name, value in {"from-x": "12", **typed}.items():
        assert re.search(f'name="{name}"[^>]* value="{value}"', page)
    assert "<option selected>border" in page
    assert len(load(collection.database, Quilt, 1).readings) == 2


@pytest.mark.parametrize("corner", ["0", "0.000", "00", "0 in"])
def test_a_ruler_may_begin_at_the_corner(
    corner: str, member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    ends = {"from-x": corner, "from-y": corner, "to-x": "20", "to-y": "0"}
    data = ends | {"part": "block", "dimension": "width", "which": ""}
    member.post(f"{PAGE}/distance", data=data)
    assert load(collection.database, Quilt, 1).readings[-1].written == "20 in"


def test_corners_that_somebody_else_kept_meanwhile_are_not_written_over_unseen(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    kept = squared.photographs[0].corners
    answer = member.post(f"{PAGE}/corners", data={**typed(), "before": "", "corner0-x": "9"})
    assert answer.status_code == 422
    assert "Somebody else has kept other corners meanwhile" in answer.text
    assert load(collection.database, Quilt, 1).photographs[0].corners == kept
    again = {**typed(), "before": kept, "corner0-x": "9"}
    assert member.post(f"{PAGE}/corners", data=again).status_code == 302


def test_a_grey_card_lies_in_the_picture(member: FlaskClient, quilt: Quilt) -> None:
    answer = member.post(f"{PAGE}/corners", data={**typed(), "card-x": "-30", "card-y": "50"})
    assert answer.status_code == 422
    assert "-30, 50 lies outside of the picture." in answer.text


def test_without_a_tape_there_are_no_inches(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    update(collection.database, Quilt, 1, lambda q: replace(q, readings=()), by="Tess")
    assert member.get(f"{PAGE}/distance").status_code == 404
    assert "In proportion only" in member.get(f"{PAGE}/read").text


# --- reading -----------------------------------------------------------------------------------


def test_the_layout_of_the_photograph_stands_beside_the_tapes(
    member: FlaskClient, squared: Quilt
) -> None:
    page = member.get(f"{PAGE}/read").text
    assert "By the photograph" in page
    assert "By the tape" in page
    assert "5 × 6" in page


def test_a_photograph_is_read_once(
    member: FlaskClient, squared: Quilt, monkeypatch: pytest.MonkeyPatch
) -> None:
    member.get(f"{PAGE}/read")
    first = member.get(f"{PAGE}/read").text
    monkeypatch.setattr(photograph_readings, "_read", None)
    assert member.get(f"{PAGE}/read").text == first


def test_a_photograph_that_is_destroyed_leaves_no_picture_made_from_it(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    for address in ("read", "squared.webp", "block.webp", "page.webp"):
        assert member.get(f"{PAGE}/{address}").status_code == 200
    photographs.forget(collection, squared.photographs[0].file)
    assert [path for path in collection.photographs.rglob("*") if path.is_file()] == []


def test_a_confirmed_turn_becomes_a_distinguishing_feature_and_can_be_dismissed_again(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    assert "The block 4 from the left and 5 from the top" in member.get(f"{PAGE}/read").text
    member.post(f"{PAGE}/turned", data={**BASKET, "decision": "confirmed"})
    found = load(collection.database, Quilt, 1)
    assert found.distinguishing_features == (
        "The block 4 from the left and 5 from the top is turned on its head."
    )
    assert "Confirmed by Tess" in member.get(f"{PAGE}/read").text
    member.post(f"{PAGE}/turned", data={**BASKET, "decision": "dismissed"})
    found = load(collection.database, Quilt, 1)
    assert found.distinguishing_features == ""
    (decision,) = found.photographs[0].turned_blocks
    assert (decision.across, decision.down, decision.decision) == (4, 5, "dismissed")


@pytest.mark.parametrize(
    "data",
    [
        {},
        {"decision": "confirmed"},
        {**BASKET, "column": "x", "decision": "confirmed"},
        {**BASKET, "decision": "perhaps"},
    ],
)
def test_a_decision_on_nothing_is_refused(
    data: dict[str, str], member: FlaskClient, squared: Quilt
) -> None:
    assert member.post(f"{PAGE}/turned", data=data).status_code == 400


def test_a_decision_on_a_block_that_the_photograph_no_longer_tells_of_changes_nothing(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    before = load(collection.database, Quilt, 1)
    for other in ({"column": "1"}, {"row": "1"}, {"turn": "90"}):
        data = {**BASKET, **other, "decision": "confirmed"}
        answer = member.post(f"{PAGE}/turned", data=data, follow_redirects=True)
        assert "no longer tells that of this block" in answer.text
    assert load(collection.database, Quilt, 1) == before


@pytest.mark.parametrize("address", ["turned", "corners"])
def test_what_is_sent_about_a_photograph_whose_files_are_gone_is_not_found(
    address: str,
    member: FlaskClient,
    collection: Collection,
    squared: Quilt,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.undo()  # read it really, not once for all tests
    photographs.forget(collection, squared.photographs[0].file)
    places = squared.photographs[0].corners.split()
    corners = {
        f"corner{number}-{axis}": value
        for number, place in enumerate(places)
        for axis, value in zip("xy", place.split(","), strict=True)
    }
    data = {**BASKET, "decision": "confirmed", **corners}
    assert member.post(f"{PAGE}/{address}", data=data).status_code == 404


def test_the_block_is_cut_and_kept_among_the_photographs(
    member: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    for address in (f"{PAGE}/block.webp", f"{PAGE}/block.webp?block=7"):
        assert Image.open(io.BytesIO(member.get(address).data)).size == (360, 360)
    assert member.get(f"{PAGE}/block.webp?block=900").status_code == 404
    assert member.get(f"{PAGE}/block.webp?block=abc").status_code == 404
    for _ in range(2):
        member.post(f"{PAGE}/block")
    views = [photo.view for photo in load(collection.database, Quilt, 1).photographs]
    assert views == ["overall", "block"]


def test_colours_of_the_photograph_are_shown_and_searched(
    app: Flask, visitor: FlaskClient, collection: Collection, squared: Quilt
) -> None:
    assert "bubblegum pink" in visitor.get("/quilts/1").text
    index = app.extensions["search_index"]
    asking = Reader("visitor")
    for wanted in (Wanted(colour=("brown",)), Wanted("bubblegum")):
        assert find(collection.database, index, wanted, reader=asking).total == 1
    assert find(collection.database, index, Wanted(colour=("purple",)), reader=asking).total == 0
