"""Light dose, the limits that disagree, the account of a quilt, and rest after display."""

import csv
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.exhibits.light import (
    Display,
    LightError,
    chosen_limit,
    days_within,
    hours_within,
    light_dose,
    light_limits,
    own_limit,
)
from catalogue.exhibits.light_account import YearDose, light_account, year_doses
from catalogue.exhibits.rest import chosen_rest, may_hang_from, months_later, rest_findings

PUBLISHED = Path(__file__).parents[1] / "published"


def rows(name):
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def day(text):
    return date.fromisoformat(text)


@pytest.mark.parametrize("row", rows("light_doses.csv"), ids=lambda row: row["source"][:40])
def test_published_doses_are_reproduced(row):
    dose = light_dose(float(row["lux"]), float(row["hours_a_day"]), float(row["days"]))
    assert dose == pytest.approx(float(row["lux_hours"]), rel=1e-12)


@pytest.mark.parametrize("row", rows("light_hours.csv"), ids=lambda row: row["source"][:40])
def test_hours_and_days_within_a_dose_are_reproduced(row):
    dose, lux = float(row["lux_hours"]), float(row["lux"])
    assert hours_within(dose, lux) == float(row["hours"])
    assert days_within(dose, lux, float(row["hours_a_day"])) == float(row["days"])


@pytest.mark.parametrize("row", rows("light_limits.csv"), ids=lambda row: row["key"])
def test_the_table_of_limits_says_what_its_sources_say(row):
    limit = chosen_limit(row["key"])
    assert limit.lux_hours == float(row["lux_hours_a_year"])
    assert limit.lux_at_most == (float(row["lux"]) if row["lux"] else None)


def test_every_limit_names_a_source_and_the_one_from_memory_says_so():
    assert all(limit.source for limit in light_limits().values())
    assert [limit.key for limit in light_limits().values() if limit.from_memory] == ["cie-high"]
    assert "from memory" in chosen_limit("cie-high").says
    assert "from memory" not in chosen_limit().says


def test_the_limits_disagree():
    assert len({limit.lux_hours for limit in light_limits().values()}) > 2


def test_a_limit_that_is_not_there_is_refused_with_those_that_are():
    with pytest.raises(LightError, match="science-museum-minnesota"):
        chosen_limit("moonlight")


def test_a_collections_own_limit_needs_a_source():
    assert own_limit(20_000, "our conservator, letter of 3 May 2026").lux_hours == 20_000
    with pytest.raises(LightError, match="names no source"):
        own_limit(20_000, " ")


@pytest.mark.parametrize(
    ("lux", "hours", "days"),
    [(-1, 8, 1), (50, 25, 1), (float("nan"), 8, 1), (50, -1, 1), (50, 8, float("inf"))],
)
def test_light_that_cannot_be_is_refused(lux, hours, days):
    with pytest.raises(LightError):
        light_dose(lux, hours, days)


def test_a_display_cannot_end_before_it_begins():
    with pytest.raises(LightError, match="before it begins"):
        Display("Winter show", date(2026, 3, 2), date(2026, 3, 1))


days = st.dates(date(2019, 1, 1), date(2027, 12, 31))


@given(days, st.integers(0, 900), st.sets(st.integers(0, 6)), st.lists(days, max_size=5))
@settings(max_examples=60)
def test_lit_days_are_those_counted_one_by_one(begins, long, weekdays, dark):
    display = Display(
        "show", begins, begins + timedelta(long), 50, 8, tuple(weekdays), dark=tuple(dark)
    )
    one_by_one = [begins + timedelta(n) for n in range(long + 1)]
    lit = [d for d in one_by_one if d.weekday() in weekdays and d not in dark]
    assert display.lit_days() == len(lit)


@given(days, st.integers(0, 900), days)
@settings(max_examples=60)
def test_what_is_received_and_what_is_booked_make_up_the_whole(begins, long, today):
    display = Display("show", begins, begins + timedelta(long), 40, 7, (1, 2, 3))
    doses = year_doses([display], today)
    assert sum(dose.total for dose in doses) == pytest.approx(display.dose())
    assert all(dose.received == 0 for dose in doses if dose.year > today.year)
    assert all(dose.booked == 0 for dose in doses if dose.year < today.year)


def test_a_show_over_new_year_is_shared_between_its_years():
    display = Display("Winter show", date(2025, 12, 30), date(2026, 1, 3), 50, 8)
    doses = year_doses([display], date(2026, 6, 1))
    assert doses == (YearDose(2025, received=800), YearDose(2026, received=1200))


SPRING = Display("Spring hanging", date(2026, 3, 1), date(2026, 3, 20), 50, 8)
AUTUMN = Display("Threads of the Valley", date(2026, 9, 1), date(2026, 9, 30), 50, 8)


def says(account, kind):
    return [finding.says for finding in account.findings if finding.kind == kind]


def test_the_account_says_what_was_had_what_would_be_added_and_which_limit_is_chosen():
    account = light_account([SPRING], chosen_limit(), date(2026, 6, 1), AUTUMN)
    assert account.year(2026) == YearDose(2026, received=8000, proposed=12000)
    (so_far,) = says(account, "so far")
    assert "So far in 2026 this quilt has had 8,000 lux hours; 7,000 lux hours are left." in so_far
    assert "15,000 lux hours a year at no more than 50 lux (National Gallery, London" in so_far
    assert says(account, "added") == [
        "“Threads of the Valley” would add 12,000 lux hours in 2026, which makes 20,000 lux hours."
    ]


