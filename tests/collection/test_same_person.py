"""Two records of one person are proposed with grounds, made one, and parted again."""

from __future__ import annotations

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    FamilyTie,
    OwnershipPeriod,
    Party,
    PartyName,
    Phase,
    PhaseMaker,
    Quilt,
)
from catalogue.collection.same_person import (
    MergeError,
    likely_duplicates,
    merge,
    merges_into,
    part,
    tell_apart,
)
from catalogue.collection.store import add, history, load
from catalogue.values.dates import read_date


@pytest.fixture
def people(collection: Collection) -> Collection:
    """Eliza under two names, her daughter, and a quilt that each of the two records worked on."""
    database = collection.database
    full = Party(
        "Eliza Thornbury Marsh",
        born=read_date("1850"),
        names=(PartyName("Eliza Thornbury", "birth name"),),
    )
    add(database, full, "Tess")
    add(database, Party("Eliza Thornberry", born=read_date("1850")), "Tess")
    add(database, Party("Ruth Marsh", ties=(FamilyTie(2, "mother"),)), "Tess")
    quilt = Quilt(
        "Stars",
        donor=2,
        phases=(
            Phase("pieced", makers=(PhaseMaker(1),)),
            Phase("quilted", makers=(PhaseMaker(2),)),
        ),
        ownership=(OwnershipPeriod("Eliza Thornberry", 2),),
    )
    add(database, quilt, "Tess")
    return collection


def test_likely_duplicates_are_proposed_with_grounds(people: Collection) -> None:
    (likely,) = likely_duplicates(people.database)
    assert {likely.one.id, likely.other.id} == {1, 2}
    assert likely.likelihood > 0.5
    assert any("1850" in ground for ground in likely.grounds)


def test_pairs_told_apart_are_not_proposed_again(people: Collection) -> None:
    tell_apart(people.database, 2, 1, "Tess")
    assert likely_duplicates(people.database) == []


def test_merging_moves_every_reference_and_keeps_the_names(people: Collection) -> None:
    merge(people.database, kept=1, merged=2, by="Tess")
    quilt = load(people.database, Quilt, 1)
    assert quilt.donor == 1
    assert [maker.party for phase in quilt.phases for maker in phase.makers] == [1, 1]
    assert quilt.ownership[0].person == 1
    assert load(people.database, Party, 3).ties[0].relative == 1
    names = [name.name for name in load(people.database, Party, 1).names]
    assert names == ["Eliza Thornbury", "Eliza Thornberry"]
    assert load(people.database, Party, 2).merged_into == 1


def test_both_records_keep_their_histories(people: Collection) -> None:
    merge(people.database, kept=1, merged=2, by="Ben")
    assert [change.by for change in history(people.database, Party, 1)] == ["Ben", "Tess"]
    assert [change.by for change in history(people.database, Party, 2)] == ["Ben", "Tess"]


def test_parting_undoes_a_merging(people: Collection) -> None:
    before = [load(people.database, Quilt, 1), load(people.database, Party, 1).names]
    merge(people.database, kept=1, merged=2, by="Tess")
    (standing,) = merges_into(people.database, 1)
    assert part(people.database, standing.id, "Tess") == 2
    assert [load(people.database, Quilt, 1), load(people.database, Party, 1).names] == before
    assert load(people.database, Party, 2).merged_into is None
    assert merges_into(people.database, 1) == []


def test_what_was_changed_since_the_merging_stays_when_it_is_undone(people: Collection) -> None:
    from catalogue.collection.store import save

    merge(people.database, kept=1, merged=2, by="Tess")
    save(people.database, Quilt, 1, {"donor": 3}, by="Ben", expecting=1)
    (standing,) = merges_into(people.database, 1)
    part(people.database, standing.id, "Tess")
    assert load(people.database, Quilt, 1).donor == 3


def test_what_is_merged_cannot_be_merged_again_nor_parted_twice(people: Collection) -> None:
    merge(people.database, kept=1, merged=2, by="Tess")
    with pytest.raises(MergeError):
        merge(people.database, kept=3, merged=2, by="Tess")
    with pytest.raises(MergeError):
        merge(people.database, kept=1, merged=1, by="Tess")
    (standing,) = merges_into(people.database, 1)
    part(people.database, standing.id, "Tess")
    with pytest.raises(MergeError):
        part(people.database, standing.id, "Tess")
