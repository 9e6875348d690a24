"""Quilts are found by what is on record of them, and the index follows every save."""

from __future__ import annotations

import pytest

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import VISITOR, Reader
from catalogue.collection.records import (
    BlockKind,
    Inscription,
    OwnershipPeriod,
    Party,
    PartyName,
    Pattern,
    PatternName,
    Phase,
    PhaseMaker,
    Quilt,
)
from catalogue.collection.search.extracts import extracts
from catalogue.collection.search.finding import Wanted, decades, find
from catalogue.collection.search.held import out_of_step
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.search.manifest import faults
from catalogue.collection.search.questions import Part, read_question
from catalogue.collection.store import add, save
from catalogue.values.dates import read_date

MEMBER = Reader("historian")


@pytest.fixture
def index(collection: Collection) -> SearchIndex:
    return SearchIndex(collection)


@pytest.fixture
def shelf(collection: Collection) -> dict[str, int]:
    """Four quilts whose ids go by short names."""
    database = collection.database
    ada = add(database, Party("Ada Winter", names=(PartyName("Ada Frost", "birth name"),)), "Tess")
    living = add(database, Party("Zoë Quick", living=True), "Tess")
    star = add(
        database,
        Pattern("Sawtooth Star", design="sawtooth-star", names=(PatternName("Evening Star"),)),
        "Tess",
    )

    def made(when: str, maker: Party = ada) -> tuple[Phase, ...]:
        return (Phase("pieced", read_date(when), "Hollow Ford", makers=(PhaseMaker(maker.id),)),)

    quilts = {
        "star": Quilt(
            "Wedding quilt",
            accession="1987.4.1",
            published=True,
            blocks=(BlockKind("star", star.id),),
            phases=made("1890s"),
            history="Pieced from her grandmother's *dresses*, café curtains, set together later.",
        ),
        "label": Quilt(
            "Signature quilt",
            accession="1987.4.10",
            published=True,
            phases=made("1931"),
            inscriptions=(Inscription("Remember the Winter of 1931"),),
            ownership=(OwnershipPeriod("Zoë Quick", living.id),),
        ),
        "hidden": Quilt("Star, not shown", accession="1987.4.2", phases=made("c. 1931", living)),
        "undated": Quilt("Crib quilt", published=True),
    }
    ids = {name: add(database, quilt, "Tess").id for name, quilt in quilts.items()}
    return {name: id for name, id in ids.items() if id is not None}


def names(shelf: dict[str, int], found: object) -> list[str]:
    by_id = {id: name for name, id in shelf.items()}
    return [by_id[id] for id in found.ids]  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("wedding", {"star"}),
        ("WEDDING", {"star"}),
        ("dress", {"star"}),  # endings make no difference
        ("grandmothers", {"star"}),  # nor does a possessive
        ("cafe", {"star"}),  # nor does an accent
        ("evening star", {"star"}),  # an alternative name on record
        ("frost", {"star", "label"}),  # a birth name
        ('"set together"', {"star"}),
        ('"together set"', set()),
        ("set-together", {"star"}),
        ("winter -signature", {"star"}),
        ("maker:winter", {"star", "label"}),
        ("label:winter", {"label"}),
        ("title:winter", set()),
        ("1987.4.1", {"star"}),
        ("rememb*", {"label"}),
        ("zoe", set()),  # a living owner is not in anybody's index
        ("crib wedding", set()),
    ],
)
def test_words_find_what_is_published(
    collection: Collection,
    index: SearchIndex,
    shelf: dict[str, int],
    words: str,
    expected: set[str],
) -> None:
    found = find(collection.database, index, Wanted(words), reader=VISITOR)
    assert set(names(shelf, found)) == expected


