"""The sample collection: complete, of one piece with itself, and true to what it pretends to be."""

from __future__ import annotations

import dataclasses
import re
import tomllib
from pathlib import Path

import pytest

from catalogue.collection import records, vocabulary
from catalogue.patterns import designs
from catalogue.values.dates import read_date
from catalogue.values.lengths import parse_length

HERE = Path(__file__).parents[2] / "sample_collection"


def read(name):
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


QUILTS = {file.stem: read(f"quilts/{file.name}") for file in (HERE / "quilts").glob("*.toml")}
PARTIES = {each["key"]: each for each in read("people.toml")["party"]}
PUBLICATIONS = {each["key"]: each for each in read("publications.toml")["publication"]}
PATTERNS = {each["key"]: each for each in read("patterns.toml")["pattern"]}
PRINTINGS = {p["key"]: p for each in PATTERNS.values() for p in each.get("printing", ())}
EVERY_QUILT = pytest.mark.parametrize("slug", sorted(QUILTS))


def fields(kind):
    return {each.name for each in dataclasses.fields(kind)}


def test_there_are_twenty_four_quilts_most_of_them_accessioned_and_shown():
    states = [quilt["status"] for quilt in QUILTS.values()]
    assert len(states) == 24
    assert set(states) == set(vocabulary.STATUSES)
    assert states.count("accessioned") > 18
    assert 18 < sum(quilt["published"] for quilt in QUILTS.values()) < 24


def test_every_setting_that_can_be_seen_is_there():
    assert {quilt["setting_seen"] for quilt in QUILTS.values()} == set(vocabulary.SETTINGS)


@EVERY_QUILT
def test_keys_are_fields_of_the_record(slug):
    beside = {"drawing", "readings_by", "readings_on", "readings_where"}
    quilt = QUILTS[slug]
    assert set(quilt) - beside <= fields(records.Quilt)
    rows = {
        "blocks": records.BlockKind,
        "borders": records.Border,
        "phases": records.Phase,
        "materials": records.Material,
        "techniques": records.Technique,
        "inscriptions": records.Inscription,
        "ownership": records.OwnershipPeriod,
        "conditions": records.ConditionReport,
        "locations": records.Location,
        "photographs": records.Photograph,
        "earlier_numbers": records.EarlierNumber,
    }
    for name, kind in rows.items():
        for row in quilt.get(name, ()):
            assert set(row) <= fields(kind)


@EVERY_QUILT
def test_closed_lists_are_kept(slug):
    quilt = QUILTS[slug]
    assert quilt["object_type"] in vocabulary.OBJECT_TYPES
    assert quilt["came_by"] in vocabulary.CAME_BY
    assert quilt["quilting_worked"] in vocabulary.QUILTING_WORKED
    assert quilt.get("edge", "unknown") in vocabulary.EDGES
    for name in ("sashing", "cornerstones", "borders_seen", "binding"):
        assert quilt.get(name, "unknown") in vocabulary.UNKNOWN_OR_THERE
    assert {row["kind"] for row in quilt["phases"]} <= set(vocabulary.PHASES)
    assert {row["part"] for row in quilt["materials"]} <= set(vocabulary.MATERIAL_PARTS)
    assert {row["view"] for row in quilt["photographs"]} <= set(vocabulary.PHOTOGRAPH_VIEWS)
    assert {row["grade"] for row in quilt["conditions"]} <= set(vocabulary.CONDITION_GRADES)
    inscribed = {row["kind"] for row in quilt.get("inscriptions", ())}
    assert inscribed <= set(vocabulary.INSCRIPTION_KINDS)


@EVERY_QUILT
def test_what_a_quilt_refers_to_is_there(slug):
    quilt = QUILTS[slug]
    people = [row["person"] for row in quilt["ownership"] if "person" in row]
    people += [maker["party"] for row in quilt["phases"] for maker in row.get("makers", ())]
    people += [quilt["donor"]] if "donor" in quilt else []
    assert set(people) <= set(PARTIES)
    for block in quilt.get("blocks", ()):
        assert block.get("pattern") in {None, *PATTERNS}
        if "printing" in block:
            assert block["printing"] in PRINTINGS


def test_patterns_are_drafted_and_printed_where_the_publications_know_it():
    slugs = {each.slug for each in designs()}
    assert {each["design"] for each in PATTERNS.values()} <= slugs
    assert {each["publication"] for each in PRINTINGS.values()} <= set(PUBLICATIONS)
    assert "yes" in {each["house_name"] for each in PRINTINGS.values()}


