"""Nobody learns by searching what they may not see: not by hits, counts, suggestions, extracts."""

from __future__ import annotations

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import LEVELS, VISITOR, Reader
from catalogue.collection.records import (
    ConditionReport,
    Contact,
    Location,
    OwnershipPeriod,
    Party,
    PartyName,
    Phase,
    PhaseMaker,
    Quilt,
)
from catalogue.collection.search.alike import more_like_this
from catalogue.collection.search.extracts import extracts_of
from catalogue.collection.search.finding import Wanted, decades, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, save
from catalogue.values.dates import read_date

VOLUNTEER, HISTORIAN = Reader("volunteer"), Reader("historian")
EVERYBODY = (VISITOR, VOLUNTEER, HISTORIAN)


@pytest.fixture(autouse=True)
def quilts(collection: Collection) -> None:
    """A published quilt with everything on it that is not for everybody, and one not published."""
    database = collection.database
    donor = add(database, Party("Wilhelmina Donorsson"), "Tess").id
    contact = (Contact("telephone", "Contactville"),)
    maker = add(
        database,
        Party(
            "Odile Makerby",
            living=True,
            names=(PartyName("Odile Girlname"),),
            place="Makertown",
            contacts=contact,
        ),
        "Tess",
    ).id
    owner = add(database, Party("Otto Ownerling", living=True), "Tess").id
    assert maker is not None
    quilt = Quilt(
        "Published star",
        accession="1990.1",
        published=True,
        donor=donor,
        insurance_value="12345 dollars",
        insurance_note="Insurancenote",
        restrictions="Restrictionword",
        locations=(Location("Locationvault"),),
        conditions=(ConditionReport("fair", text="Conditionword"),),
        phases=(Phase("pieced", read_date("1890s"), "Openplace", makers=(PhaseMaker(maker),)),),
        ownership=(OwnershipPeriod("Otto Ownerling", owner, place="Ownerplace"),),
    )
    add(database, quilt, "Tess")
    hidden = Quilt(
        "Hiddenword star",
        accession="1990.2",
        description="Hiddenwording",
        phases=(Phase("pieced", read_date("1931"), "Hiddenplace", makers=(PhaseMaker(maker),)),),
    )
    add(database, hidden, "Tess")


MAY_FIND = [
    ("published", EVERYBODY),
    ("makerby", EVERYBODY),
    ("openplace", EVERYBODY),
    ("conditionword", (VOLUNTEER, HISTORIAN)),
    ("restrictionword", (VOLUNTEER, HISTORIAN)),
    ("ownerling", (VOLUNTEER, HISTORIAN)),
    ("ownerplace", (VOLUNTEER, HISTORIAN)),
    ("hiddenword", (VOLUNTEER, HISTORIAN)),
    ("donorsson", (HISTORIAN,)),
    ("girlname", (HISTORIAN,)),
    ("locationvault", (HISTORIAN,)),
    ("makertown", ()),
    ("contactville", ()),
    ("insurancenote", ()),
    ("12345", ()),
]


@pytest.mark.parametrize("reader", EVERYBODY, ids=lambda reader: reader.role)
@pytest.mark.parametrize(("word", "readers"), MAY_FIND)
@pytest.mark.parametrize("form", ["{}", '"{}"', "{:.8}*", "published -{}", "{}zz"])
def test_a_word_answers_only_who_may_see_it(
    collection: Collection,
    index: SearchIndex,
    word: str,
    readers: tuple[Reader, ...],
    reader: Reader,
    form: str,
) -> None:
    database = collection.database
    found = find(database, index, Wanted(form.format(word)), reader=reader)
    if form.startswith("published -"):
        hidden = reader in readers and word not in ("hiddenword",)
        assert found.total == (0 if hidden else 1)
    elif form == "{}zz":
        assert (word in found.suggestion) == (reader in readers)
    else:
        assert bool(found.total) == (reader in readers)
        shown = extracts_of(database, found.ids, found.question, reader=reader)
        assert bool(shown) == (reader in readers)


def test_visitors_count_and_compare_published_quilts_alone(
    collection: Collection, index: SearchIndex
) -> None:
    database = collection.database
    found = find(database, index, Wanted(), reader=VISITOR, count=True)
    values = {each.label for facet in found.facets for each in facet.values if each.count}
    assert {"Odile Makerby", "Openplace"} <= values
    assert "Hiddenplace" not in values
    assert decades(database, index, reader=VISITOR) == [(1890, 1)]
    assert more_like_this(database, index, 1, reader=VISITOR) == []
    assert more_like_this(database, index, 2, reader=VISITOR) == []


def test_the_keeper_can_let_volunteers_search_what_was_private(
    collection: Collection, index: SearchIndex
) -> None:
    levels = {**LEVELS, ("Quilt", "locations"): "members"}
    told = Reader("volunteer", levels)  # type: ignore[arg-type]
    assert find(collection.database, index, Wanted("locationvault"), reader=told).total == 1


def test_a_quilt_withdrawn_from_visitors_is_no_longer_found_by_them(
    collection: Collection, index: SearchIndex
) -> None:
    index.catch_up()
    save(collection.database, Quilt, 1, {"published": False}, by="Tess", expecting=1)
    assert find(collection.database, index, Wanted("published"), reader=VISITOR).total == 0


@pytest.mark.parametrize(
    ("party", "word"), [(1, "donor:renamed"), (2, "maker:renamed")], ids=["donor", "maker"]
)
def test_a_new_name_is_found_on_every_quilt_that_bore_the_old_one(
    collection: Collection, index: SearchIndex, party: int, word: str
) -> None:
    index.catch_up()
    save(collection.database, Party, party, {"name": "Renamed"}, by="Tess", expecting=1)
    assert 1 in find(collection.database, index, Wanted(word), reader=HISTORIAN).ids
