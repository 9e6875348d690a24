"""No quilt in two places at once, and the checklists of going out and coming home."""

from datetime import date, timedelta
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.exhibits.checklists import QuiltOnShow, installation_checklist, return_checklist
from catalogue.exhibits.schedule import Booking, BookingError, clashes

SPRING = Booking("1995.1", "Spring hanging", date(2026, 3, 1), date(2026, 4, 30), "Ocean Waves")


def other(begins, ends, quilt="1995.1"):
    return Booking(quilt, "Threads", begins, ends, "Ocean Waves")


CLASHES = [
    (other(date(2026, 5, 1), date(2026, 6, 1)), None),
    (other(date(2026, 4, 30), date(2026, 6, 1)), "on 30 April 2026 it would be in two places."),
    (
        other(date(2026, 4, 20), date(2026, 6, 1)),
        "for 11 days, 20 April 2026 to 30 April 2026, it would be in two places.",
    ),
    (
        other(date(2026, 3, 10), date(2026, 3, 12)),
        "for 3 days, 10 March 2026 to 12 March 2026, it would be in two places.",
    ),
    (other(date(2026, 4, 30), None), "on 30 April 2026 it would be in two places."),
    (other(date(2026, 4, 1), date(2026, 6, 1), quilt="1995.2"), None),
]


@pytest.mark.parametrize(("booking", "says"), CLASHES)
def test_two_bookings_of_one_quilt_on_one_day_are_found(booking, says):
    found = clashes([booking, SPRING])
    assert len(found) == (says is not None)
    if says is not None:
        assert found[0].says.endswith(says)
        assert found[0].says.startswith(
            "“Ocean Waves” is booked for “Spring hanging” from 1 March 2026 to 30 April 2026, and"
            " for “Threads” from"
        )


def test_two_bookings_without_an_end_clash_from_the_later_beginning_on():
    endless = Booking("a", "Study case", date(2026, 1, 1))
    (finding,) = clashes([endless, Booking("a", "Loan", date(2027, 1, 1))])
    assert finding.says.endswith("from 1 January 2027 on it would be in two places.")
    assert "with no end set" in finding.says


def test_too_little_time_between_two_bookings_is_found_where_it_is_asked_for():
    soon = other(date(2026, 5, 3), date(2026, 6, 1))
    assert clashes([SPRING, soon]) == ()
    (finding,) = clashes([SPRING, soon], days_between=7)
    assert finding.kind == "too close"
    assert "2 days between; 7 days are wanted" in finding.says


bookings = st.builds(
    lambda quilt, begins, long: Booking(
        quilt,
        "show",
        date(2026, 1, 1) + timedelta(begins),
        date(2026, 1, 1) + timedelta(begins + long),
    ),
    st.sampled_from("ab"),
    st.integers(0, 60),
    st.integers(0, 20),
)


@given(st.lists(bookings, max_size=8))
@settings(max_examples=100)
def test_every_pair_that_shares_a_day_is_found_and_no_other(booked):
    shared = sum(
        one.quilt == two.quilt and one.begins <= two.last and two.begins <= one.last
        for one, two in combinations(booked, 2)
    )
    assert len(clashes(booked)) == shared


def test_a_booking_cannot_end_before_it_begins():
    with pytest.raises(BookingError, match="before it begins"):
        other(date(2026, 5, 1), date(2026, 4, 1))


OURS = QuiltOnShow(
    "1995.1", "Ocean Waves", "1", "1995.1", "North wall", "100 in", "36 in", store="shelf B3"
)
LOAN = QuiltOnShow(
    "L1",
    "Stars",
    "2",
    wall="East wall",
    upper_edge="90 in",
    left_edge="12 in",
    lender="Dora Finch",
    hazard="suspected: green cloth",
)


def steps(list_, quilt):
    return [step.says for step in list_ if step.quilt == quilt]


def test_quilts_are_hung_in_the_order_of_the_walls_between_preparing_and_finishing():
    found = installation_checklist([OURS, LOAN])
    assert [step.number for step in found] == list(range(1, len(found) + 1))
    order = list(dict.fromkeys(step.quilt for step in found))
    assert order == ["", "1995.1", "L1"]
    assert found[0].quilt == found[-1].quilt == ""


def test_a_step_without_its_facts_is_left_out():
    ours, loan = (steps(installation_checklist([OURS, LOAN]), key) for key in ("1995.1", "L1"))
    assert not any("loan agreement" in step or "hazards" in step for step in ours)
    assert "Find the loan agreement with Dora Finch and read its conditions for display." in loan
    assert "Read what the record says of hazards: suspected: green cloth." in loan
    assert any("“Stars” against its condition report" in step for step in loan)


def test_the_hanging_step_gives_heights_and_distances():
    assert (
        "Hang number 1, “Ocean Waves”, on the North wall: upper edge 100 in, left edge 36 in from"
        " the left end; two people carry it." in steps(installation_checklist([OURS]), "1995.1")
    )


def test_loans_go_home_first_and_our_own_return_to_their_place():
    found = return_checklist([OURS, LOAN])
    assert list(dict.fromkeys(step.quilt for step in found if step.quilt)) == ["L1", "1995.1"]
    assert "Return it to shelf B3." in steps(found, "1995.1")
    assert any("send it back to Dora Finch" in step for step in steps(found, "L1"))
    assert not any("{" in step.says for step in found)