def test_members_find_what_is_not_published_too(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    found = find(collection.database, index, Wanted("star"), reader=MEMBER)
    assert set(names(shelf, found)) == {"star", "hidden"}


@pytest.mark.parametrize(
    ("first", "last", "expected"),
    [
        (1890, 1899, ["star"]),
        (1895, None, ["star", "label"]),
        (None, 1930, ["star"]),
        (1931, 1931, ["label"]),
        (1900, 1930, []),
    ],
)
def test_years_find_quilts_that_may_have_been_made_then(
    collection: Collection,
    index: SearchIndex,
    shelf: dict[str, int],
    first: int | None,
    last: int | None,
    expected: list[str],
) -> None:
    wanted = Wanted(from_year=first, to_year=last)
    found = find(collection.database, index, wanted, reader=VISITOR)
    assert names(shelf, found) == expected


def test_accession_numbers_sort_part_by_part_and_quilts_without_one_come_last(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    found = find(collection.database, index, Wanted(), reader=MEMBER)
    assert names(shelf, found) == ["star", "hidden", "label", "undated"]


def test_decades_count_quilts_that_may_have_been_made_in_them(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    assert decades(collection.database, index, reader=VISITOR) == [(1890, 1), (1930, 1)]


def test_a_saved_change_is_found_at_once_and_the_old_words_no_longer(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    assert find(collection.database, index, Wanted("wedding"), reader=VISITOR).total == 1
    save(collection.database, Quilt, shelf["star"], {"title": "Bridal"}, by="Tess", expecting=1)
    assert find(collection.database, index, Wanted("bridal"), reader=VISITOR).total == 1
    assert find(collection.database, index, Wanted("wedding"), reader=VISITOR).total == 0


def test_renaming_a_maker_is_found_on_their_quilts(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    index.catch_up()
    save(collection.database, Party, 1, {"name": "Ada Summers"}, by="Tess", expecting=1)
    found = find(collection.database, index, Wanted("summers"), reader=VISITOR)
    assert set(names(shelf, found)) == {"star", "label"}


def test_an_index_left_behind_by_a_crash_is_brought_up_to_date_at_the_next_start(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    index.catch_up()
    index.close()
    save(collection.database, Quilt, shelf["star"], {"title": "Bridal"}, by="Tess", expecting=1)
    assert out_of_step(collection.database) == [shelf["star"]]
    SearchIndex(collection).catch_up()
    assert out_of_step(collection.database) == []


@pytest.mark.parametrize("fault", ["altered", "foreign", "missing", "version"])
def test_an_index_that_is_not_ours_is_never_opened_but_rebuilt(
    collection: Collection, index: SearchIndex, shelf: dict[str, int], fault: str
) -> None:
    index.catch_up()
    index.close()
    toc = next(collection.index.glob("*.toc"))
    if fault == "altered":
        toc.write_bytes(b"cos\nsystem\n(S'touch /tmp/opened'\ntR.")
    elif fault == "foreign":
        (collection.index / "_MAIN_99.toc").write_bytes(toc.read_bytes())
    elif fault == "missing":
        toc.unlink()
    else:
        collection.database.execute("UPDATE index_state SET version = '0'")
    assert faults(collection.database, collection.index)
    again = SearchIndex(collection)
    assert find(collection.database, again, Wanted("wedding"), reader=VISITOR).total == 1
    assert not faults(collection.database, collection.index)


def test_rebuilding_tells_how_far_it_is(
    collection: Collection, index: SearchIndex, shelf: dict[str, int]
) -> None:
    told: list[tuple[int, int]] = []
    index.rebuild(lambda done, total: told.append((done, total)))
    assert told == [(4, 4)]


@pytest.mark.parametrize(
    ("typed", "parts"),
    [
        ("red star", (Part("red"), Part("star"))),
        ('"log cabin" -barn', (Part("log cabin"), Part("barn", excluded=True))),
        ("maker:ellis", (Part("ellis", "maker"),)),
        ('Maker:"ada winter"', (Part("ada winter", "maker"),)),
        ("quil*", (Part("quil", beginning=True),)),
        ("colour:red", (Part("red", "colour"),)),
        ("brand:red", (Part("brand:red"),)),  # no field of that name
        ('"unclosed phrase', (Part("unclosed phrase"),)),
        (' - " ( ', ()),
        ("", ()),
    ],
)
def test_a_question_is_taken_apart(typed: str, parts: tuple[Part, ...]) -> None:
    assert read_question(typed).parts == parts


def test_extracts_mark_the_hits_in_their_context() -> None:
    text = {"history": "one two three " * 20 + "the Winter dress of her grandmother's aunt"}
    (extract,) = extracts(text, read_question("dresses grandmother"))
    assert [piece.text for piece in extract.pieces if piece.hit] == ["dress", "grandmother's"]
    assert extract.pieces[0].text.startswith("\N{HORIZONTAL ELLIPSIS}")


def test_extracts_do_not_mark_what_was_asked_of_another_field() -> None:
    text = {"title": "Winter", "maker": "Ada Winter"}
    (extract,) = extracts(text, read_question("maker:winter"))
    assert extract.field == "maker"


def test_the_name_of_somebody_who_made_nothing_published_is_not_told_by_a_facet(
    collection: Collection,
) -> None:
    """Whoever is asked for by number in an address is listed, with however few quilts."""
    database = collection.database
    add(database, Party("Ada Winter"), "Tess")
    work = Phase("pieced", makers=(PhaseMaker(1),))
    add(database, Quilt("Stars", phases=(work,)), "Tess")
    index = SearchIndex(collection)
    told = {}
    for reader in (VISITOR, MEMBER):
        found = find(database, index, Wanted(maker=(1, 99)), reader=reader, count=True)
        makers = next(facet for facet in found.facets if facet.name == "maker")
        told[reader.role] = [each.label for each in makers.values]
    assert told == {
        "visitor": ["not on record", "not on record"],
        "historian": ["Ada Winter", "not on record"],
    }
