"""Records are kept whole, every change is remembered, and two writers do not undo each other."""

from __future__ import annotations

import dataclasses
from fractions import Fraction

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    BlockKind,
    Border,
    Contact,
    EarlierNumber,
    Inscription,
    Party,
    PartyName,
    Pattern,
    PatternName,
    Phase,
    PhaseMaker,
    Printing,
    Publication,
    Quilt,
    Reading,
)
from catalogue.collection.seals import altered_records
from catalogue.collection.store import Conflict, NotFound, add, history, load, load_many, save
from catalogue.values.dates import read_date


def without_ids(record: object) -> object:
    """Return the record with every id taken out, its children's too."""
    if isinstance(record, tuple):
        return tuple(without_ids(item) for item in record)
    if dataclasses.is_dataclass(record) and hasattr(record, "id"):
        values = {f.name: without_ids(getattr(record, f.name)) for f in dataclasses.fields(record)}
        return dataclasses.replace(record, **(values | {"id": None}))
    return record


@pytest.fixture
def full_quilt(collection: Collection) -> Quilt:
    """A quilt with something in every kind of field: dates, fractions, rows, rows of rows."""
    database = collection.database
    maker = add(
        database,
        Party(
            "Ada Winter",
            born=read_date("c. 1880"),
            names=(PartyName("Ada Frost", "birth name"),),
            contacts=(Contact("12 Mill Lane"),),
        ),
        "Tess",
    )
    column = add(database, Publication("The Fireside Column", dates=read_date("1928-1941")), "Tess")
    pattern = add(
        database,
        Pattern(
            "Evening Star",
            names=(PatternName("Star of Eve"),),
            printings=(Printing(column.id, "17", read_date("May 1931"), house_name="yes"),),
        ),
        "Tess",
    )
    return Quilt(
        "Evening Star quilt",
        accession="1987.4.1",
        received=read_date("14 May 1987"),
        stitches_per_inch=9,
        earlier_numbers=(EarlierNumber("L 12"), EarlierNumber("TR 3", "town hall")),
        blocks=(BlockKind("star", pattern.id, pattern.printings[0].id, counted=30),),
        borders=(Border("left, right"), Border()),
        readings=(Reading("overall", "width", "85 1/4", Fraction(341, 4), where="top edge"),),
        phases=(
            Phase(
                "pieced", read_date("1890s"), makers=(PhaseMaker(maker.id), PhaseMaker(maker.id))
            ),
            Phase("quilted", read_date("1978")),
        ),
        inscriptions=(Inscription("For Tom\nfrom his mother"),),
    )


def test_a_record_comes_back_as_it_was_added(collection: Collection, full_quilt: Quilt) -> None:
    added = add(collection.database, full_quilt, "Tess")
    again = load(collection.database, Quilt, added.id)
    assert again == added
    assert without_ids(again) == dataclasses.replace(full_quilt, revision=1)


def test_every_record_and_row_has_an_id_of_its_own(
    collection: Collection, full_quilt: Quilt
) -> None:
    added = add(collection.database, full_quilt, "Tess")
    makers = [maker.id for phase in added.phases for maker in phase.makers]
    assert None not in [added.id, *makers]
    assert len(set(makers)) == 2


def test_saving_fields_leaves_the_others_alone(collection: Collection, full_quilt: Quilt) -> None:
    added = add(collection.database, full_quilt, "Tess")
    saved = save(
        collection.database, Quilt, added.id, {"title": "New title"}, by="Ben", expecting=1
    )
    assert saved == dataclasses.replace(added, title="New title", revision=2)


def test_rows_that_stay_keep_their_ids_in_any_order(
    collection: Collection, full_quilt: Quilt
) -> None:
    added = add(collection.database, full_quilt, "Tess")
    pieced, quilted = added.phases
    bound = Phase("bound", read_date("1979"))
    saved = save(
        collection.database,
        Quilt,
        added.id,
        {"phases": (quilted, bound, dataclasses.replace(pieced, makers=pieced.makers[1:]))},
        by="Ben",
        expecting=1,
    )
    assert [phase.kind for phase in saved.phases] == ["quilted", "bound", "pieced"]
    assert (saved.phases[0].id, saved.phases[2].id) == (quilted.id, pieced.id)
    assert [maker.id for maker in saved.phases[2].makers] == [pieced.makers[1].id]


def test_a_row_of_another_quilt_cannot_be_taken_over(
    collection: Collection, full_quilt: Quilt
) -> None:
    first = add(collection.database, full_quilt, "Tess")
    second = add(collection.database, Quilt("Another"), "Tess")
    stolen = dataclasses.replace(first.inscriptions[0], text="mine now")
    save(
        collection.database,
        Quilt,
        second.id,
        {"inscriptions": (stolen,)},
        by="Mallory",
        expecting=1,
    )
    assert load(collection.database, Quilt, first.id) == first