def test_nothing_stands_in_the_register_that_no_quilt_needs():
    text = "".join(f.read_text(encoding="utf-8") for f in (HERE / "quilts").glob("*.toml"))
    printed = (HERE / "patterns.toml").read_text(encoding="utf-8")
    assert [key for key in PARTIES if f'"{key}"' not in text] == []
    assert [key for key in PATTERNS if f'"{key}"' not in text] == []
    unused = [key for key in PUBLICATIONS if f'"{key}"' not in printed]
    assert unused == ["winter-evenings"]  # on the shelf, though no quilt follows it


@EVERY_QUILT
def test_the_story_is_told_in_seventy_to_two_hundred_words(slug):
    assert 70 <= len(QUILTS[slug]["history"].split()) <= 200


@EVERY_QUILT
def test_written_dates_and_lengths_can_be_read(slug):
    quilt = QUILTS[slug]
    dates = [
        row["date"] for row in [*quilt["phases"], *quilt.get("inscriptions", ())] if "date" in row
    ]
    for text in [*dates, quilt["received"]]:
        assert read_date(text).edtf
    for written in (text for texts in quilt["readings"].values() for text in texts):
        assert parse_length(written).inches > 0


@EVERY_QUILT
def test_nobody_works_before_the_age_of_ten_or_after_death(slug):
    for phase in QUILTS[slug]["phases"]:
        if "date" not in phase:
            continue
        date = read_date(phase["date"])
        for maker in phase.get("makers", ()):
            party = PARTIES[maker["party"]]
            if maker.get("certainty") == "disputed" or "born" not in party:
                continue
            born = int(re.search(r"\d{4}", party["born"])[0])
            died = int(re.search(r"\d{4}", party.get("died", "9999"))[0])
            assert date.latest is None or int(date.latest[:4]) - born >= 10
            assert date.earliest is None or int(date.earliest[:4]) <= died


def test_private_details_are_plainly_invented():
    contacts = [party["contact"] for party in PARTIES.values() if "contact" in party]
    assert len(contacts) >= 8
    for contact in contacts:
        assert re.fullmatch(r"555-01\d\d", contact["telephone"])
        assert contact.get("email", "x@example.org").endswith("@example.org")
        assert re.search(r"Invented|Made-up|Nowhere| 0", contact.get("address", "Invented"))
    assert all(party.get("living") for party in PARTIES.values() if "contact" in party)


def test_insured_values_say_what_they_are():
    valued = [quilt for quilt in QUILTS.values() if "insurance_value" in quilt]
    assert len(valued) >= 15
    assert all("not an appraisal" in quilt["insurance_note"] for quilt in valued)


@pytest.mark.parametrize(
    ("slug", "what", "told"),
    [
        ("1986.7", "a block turned the wrong way", lambda q: q["drawing"]["turned_block"]["turn"]),
        (
            "1999.3.1",
            "inherited blocks set two generations later by somebody else",
            lambda q: [p["date"] for p in q["phases"][:2]] == ["1890s", "1978"],
        ),
        (
            "2001.7",
            "a label whose date contradicts the cloth",
            lambda q: q["inscriptions"][0]["date"] == "1847" and q["phases"][0]["date"] == "1930s",
        ),
        ("2003.1.1", "a gap in its ownership", lambda q: not q["ownership"][0]["direct"]),
        ("2006.4", "borders on three sides", lambda q: "top" not in q["borders"][0]["sides"]),
        ("bow-tie-top", "a top never quilted", lambda q: q["quilting_worked"] == "not quilted"),
        ("2011.6", "readings that do not add up", lambda q: q["drawing"]["disagrees"]),
        ("bears-paw", "an unknown maker", lambda q: not any("makers" in p for p in q["phases"])),
        ("sunbonnet-girls", "an oblong block", lambda q: q["drawing"]["block"] == [9, 12]),
        ("2016.5", "names by block", lambda q: sum("block" in i for i in q["inscriptions"]) == 16),
        ("1987.3.1", "a newspaper pattern", lambda q: q["blocks"][0]["printing"] == "corrow-star"),
    ],
)
def test_the_cases_that_a_catalogue_must_cope_with_are_there(slug, what, told):
    assert told(QUILTS[slug]), f"{slug} no longer has {what}"