def test_a_limit_passed_is_said_with_the_days_that_would_keep_within_it():
    account = light_account([SPRING], chosen_limit(), date(2026, 6, 1), AUTUMN)
    (over,) = says(account, "over the limit")
    assert "2026 would pass the limit of 15,000 lux hours by 5,000 lux hours." in over
    assert "17 days of 8 hours at 50 lux would keep within it." in over  # 7,000 / 400 = 17.5
    assert "29 lux" not in over  # too dark to see by


def test_dimmer_light_is_proposed_where_one_can_still_see_by_it():
    limit = own_limit(18_000, "our conservator")
    (over,) = says(light_account([SPRING], limit, date(2026, 6, 1), AUTUMN), "over the limit")
    assert "and so would all its days at 41 lux" in over  # 50 x 10,000 / 12,000


def test_the_days_proposed_do_keep_within_the_limit():
    shorter = Display("Threads of the Valley", date(2026, 9, 1), date(2026, 9, 17), 50, 8)
    account = light_account([SPRING], chosen_limit(), date(2026, 6, 1), shorter)
    assert says(account, "over the limit") == []


def test_no_days_are_proposed_where_the_year_is_already_spent():
    bright = Display("Long loan", date(2026, 1, 1), date(2026, 5, 1), 50, 8)
    account = light_account([bright], chosen_limit(), date(2026, 6, 1), AUTUMN)
    (over,) = says(account, "over the limit")
    assert over.startswith("2026 passed the limit")
    assert over.endswith("No display in that year keeps within it.")


def test_twelve_months_over_the_limit_are_found_although_no_calendar_year_is():
    winter = Display("Winter show", date(2025, 12, 1), date(2026, 1, 31), 50, 4)  # 12,400 in all
    account = light_account([winter], own_limit(10_000, "our conservator"), date(2026, 6, 1))
    (over,) = says(account, "over the limit")
    assert "No calendar year passes the limit" in over
    assert "12,400 lux hours" in over


def test_light_that_is_too_strong_or_unrecorded_is_said():
    bright = Display("Window show", date(2026, 2, 1), date(2026, 2, 2), 80, 1, ultraviolet=90)
    unknown = Display("Old show", date(2020, 2, 1), date(2020, 2, 2))
    account = light_account([bright, unknown], chosen_limit(), date(2026, 6, 1))
    assert says(account, "too bright") == [
        "“Window show” is lit at 80 lux; the limit chosen allows 50."
    ]
    assert "90 microwatts" in says(account, "ultraviolet")[0]
    assert "Old show" in says(account, "not recorded")[0]
    assert account.year(2020).unrecorded == ("Old show",)


@pytest.mark.parametrize("row", rows("light_rest.csv"), ids=lambda row: row["norm"])
def test_a_quilt_may_hang_again_when_the_norm_says(row):
    stretch = day(row["begins"]), day(row["ends"])
    assert may_hang_from([stretch], chosen_rest(row["norm"])) == day(row["may_hang_again"])


@pytest.mark.parametrize("row", rows("light_rest.csv"), ids=lambda row: row["norm"])
def test_a_display_within_the_norm_is_not_blamed_and_the_next_too_soon_is(row):
    norm, stretch = chosen_rest(row["norm"]), (day(row["begins"]), day(row["ends"]))
    again = day(row["may_hang_again"])
    assert [f.kind for f in rest_findings([stretch], norm)] == ["rest"]
    soon = again - timedelta(10), again - timedelta(5)
    assert "too soon" in [f.kind for f in rest_findings([stretch, soon], norm)]
    later = again, again + timedelta(20)
    assert [f.kind for f in rest_findings([stretch, later], norm)] == ["rest"]


def test_displays_that_add_up_to_too_much_within_the_norms_months_are_found():
    parts = [(date(2026, 1, 1), date(2026, 3, 15)), (date(2026, 6, 1), date(2026, 8, 15))]
    (finding, _) = rest_findings(parts, chosen_rest("textile-museum"))
    assert finding.says == (
        "Up to 15 August 2026 on display for 150 days within 12 months;"
        " The Textile Museum, Washington allows 4 months."
    )


def test_old_displays_count_but_are_not_spoken_of_again():
    parts = [(date(2020, 1, 1), date(2020, 12, 31)), (date(2026, 1, 1), date(2026, 1, 31))]
    norm = chosen_rest("textile-museum")
    assert [f.kind for f in rest_findings(parts, norm)] == ["too long", "rest"]
    assert [f.kind for f in rest_findings(parts, norm, since=date(2025, 1, 1))] == ["rest"]


def test_nothing_is_said_of_a_quilt_that_never_hung():
    assert rest_findings([], chosen_rest()) == ()
    assert may_hang_from([], chosen_rest()) is None


@pytest.mark.parametrize(
    ("begins", "months", "expected"),
    [
        ("2026-01-31", 1, "2026-02-28"),
        ("2024-01-31", 1, "2024-02-29"),
        ("2026-12-15", 1, "2027-01-15"),
        ("2026-01-15", -1, "2025-12-15"),
        ("2026-03-31", -13, "2025-02-28"),
        ("2026-11-30", 60, "2031-11-30"),
    ],
)
def test_months_later_keep_the_day_or_take_the_last_of_the_month(begins, months, expected):
    assert months_later(day(begins), months) == day(expected)
