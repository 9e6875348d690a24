"""A donated quilt is documented section by section; what is typed is kept, right or wrong."""

from __future__ import annotations

from fractions import Fraction

from flask.testing import FlaskClient

from catalogue.collection.folder import Collection
from catalogue.collection.records import Party, Publication, Quilt
from catalogue.collection.store import add, load, save
from catalogue.values.dates import read_date


def begun(collection: Collection, **fields: object) -> Quilt:
    return add(collection.database, Quilt(**({"title": "Flying Geese"} | fields)), "Tess")


def test_a_title_is_enough_to_begin(member: FlaskClient, collection: Collection) -> None:
    answer = member.post("/quilts/new", data={"title": "Flying Geese"})
    assert answer.headers["Location"] == "/quilts/1"
    quilt = load(collection.database, Quilt, 1)
    assert (quilt.title, quilt.status, quilt.published) == ("Flying Geese", "offered", False)


def test_without_a_title_nothing_is_begun_and_what_was_typed_stays(member: FlaskClient) -> None:
    answer = member.post("/quilts/new", data={"title": " ", "subject": "Peace of 1919"})
    assert answer.status_code == 422
    assert "Give the quilt a title." in answer.text
    assert 'value="Peace of 1919"' in answer.text


def test_an_accession_number_is_refused_in_one_sentence_beside_its_field(
    member: FlaskClient,
) -> None:
    answer = member.post("/quilts/new", data={"title": "Geese", "accession": "87.4"})
    assert answer.status_code == 422
    beside = answer.text.split('id="accession-wrong">')[1].split("</p>")[0]
    assert "87.4" in beside
    assert "whole year" in beside


def test_a_number_can_be_given_once_only(member: FlaskClient, collection: Collection) -> None:
    begun(collection, accession="1987.4.1")
    answer = member.post("/quilts/new", data={"title": "Other", "accession": "1987-4-1"})
    assert answer.status_code == 422
    assert "is the number of “Flying Geese” already" in answer.text


def test_an_accessioned_quilt_needs_its_number(member: FlaskClient) -> None:
    answer = member.post("/quilts/new", data={"title": "Geese", "status": "accessioned"})
    assert "An accessioned quilt needs its accession number." in answer.text


