"""Where a quilt is shown and which layout stands: told alike wherever it is asked."""

from __future__ import annotations

from datetime import date

import pytest

from catalogue.collection.exhibits.displayed import hanging_in, on_display
from catalogue.collection.exhibits.light import double_bookings, exhibits_of
from catalogue.collection.folder import Collection
from catalogue.collection.layouts import chosen, layout_to_text, setting_of
from catalogue.collection.privacy import Reader
from catalogue.collection.records import Exhibit, ExhibitQuilt, LayoutDecision, Quilt
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add, save
from catalogue.measurement.inference import infer
from catalogue.measurement.readings import read_readings

MAY = date(2026, 5, 1)
ON_POINT = {
    "overall": {"width": ["42 3/8"], "length": ["56 5/8"]},
    "block": {"width": [10], "length": [10]},
    "setting": "on point",
}


@pytest.mark.parametrize(
    ("begins", "ends", "back", "hangs"),
    [
        ("2026-04-01", "2026-06-01", "", True),
        ("2026-04-01", "", "", True),
        ("2026-05-01", "2026-05-01", "", True),
        ("2026-04-01", "2026-06-01", "2026-04-20", False),
        ("2026-04-01", "2026-06-01", "2026-05-20", True),
        ("2026-05-02", "2026-06-01", "", False),
        ("", "", "", False),
    ],
)
def test_a_quilt_hangs_from_the_first_day_until_the_last_or_until_it_is_back(
    collection: Collection, begins: str, ends: str, back: str, hangs: bool
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    shown = (ExhibitQuilt(1, back_on=back),)
    add(collection.database, Exhibit("Show", begins=begins, ends=ends, quilts=shown), "Tess")
    assert (1 in on_display(collection.database, MAY, published_only=False)) == hangs
    assert hanging_in(collection.database, 1, MAY) == ({1} if hangs else set())


def test_a_show_that_is_put_away_counts_nowhere(collection: Collection) -> None:
    database = collection.database
    add(database, Quilt("Stars"), "Tess")
    days = {"begins": "2026-04-01", "ends": "2026-06-01", "quilts": (ExhibitQuilt(1),)}
    one = add(database, Exhibit("One", **days), "Tess")
    add(database, Exhibit("Two", **days), "Tess")
    assert double_bookings(database, one) != ()
    save(database, Exhibit, 2, {"put_away": "entered twice"}, by="Tess", expecting=1)
    assert double_bookings(database, one) == ()
    assert [each.title for each in exhibits_of(database, 1)] == ["One"]
    assert hanging_in(database, 1, MAY) == {1}


@pytest.mark.parametrize(
    ("seen", "decisions", "setting"),
    [
        ("", (), ""),
        ("", ("accepted",), "on point"),
        ("", ("accepted", "rejected"), "on point"),
        ("", ("accepted", "left open"), ""),
        ("", ("left open", "accepted"), "on point"),
        ("strippy", ("accepted",), "strippy"),
    ],
)
def test_the_setting_is_the_one_seen_or_that_of_the_layout_that_stands(
    collection: Collection, seen: str, decisions: tuple[str, ...], setting: str
) -> None:
    layout = layout_to_text(infer(read_readings(ON_POINT)).layouts[0])
    decided = tuple(LayoutDecision(each, layout, "", "Tess", "2026-01-01") for each in decisions)
    quilt = add(collection.database, Quilt("Stars", setting_seen=seen, decisions=decided), "Tess")
    index = SearchIndex(collection)
    found = find(collection.database, index, Wanted(), reader=Reader("keeper"), count=True)
    (facet,) = (each for each in found.facets if each.name == "setting") if setting else (None,)
    assert setting_of(quilt) == setting
    assert facet is None or [each.value for each in facet.values] == [setting]
    stands = chosen(quilt)
    assert (stands is not None) == (decisions not in ((), ("accepted", "left open")))
