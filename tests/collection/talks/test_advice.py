"""What helps whoever prepares a talk: gaps, sameness, what may not travel or be shown, the load."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from catalogue.collection.handling import takes_two
from catalogue.collection.records import (
    BlockKind,
    ConditionReport,
    Exhibit,
    ExhibitQuilt,
    Location,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Photograph,
    Quilt,
    RelatedItem,
    TalkItem,
)
from catalogue.collection.store import add
from catalogue.collection.talks.advice import advice_on
from catalogue.collection.talks.alike import alike_in_a_row
from catalogue.collection.talks.carrying import carrying_remarks, load_of
from catalogue.collection.talks.missing import eras_missing, gaps_between, makers_missing
from catalogue.collection.talks.permission import picture_remarks, picture_to_show
from catalogue.collection.talks.pulling import pull_list
from catalogue.collection.talks.travelling import travel_remarks, why_staying
from catalogue.values.dates import read_date

TODAY = date(2027, 3, 9)

# --- eras and makers that are missing ----------------------------------------------------------

GAPS = [
    ([(1840, 1850), (1866, 1870)], [(1851, 1865)]),  # fifteen years are a gap
    ([(1840, 1850), (1865, 1870)], []),  # fourteen are not
    ([(1840, 1900), (1850, 1860), (1930, 1935)], [(1901, 1929)]),  # one span within another
    ([(1930, 1935)], []),
    ([], []),
]


@pytest.mark.parametrize(("spans", "gaps"), GAPS)
def test_a_gap_is_fifteen_years_without_a_quilt(
    spans: list[tuple[int, int]], gaps: list[tuple[int, int]]
) -> None:
    assert list(gaps_between(spans)) == gaps


def test_a_gap_names_the_eras_passed_over_and_offers_what_the_collection_has(shelf: Any) -> None:
    early, late = shelf.quilt("Early", "1870"), shelf.quilt("Late", "1931")
    shelf.quilt("Between", "1888")
    shelf.quilt("Not ours", "1889", status="declined")
    shelf.quilt("Later", "1950")
    (remark,) = eras_missing(shelf.database, shelf.programme(early, late))
    assert remark.says.startswith("Nothing here was made from 1871 to 1930.")
    assert "Crazy quilt fad, 1876 to 1890" in remark.says
    assert [offer.title for offer in remark.offers] == ["Between"]


def test_a_gap_that_nothing_can_fill_is_said_to_be_one(shelf: Any) -> None:
    programme = shelf.programme(shelf.quilt("Early", "1870"), shelf.quilt("Late", "1931"))
    (remark,) = eras_missing(shelf.database, programme)
    assert remark.says.endswith("Nothing else in the collection was, either.")
    assert remark.offers == ()


def test_blocks_and_setting_of_other_decades_leave_a_gap_between_them(shelf: Any) -> None:
    phases = (Phase("pieced", read_date("1890s")), Phase("quilted", read_date("1978")))
    two_dates = shelf.quilt("Set late", phases=phases)
    (remark,) = eras_missing(shelf.database, shelf.programme(two_dates))
    assert remark.says.startswith("Nothing here was made from 1900 to 1977.")


def test_quilts_without_date_or_maker_are_named(shelf: Any) -> None:
    programme = shelf.programme(shelf.quilt("Nameless"), shelf.quilt("Known", "1930", "Ada Winter"))
    assert [r.says for r in eras_missing(shelf.database, programme)] == [
        "No date is on record for “Nameless”."
    ]
    (remark,) = makers_missing(shelf.database, programme)
    assert remark.says.startswith("No maker is on record for “Nameless”")


def test_a_maker_who_is_spoken_of_and_not_shown_is_missing(shelf: Any) -> None:
    shown = shelf.quilt("Shown", "1930", "Ada Winter")
    other = shelf.quilt("In the vault", "1931", "Bertha Coil")
    about = TalkItem(party=shelf.named(Party, "Bertha Coil"))
    (remark,) = makers_missing(shelf.database, shelf.programme(shown, about))
    assert remark.says == "“Bertha Coil” is spoken of, and nothing shown goes with it."
    assert [offer.quilt for offer in remark.offers] == [other.id]
    assert not list(makers_missing(shelf.database, shelf.programme(other, about)))


def test_a_pattern_that_is_spoken_of_and_not_shown_is_missing(shelf: Any) -> None:
    shelf.quilt("A star", "1930", "Ada Winter", "Evening Star")
    plain = shelf.quilt("Plain", "1931", "Ada Winter")
    about = TalkItem(pattern=shelf.named(Pattern, "Evening Star"))
    (remark,) = makers_missing(shelf.database, shelf.programme(about, plain))
    assert [offer.title for offer in remark.offers] == ["A star"]


# --- three alike in a row ----------------------------------------------------------------------


def alike(shelf: Any, *items: Any) -> list[str]:
    return [remark.says for remark in alike_in_a_row(shelf.programme(*items))]


def test_three_of_a_pattern_in_a_row_are_told(shelf: Any) -> None:
    stars = [shelf.quilt(f"Star {n}", pattern="Evening Star") for n in (1, 2, 3)]
    assert alike(shelf, *stars, shelf.quilt("Bars")) == [
        "3 in a row follow the pattern Evening Star: “Star 1”, “Star 2” and “Star 3”."
    ]


def test_three_of_a_maker_in_a_row_are_told(shelf: Any) -> None:
    hers = [shelf.quilt(f"Hers {n}", maker="Ada Winter") for n in (1, 2, 3)]
    (says,) = alike(shelf, shelf.quilt("Bars"), *hers)
    assert says.startswith("3 in a row were made by Ada Winter")


def test_three_of_an_era_in_a_row_are_told_once_by_the_shortest_era(shelf: Any) -> None:
    made = [shelf.quilt(f"Of {year}", year) for year in ("1931", "1933", "1938")]
    (says,) = alike(shelf, shelf.quilt("Old", "1850"), *made)
    assert says.startswith("3 in a row are of one era, “Depression era”, 1930 to 1940")


def test_what_the_whole_talk_is_about_is_not_told(shelf: Any) -> None:
    assert not alike(shelf, *[shelf.quilt(f"Star {n}", pattern="Evening Star") for n in range(4)])


@pytest.mark.parametrize(
    ("between", "told"),
    [(TalkItem("A heading"), True), (TalkItem("Lent by a friend", borrowed=True), False)],
)
def test_a_heading_does_not_part_what_is_alike(shelf: Any, between: TalkItem, told: bool) -> None:
    one, two, three = (shelf.quilt(f"Star {n}", pattern="Evening Star") for n in (1, 2, 3))
    assert bool(alike(shelf, one, two, between, three, shelf.quilt("Bars"))) == told


def test_a_shorter_run_of_a_talk_is_no_run(shelf: Any) -> None:
    one, two = (shelf.quilt(f"Star {n}", pattern="Evening Star") for n in (1, 2))
    assert not alike(shelf, one, two, shelf.quilt("Bars"))


# --- what may not travel -----------------------------------------------------------------------

STATES: list[tuple[dict[str, Any], list[str]]] = [
    ({"grade": "good"}, []),
    ({"grade": "fair", "hazard": "tested: none found"}, []),
    ({"grade": "good", "hazard": "cleared"}, []),
    (
        {"grade": "fragile", "on": "2026-01-15"},
        ["condition fragile (15 January 2026); show pictures, or ask a textile conservator"],
    ),
    ({"grade": "poor"}, ["condition poor; show pictures, or ask a textile conservator"]),
    (
        {"grade": "good", "hazard": "suspected"},
        [
            "dyes or pesticides suspected; nobody handles it before a textile conservator has"
            " been asked"
        ],
    ),
    (
        {"grade": "good", "hazard": "tested: present"},
        [
            "dyes or pesticides tested: present; nobody handles it before a textile conservator"
            " has been asked"
        ],
    ),
]


@pytest.mark.parametrize(("report", "reasons"), STATES)
def test_the_last_report_decides_whether_a_quilt_travels(
    shelf: Any, report: dict[str, Any], reasons: list[str]
) -> None:
    reports = (ConditionReport("fragile", hazard="suspected"), ConditionReport(**report))
    quilt = shelf.quilt("Stars", conditions=reports)
    assert list(why_staying(shelf.database, shelf.programme(quilt), TODAY)[quilt.id]) == reasons


ASKED: list[tuple[dict[str, Any], str]] = [
    ({"status": "offered"}, "it is offered, and not in the collection yet"),
    ({"came_by": "loan"}, "it is on loan to us, and its lender decides"),
    ({"restrictions": "Not beyond the county."}, "restrictions on record: Not beyond the county."),
    ({"conditions": ()}, "nobody has recorded its condition"),
]


@pytest.mark.parametrize(("fields", "says"), ASKED)
def test_what_has_to_be_asked_first_is_said(shelf: Any, fields: dict[str, Any], says: str) -> None:
    quilt = shelf.quilt("Stars", **{"conditions": (ConditionReport("good"),)} | fields)
    (remark,) = travel_remarks(shelf.database, shelf.programme(quilt), TODAY)
    assert not remark.serious
    assert remark.says == f"“Stars”, ask first: {says.rstrip('.')}."


SHOWS = [
    ("2027-02-06", "2027-05-01", "", "", True),
    ("2027-03-09", "2027-03-09", "", "", True),
    ("2027-03-10", "2027-05-01", "", "", False),  # it begins on the day after the talk
    ("2026-02-06", "2026-05-01", "2026-02-01", "2026-05-03", False),  # it is back
    ("2026-02-06", "2026-05-01", "2026-02-01", "", True),  # nobody has recorded that it is
    ("2028-02-06", "2028-05-01", "", "", False),
    ("2020-02-06", "", "", "", True),  # a standing show goes on
    ("2027-02-06", "2027-05-01", "2027-02-01", "2027-03-01", False),  # it came back early
]


@pytest.mark.parametrize(("begins", "ends", "out", "back", "away"), SHOWS)
def test_a_quilt_that_hangs_or_has_not_come_back_may_not_travel(
    shelf: Any, begins: str, ends: str, out: str, back: str, away: bool
) -> None:
    quilt = shelf.quilt("Stars", conditions=(ConditionReport("good"),))
    shown = ExhibitQuilt(quilt.id, out_on=out, back_on=back)
    add(shelf.database, Exhibit("A show", begins=begins, ends=ends, quilts=(shown,)), "Tess")
    programme = shelf.programme(quilt, on="2027-03-09")
    assert bool(list(travel_remarks(shelf.database, programme, date(2000, 1, 1)))) == away


# --- pictures ----------------------------------------------------------------------------------


def photograph(rights: str, view: str = "overall", file: str = "a") -> Photograph:
    return Photograph(file * 64, "jpg", 10, 10, view=view, rights=rights)


def test_a_picture_without_rights_on_record_may_not_be_shown(shelf: Any) -> None:
    programme = shelf.programme(shelf.quilt("Stars", photographs=(photograph(""),)))
    (remark,) = picture_remarks(programme)
    assert remark.serious
    assert remark.says.startswith("No picture of “Stars” may be shown: no permission is on record.")
    assert picture_to_show(programme.turns[0]) is None


def test_the_overall_view_is_shown_where_it_may_be_and_a_detail_where_not(shelf: Any) -> None:
    detail, overall = photograph("CC0", "detail", "b"), photograph("CC0", file="c")
    forbidden = photograph("", file="d")
    both = shelf.programme(shelf.quilt("Stars", photographs=(detail, overall)))
    assert picture_to_show(both.turns[0]).view == "overall"
    one = shelf.programme(shelf.quilt("Bars", photographs=(forbidden, detail)))
    assert picture_to_show(one.turns[0]).view == "detail"
    assert not list(picture_remarks(one))


def test_a_quilt_without_any_photograph_is_told_and_no_fault(shelf: Any) -> None:
    (remark,) = picture_remarks(shelf.programme(shelf.quilt("Stars")))
    assert (remark.serious, remark.says) == (False, "There is no photograph of “Stars”.")


def test_pictures_of_related_material_need_rights_as_well(shelf: Any) -> None:
    letter = add(shelf.database, RelatedItem("A letter", photographs=(photograph(""),)), "Tess")
    (remark,) = picture_remarks(shelf.programme(TalkItem(related_item=letter.id)))
    assert "“A letter”" in remark.says


# --- what there is to carry --------------------------------------------------------------------

TWO = [
    ("60", "72", True),  # the rule's own size
    ("60", "71 1/2", False),
    ("36", "120", True),  # as much cloth in another shape
    ("66", "", True),  # one side alone: 66 x 66 is 4,356 square inches
    ("65", "", False),
    ("", "", False),
]


@pytest.mark.parametrize(("width", "length", "two"), TWO)
def test_two_people_carry_what_is_sixty_by_seventy_two_inches_or_more(
    sized: Callable[..., Any], width: str, length: str, two: bool
) -> None:
    assert takes_two(Quilt("Stars", readings=sized(width, length))) == two


def test_the_cloth_is_the_sum_of_what_was_measured(shelf: Any, sized: Callable[..., Any]) -> None:
    programme = shelf.programme(
        shelf.quilt("One", readings=sized("72", "90")),
        shelf.quilt("Two", readings=sized("36", "36")),
        shelf.quilt("Unmeasured"),
        TalkItem("Lent", borrowed=True),
    )
    load = load_of(programme)
    assert load.area == 72 * 90 + 36 * 36
    # 7,776 square inches are 6 square yards of 1,296, and 7,776 x 0.00064516 = 5.0168 m²
    assert load.says == (
        "6.0 square yards (5.0 square metres) of cloth in 2 quilts;"
        " not counted: 1 not measured, 1 borrowed."
    )
    (two, _) = carrying_remarks(programme)
    assert two.says == "Two people each for “One”."
    assert "common practice, no source" in two.grounds


def test_things_are_fetched_in_the_order_of_their_shelves(shelf: Any) -> None:
    def kept(title: str, *places: str) -> Quilt:
        return shelf.quilt(title, locations=tuple(Location(place) for place in places))

    letter = add(shelf.database, RelatedItem("Letter", kept="Vault, box 3"), "Tess")
    programme = shelf.programme(
        TalkItem("Lent", borrowed=True),
        kept("Ten", "Vault, roll 10"),
        kept("Lost"),
        kept("Two", "Entry shelf", "Vault, roll 2"),
        TalkItem(related_item=letter.id),
    )
    assert [(pull.place, pull.title) for pull in pull_list(programme, {})] == [
        ("Vault, box 3", "Letter"),
        ("Vault, roll 2", "Two"),
        ("Vault, roll 10", "Ten"),
        ("place not recorded", "Lost"),
        ("borrowed", "Lent"),
    ]


def test_what_is_shown_twice_is_fetched_once_and_two_of_one_title_are_two(shelf: Any) -> None:
    one, other = shelf.quilt("Stars"), shelf.quilt("Stars")
    pulls = pull_list(shelf.programme(one, other, one), {})
    assert [pull.number for pull in pulls] == [1, 2]


# --- all together ------------------------------------------------------------------------------


def test_what_cannot_be_done_as_planned_comes_first(shelf: Any) -> None:
    sound = shelf.quilt("Sound", "1850")
    frail = shelf.quilt("Frail", "1931", conditions=(ConditionReport("fragile"),))
    lent = TalkItem("Lent", borrowed=True, minutes=50)
    remarks = advice_on(shelf.database, shelf.programme(sound, frail, lent, minutes=40), TODAY)
    serious = [remark.serious for remark in remarks]
    assert serious == sorted(serious, reverse=True)
    assert [remark.kind for remark in remarks if remark.serious] == ["time", "travel"]
    assert {"eras", "makers", "pictures", "cloth"} <= {remark.kind for remark in remarks}


def test_an_empty_talk_is_told_nothing(shelf: Any) -> None:
    assert advice_on(shelf.database, shelf.programme(), TODAY) == ()


def test_a_quilt_of_two_patterns_counts_for_both(shelf: Any) -> None:
    star, bars = shelf.named(Pattern, "Star"), shelf.named(Pattern, "Bars")
    both = shelf.quilt("Both", blocks=(BlockKind(pattern=star), BlockKind(pattern=bars)))
    others = [shelf.quilt(f"Bars {n}", pattern="Bars") for n in (1, 2)]
    (says,) = alike(shelf, both, *others, shelf.quilt("Plain"))
    assert says.startswith("3 in a row follow the pattern Bars")


def test_makers_of_every_phase_count(shelf: Any) -> None:
    ada = PhaseMaker(shelf.named(Party, "Ada Winter"))
    phases = (Phase("pieced"), Phase("bound", makers=(ada,)))
    assert not list(
        makers_missing(shelf.database, shelf.programme(shelf.quilt("Stars", phases=phases)))
    )
