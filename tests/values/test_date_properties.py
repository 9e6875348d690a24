"""What holds of every date: printing and reading again changes nothing, and nothing crashes."""

import json
from datetime import date as calendar_date
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.values.dates import DateError, answer_date, read_date, read_edtf
from catalogue.values.days import day_after, day_before, exists, iso, shifted

marks = st.sampled_from(["", "?", "~", "%"])
years = st.integers(1000, 2100)
days = st.dates(min_value=calendar_date(1000, 1, 1)).map(str)
plain_points = st.one_of(
    years.map(str),
    st.builds(lambda y, m: f"{y}-{m:02d}", years, st.integers(1, 12)),
    days,
)
unspecified = st.one_of(
    st.integers(100, 209).filter(lambda y: y % 10).map(lambda y: f"{y}X"),
    st.integers(10, 20).map(lambda y: f"{y}XX"),
)
seasons = st.builds(lambda y, s: f"{y}-{s}", years, st.integers(21, 24))
points = st.one_of(st.builds(str.__add__, st.one_of(plain_points, unspecified), marks), seasons)


def forward(one, two):
    """The interval in the order of its dates, so that it does not run backwards."""
    first, last = sorted([one, two])
    return f"{first}/{last}"


same_length = st.one_of(
    st.tuples(years.map(str), years.map(str)),
    st.tuples(days, days),
)
intervals = st.one_of(
    same_length.filter(lambda pair: pair[0] != pair[1]).map(lambda pair: forward(*pair)),
    st.builds("../{}{}".format, plain_points, marks),
    st.builds("{}{}/..".format, plain_points, marks),
    st.builds(lambda y, n, m, k: f"{y}{m}/{y + n}{k}", years, st.integers(1, 90), marks, marks),
)
sets = st.builds(
    lambda members, brackets: brackets[0] + ",".join(members) + brackets[1],
    st.lists(st.builds(str.__add__, years.map(str), marks), min_size=2, max_size=4, unique=True),
    st.sampled_from(["[]", "{}"]),
)


@given(st.one_of(points, intervals, sets))
@settings(max_examples=400, deadline=None)
def test_a_date_said_in_words_is_read_back_as_the_same_date(edtf):
    date = read_edtf(edtf)
    again = read_date(date.says)
    assert (again.edtf, again.earliest, again.latest) == (date.edtf, date.earliest, date.latest)


@given(st.one_of(points, intervals, sets))
@settings(max_examples=200, deadline=None)
def test_the_earliest_is_never_after_the_latest(edtf):
    date = read_edtf(edtf)
    assert date.earliest is None or date.latest is None or date.earliest <= date.latest


WORDS = """
    c. ca about probably possibly ? ~ % 1935 1936 1908-12 19th century early mid late - -- / or and
    , ; before after by not between to from the of in June July 12 4 th spring winter turn 193X XXXX
    [ ] ( ) . .. ' 30s 1800s undated n.d. half quarter first nineteen thirty five hundred top
    quilted blocks ± 5 BC AD ½ 7/4/1876 earlier onwards Y17E7 S2 100 years old
"""


@given(
    st.lists(st.sampled_from(WORDS.split()), min_size=1, max_size=12),
    st.sampled_from(["", " ", "-"]),
    st.booleans(),
)
@settings(max_examples=400, deadline=None)
def test_words_in_any_order_are_answered(words, joint, edtf_only):
    answer = answer_date(joint.join(words), edtf_only)
    assert ("error" in answer) != ("edtf" in answer)
    if "edtf" in answer:
        assert read_edtf(answer["edtf"]).earliest == answer["earliest"]


@given(st.text(), st.booleans())
@settings(max_examples=300, deadline=None)
def test_any_text_is_answered_and_quoted(text, edtf_only):
    assert json.loads(json.dumps(answer_date(text, edtf_only)))["text"] == text


@given(st.dates(calendar_date(2, 1, 1), calendar_date(9998, 12, 31)), st.integers(-500, 500))
def test_days_agree_with_the_calendar_of_the_language(day, years):
    ours = (day.year, day.month, day.day)
    assert iso(ours) == day.isoformat()
    one = timedelta(days=1)
    assert iso(day_after(ours)) == (day + one).isoformat()
    assert iso(day_before(ours)) == (day - one).isoformat()
    assert exists(shifted(ours, years))


@given(st.integers(1, 9999), st.integers(1, 12), st.integers(0, 32))
def test_a_day_exists_where_the_language_knows_it(year, month, number):
    try:
        calendar_date(year, month, number)
    except ValueError:
        assert not exists((year, month, number))
    else:
        assert exists((year, month, number))


@given(st.integers(1000, 2100), st.integers(1, 99))
def test_a_shortened_end_means_the_whole_year_or_is_refused(year, end):
    text = f"{year}-{end:02d}"
    whole = year - year % 100 + end
    try:
        date = read_date(text)
    except DateError:
        assert end <= 12 or whole <= year
    else:
        assert date.edtf == (f"{year}/{whole}" if whole > year else date.edtf)