def test_phases_with_their_makers_are_saved_and_new_names_are_added_to_the_people(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    add(collection.database, Party("Ada Winter"), "Tess")
    answer = member.post(
        "/quilts/1/edit/making",
        data={
            "revision": "1",
            "phases-0-kind": "pieced",
            "phases-0-date": "1890s",
            "phases-0-place": "Hollow Ford",
            "phases-0-makers-0-party": "ada winter",
            "phases-1-kind": "quilted",
            "phases-1-date": "c. 1978",
            "phases-1-date-shown": "1978~",
            "phases-1-makers-0-party": "Joan Field",
            "phases-1-makers-0-certainty": "probable",
        },
    )
    assert answer.status_code == 302
    pieced, quilted = load(collection.database, Quilt, 1).phases
    assert (pieced.kind, pieced.date, pieced.place) == ("pieced", read_date("1890s"), "Hollow Ford")
    assert pieced.makers[0].party == 1
    joan = load(collection.database, Party, quilted.makers[0].party)
    assert (joan.name, quilted.makers[0].certainty) == ("Joan Field", "probable")


def test_a_reading_of_a_date_is_shown_before_it_is_kept(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    sent = {"revision": "1", "received": "c. 1935"}
    first = member.post("/quilts/1/edit/arrival", data=sent)
    assert first.status_code == 422
    assert "“c. 1935” as about 1935, from 1930-01-01 to 1940-12-31" in first.text
    assert 'name="received-shown" value="1935~"' in first.text
    assert load(collection.database, Quilt, 1).received is None
    member.post("/quilts/1/edit/arrival", data=sent | {"received-shown": "1935~"})
    assert load(collection.database, Quilt, 1).received == read_date("c. 1935")
    again = member.post("/quilts/1/edit/arrival", data=sent | {"revision": "2"})
    assert again.status_code == 302  # what was once kept is not asked for again


def test_a_date_that_says_just_what_is_written_needs_no_second_look(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    sent = {"revision": "1", "received": "May 1921"}
    assert member.post("/quilts/1/edit/arrival", data=sent).status_code == 302


def test_the_house_decides_what_vague_words_mean(
    member: FlaskClient, visitor: FlaskClient, collection: Collection
) -> None:
    from catalogue.values.date_policy import POLICY_TABLE

    assert "years added on either side" in visitor.get("/how-dates-are-read").text
    figures = {row.key: str(row.default) for row in POLICY_TABLE}
    answer = member.post("/how-dates-are-read", data=figures | {"about_years": "lots"})
    assert answer.status_code == 422
    assert "“lots”" in answer.text or "&#34;lots&#34;" in answer.text
    member.post("/how-dates-are-read", data=figures | {"about_years": "10"})
    answer = member.get("/read-date", query_string={"text": "c. 1935"})
    assert answer.json == {"says": "Read as about 1935.", "edtf": "1935~"}
    begun(collection)
    sent = {"revision": "1", "received": "c. 1935", "received-shown": "1935~"}
    member.post("/quilts/1/edit/arrival", data=sent)
    received = load(collection.database, Quilt, 1).received
    assert received is not None
    assert (received.earliest, received.latest) == ("1925-01-01", "1945-12-31")


def test_a_text_that_tells_of_several_phases_is_offered_as_rows(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    sent = {
        "revision": "1",
        "phases-0-date": "blocks 1890s, set and quilted 1978",
        "phases-0-makers-0-party": "Ada Winter",
    }
    offered = member.post("/quilts/1/edit/making", data=sent)
    assert "tells of several phases" in offered.text
    assert 'name="split" value="phases-0-date"' in offered.text
    split = member.post("/quilts/1/edit/making", data=sent | {"split": "phases-0-date"})
    assert load(collection.database, Quilt, 1).phases == ()
    for row, (kind, date) in enumerate(
        [("pieced", "1890s"), ("set together", "1978"), ("quilted", "1978")]
    ):
        select = split.text.split(f'name="phases-{row}-kind"')[1].split("</select>")[0]
        assert f'selected value="{kind}"' in select
        assert f'name="phases-{row}-date" type="text" value="{date}"' in split.text
    assert 'value="Ada Winter"' in split.text


def test_a_date_that_reads_two_ways_is_refused_and_everything_typed_is_still_there(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    answer = member.post(
        "/quilts/1/edit/making",
        data={
            "revision": "1",
            "phases-0-kind": "pieced",
            "phases-0-date": "7/4/1876",
            "phases-0-makers-0-party": "Ada Winter",
        },
    )
    assert answer.status_code == 422
    assert "can be read in two ways" in answer.text
    assert 'value="7/4/1876"' in answer.text
    assert 'value="Ada Winter"' in answer.text
    assert load(collection.database, Quilt, 1).phases == ()


def test_rows_can_be_removed_and_put_in_another_order(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    member.post(
        "/quilts/1/edit/cloth",
        data={
            "revision": "1",
            **{f"materials-{n}-part": "top" for n in range(3)},
            **{f"materials-{n}-fibre": word for n, word in enumerate(["wool", "silk", "cotton"])},
        },
    )
    wool, silk, cotton = load(collection.database, Quilt, 1).materials
    member.post(
        "/quilts/1/edit/cloth",
        data={
            "revision": "2",
            "materials-0-id": wool.id,
            "materials-0-part": "top",
            "materials-0-fibre": "wool",
            "materials-0-order": "3",
            "materials-1-id": silk.id,
            "materials-1-part": "top",
            "materials-1-fibre": "silk",
            "materials-1-remove": "y",
            "materials-2-id": cotton.id,
            "materials-2-part": "top",
            "materials-2-fibre": "cotton",
            "materials-2-order": "1",
        },
    )
    assert load(collection.database, Quilt, 1).materials == (cotton, wool)


def test_a_label_keeps_its_line_breaks(member: FlaskClient, collection: Collection) -> None:
    begun(collection)
    member.post(
        "/quilts/1/edit/inscriptions",
        data={"revision": "1", "inscriptions-0-text": "For Tom\r\n  from his mother\r\n1891"},
    )
    assert load(collection.database, Quilt, 1).inscriptions[0].text == (
        "For Tom\n  from his mother\n1891"
    )
    assert "For Tom\n  from his mother\n1891" in member.get("/quilts/1").text


def test_a_pattern_names_where_it_was_published(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    member.post(
        "/patterns/new",
        data={
            "name": "Evening Star",
            "printings-0-publication": "The Fireside Page",
            "printings-0-number": "112",
            "printings-0-date": "May 1931",
            "printings-0-name_as_printed": "Star of the Evening",
            "printings-0-designer_as_printed": "Aunt Prudence",
            "printings-0-house_name": "yes",
        },
    )
    assert load(collection.database, Publication, 1).name == "The Fireside Page"
    member.post(
        "/quilts/1/edit/blocks",
        data={"revision": "1", "blocks-0-pattern": "Evening Star", "blocks-0-printing": "1"},
    )
    page = member.get("/quilts/1").text
    assert "Published as “Star of the Evening” in" in page
    assert "The Fireside Page, no. 112, May 1931" in page
    assert "Aunt Prudence (a house name, not a person)" in page


def test_ownership_is_understood_as_bounds_and_linked_to_people_on_record(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    add(collection.database, Party("Ada Winter"), "Tess")
    member.post(
        "/quilts/1/edit/ownership",
        data={
            "revision": "1",
            "ownership-0-party": "Ada Winter",
            "ownership-0-dates": "1890 until 1940",
            "ownership-0-direct": "y",
            "ownership-1-party": "Unknown party",
        },
    )
    first, second = load(collection.database, Quilt, 1).ownership
    assert (first.person, second.person) == (1, None)
    assert (first.begins_earliest, first.ends_latest) == ("1890-01-01", "1940-12-31")


def test_two_people_changing_one_field_are_shown_both_texts(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    save(collection.database, Quilt, 1, {"history": "Ben's story"}, by="Ben", expecting=1)
    sent = {"revision": "1", "history": "Tess's story"}
    answer = member.post("/quilts/1/edit/story", data=sent)
    assert answer.status_code == 422
    assert "Ben changed this meanwhile" in answer.text
    assert "Ben&#39;s story" in answer.text
    assert "Tess&#39;s story</textarea>" in answer.text
    assert 'name="revision" type="hidden" value="2"' in answer.text
    member.post("/quilts/1/edit/story", data=sent | {"revision": "2"})
    assert load(collection.database, Quilt, 1).history == "Tess's story"


def test_removing_a_kind_of_block_takes_its_readings_along(
    member: FlaskClient, collection: Collection
) -> None:
    from catalogue.collection.records import BlockKind, Reading

    quilt = begun(
        collection,
        blocks=(BlockKind("star"), BlockKind("plain")),
        readings=(
            Reading("block", "width", "12", Fraction(12), 1),
            Reading("block", "width", "6", Fraction(6), 2),
        ),
    )
    star, plain = quilt.blocks
    member.post(
        "/quilts/1/edit/blocks",
        data={
            "revision": "1",
            "blocks-0-id": star.id,
            "blocks-0-label": "star",
            "blocks-0-remove": "y",
            "blocks-1-id": plain.id,
            "blocks-1-label": "plain",
        },
    )
    readings = load(collection.database, Quilt, 1).readings
    assert [(reading.written, reading.number) for reading in readings] == [("6", 1)]


def test_every_change_is_shown_with_before_and_after(
    member: FlaskClient, collection: Collection
) -> None:
    begun(collection)
    member.post("/quilts/1/edit/story", data={"revision": "1", "history": "Found in an attic"})
    page = member.get("/changes/quilt/1").text
    assert "Revision 2" in page
    assert "Found in an attic" in page
