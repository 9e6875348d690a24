"""A record that was damaged in the database is said to be so, and never served as the record."""

from __future__ import annotations

import threading

import pytest
from sqlite_utils import Database

from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.records import OwnershipPeriod, Party, Phase, PhaseMaker, Quilt
from catalogue.collection.same_person import merge, part
from catalogue.collection.seals import Altered, altered_changes, altered_records
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, history, load, load_many, save


@pytest.fixture
def database(collection: Collection) -> Database:
    add(collection.database, Party("Ada Winter"), "Tess")
    makers = (PhaseMaker(1),)
    phases = (Phase("pieced", makers=makers), Phase("quilted"))
    add(collection.database, Quilt("Stars", history="Made at home", phases=phases), "Tess")
    return collection.database


@pytest.mark.parametrize(
    "damage",
    [
        "UPDATE quilt SET history = 'Made at hone'",
        "UPDATE quilt SET published = 1",
        "UPDATE phase SET kind = 'quilted' WHERE id = 1",
        "UPDATE phase_maker SET certainty = 'disputed'",
        "DELETE FROM phase WHERE id = 2",
    ],
)
def test_a_record_altered_anywhere_is_not_served(database: Database, damage: str) -> None:
    database.execute(damage)
    with pytest.raises(Altered, match="The quilt 1 is not as it was saved"):
        load(database, Quilt, 1)
    assert altered_records(database, Quilt) == [1]
    assert altered_records(database, Party) == []


def test_an_altered_entry_of_the_history_is_not_served(database: Database) -> None:
    database.execute("UPDATE change SET after = '{}' WHERE subject = 'quilt'")
    with pytest.raises(Altered):
        history(database, Quilt, 1)
    assert altered_changes(database) == [2]


def test_a_check_names_every_record_that_is_not_as_it_was_saved(
    collection: Collection, database: Database
) -> None:
    SearchIndex(collection).catch_up()
    database.execute("UPDATE quilt SET history = 'x'")
    database.execute("UPDATE change SET \"by\" = 'Ada' WHERE id = 1")
    found = [(finding.what, finding.where) for finding in check(collection.folder)]
    assert found == [("record", "quilt 1"), ("record", "entry 1 of the history")]


def test_a_new_empty_column_breaks_no_seal(database: Database) -> None:
    database.execute("ALTER TABLE quilt ADD COLUMN later TEXT NOT NULL DEFAULT ''")
    database.execute("ALTER TABLE phase ADD COLUMN later INTEGER")
    assert load(database, Quilt, 1).title == "Stars"


def test_what_a_merging_moves_is_sealed_again(database: Database) -> None:
    other = add(database, Party("A. Winter"), "Tess")
    owned = Quilt("Bars", ownership=(OwnershipPeriod("A. Winter", person=other.id),))
    assert other.id is not None
    quilt = add(database, owned, "Tess")
    merge(database, 1, other.id, "Tess")
    assert load(database, Quilt, quilt.id or 0).ownership[0].person == 1
    part(database, 1, "Tess")
    assert load(database, Quilt, quilt.id or 0).ownership[0].person == other.id


def test_reading_while_others_save_never_sees_half_a_save(
    collection: Collection, database: Database
) -> None:
    """What one loading reads, in several statements, is of one moment."""
    ended = threading.Event()

    def go_on_saving() -> None:
        for number in range(150):
            quilt = load(collection.database, Quilt, 1)
            phases = tuple(Phase("pieced", note=str(number)) for _ in range(5))
            fields = {"title": str(number), "phases": phases}
            save(collection.database, Quilt, 1, fields, by="Ada", expecting=quilt.revision)
        collection.close()
        ended.set()

    thread = threading.Thread(target=go_on_saving)
    thread.start()
    seen = []
    while not ended.is_set():
        quilt = load(database, Quilt, 1)
        seen += [{quilt.title, *(phase.note for phase in quilt.phases)}] * (quilt.title != "Stars")
    thread.join()
    assert seen
    assert all(len(texts) == 1 for texts in seen)


def test_a_record_whose_number_damage_took_away_is_said_and_not_passed_over(
    collection: Collection,
) -> None:
    database = collection.database
    added = add(database, Quilt("Stars"), "Tess")
    database.execute("UPDATE quilt SET id = 999 WHERE id = ?", [added.id])
    with pytest.raises(Altered):
        load_many(database, Quilt, [added.id or 0])
    assert altered_records(database, Quilt) == [added.id]