def test_the_history_keeps_what_stood_before_and_after(
    collection: Collection, full_quilt: Quilt
) -> None:
    added = add(collection.database, full_quilt, "Tess")
    save(collection.database, Quilt, added.id, {"title": "New"}, by="Ben", expecting=1)
    newest, first = history(collection.database, Quilt, added.id)
    assert (newest.by, newest.revision) == ("Ben", 2)
    assert (newest.before, newest.after) == ({"title": added.title}, {"title": "New"})
    assert first.after["readings"][0]["inches"] == "341/4"


def test_saving_what_is_there_already_changes_nothing(
    collection: Collection, full_quilt: Quilt
) -> None:
    added = add(collection.database, full_quilt, "Tess")
    saved = save(
        collection.database, Quilt, added.id, {"phases": added.phases}, by="Ben", expecting=1
    )
    assert saved.revision == 1
    assert len(history(collection.database, Quilt, added.id)) == 1


def test_two_people_may_change_different_fields_at_once(collection: Collection) -> None:
    quilt = add(collection.database, Quilt("One"), "Tess")
    save(collection.database, Quilt, quilt.id, {"title": "Two"}, by="Ben", expecting=1)
    saved = save(collection.database, Quilt, quilt.id, {"subject": "Peace"}, by="Ida", expecting=1)
    assert (saved.title, saved.subject, saved.revision) == ("Two", "Peace", 3)


def test_the_second_to_change_the_same_field_is_told_by_whom_it_was_changed(
    collection: Collection,
) -> None:
    quilt = add(collection.database, Quilt("One"), "Tess")
    save(collection.database, Quilt, quilt.id, {"title": "Two"}, by="Ben", expecting=1)
    with pytest.raises(Conflict) as refused:
        save(collection.database, Quilt, quilt.id, {"title": "Three"}, by="Ida", expecting=1)
    assert refused.value.fields == ("title",)
    assert refused.value.change.by == "Ben"
    assert load(collection.database, Quilt, quilt.id).title == "Two"


def test_a_save_that_fails_leaves_nothing_behind(collection: Collection) -> None:
    quilt = add(collection.database, Quilt("One"), "Tess")
    with pytest.raises(Exception, match="FOREIGN KEY"):
        save(
            collection.database,
            Quilt,
            quilt.id,
            {"title": "Two", "phases": (Phase("pieced", makers=(PhaseMaker(999),)),)},
            by="Ben",
            expecting=1,
        )
    assert load(collection.database, Quilt, quilt.id) == quilt
    assert len(history(collection.database, Quilt, quilt.id)) == 1


def test_many_are_loaded_in_the_order_asked_for(collection: Collection) -> None:
    ids = [add(collection.database, Quilt(f"Quilt {n}"), "Tess").id for n in range(4)]
    wanted = [ids[3], ids[0], 999, ids[2]]
    assert [q.id for q in load_many(collection.database, Quilt, wanted)] == [ids[3], ids[0], ids[2]]


def test_a_record_that_is_not_there_is_said_to_be_missing(collection: Collection) -> None:
    with pytest.raises(NotFound, match="no quilt 7"):
        load(collection.database, Quilt, 7)


def test_changing_a_maker_queues_the_quilts_they_worked_on(
    collection: Collection, full_quilt: Quilt
) -> None:
    added = add(collection.database, full_quilt, "Tess")
    collection.database.execute("DELETE FROM index_queue")
    maker = added.phases[0].makers[0].party
    save(collection.database, Party, maker, {"place": "Hollow"}, by="Ben", expecting=1)
    queued = [row["quilt"] for row in collection.database.query("SELECT quilt FROM index_queue")]
    assert queued == [added.id]


def test_a_printing_that_goes_is_let_go_by_the_quilts_that_name_it(collection: Collection) -> None:
    """The quilt changes with it: in its history too, and so that it still fits its seal."""
    database = collection.database
    column = add(database, Publication("The Kitchen Page"), "Tess")
    pattern = add(database, Pattern("Basket", printings=(Printing(column.id),)), "Tess")
    block = BlockKind("basket", pattern.id, pattern.printings[0].id)
    quilt = add(database, Quilt("Baskets", blocks=(block, BlockKind("plain"))), "Tess")
    save(database, Pattern, pattern.id, {"printings": ()}, by="Ruth", expecting=1)
    now = load(database, Quilt, quilt.id)
    assert [each.printing for each in now.blocks] == [None, None]
    last = history(database, Quilt, quilt.id)[0]
    assert (last.by, last.revision, [*last.after]) == ("Ruth", 2, ["blocks"])
    assert altered_records(database, Quilt) == []
