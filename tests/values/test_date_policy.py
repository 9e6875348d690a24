"""The table of vague words: shown to users, changed within limits."""

import pytest

from catalogue.values.date_policy import DEFAULT_POLICY, POLICY_TABLE, DatePolicyError


def test_every_line_of_the_table_is_a_setting_with_words_limits_and_source():
    for row in POLICY_TABLE:
        assert getattr(DEFAULT_POLICY, row.key) == row.default
        assert row.smallest <= row.default <= row.largest
        assert row.words
        assert row.means
        assert row.source


def test_a_policy_tells_where_it_departs_from_the_table():
    assert DEFAULT_POLICY.departures() == {}
    changed = DEFAULT_POLICY.changed({"about_years": "3", "turn_years": 10})
    assert changed.departures() == {"about_years": 3}


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({"nearly": 3}, 'no setting "nearly"'),
        ({"about_years": "five"}, '"five" for about'),
        ({"about_years": 51}, "outside 0 to 50"),
        ({"about_years": -1}, "outside 0 to 50"),
        ({"hundreds": 50}, "must be 0, 10 or 100"),
        ({"turn_bare": 1950}, "first year of a century"),
    ],
)
def test_a_setting_out_of_its_limits_is_refused_by_name(settings, says):
    with pytest.raises(DatePolicyError, match=says):
        DEFAULT_POLICY.changed(settings)
