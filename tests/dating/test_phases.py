"""The headline date of a quilt that was made in several phases."""

import pytest

from catalogue.dating.phases import Phase, headline
from catalogue.values.dates import read_date


def phase(done, text="undated"):
    return Phase(done, read_date(text))


@pytest.mark.parametrize(
    ("phases", "says"),
    [
        (
            [phase("blocks", "1890s"), phase("set and quilted", "1978")],
            "blocks 1890s, set and quilted 1978",
        ),
        ([phase("quilted", "1972"), phase("top", "c. 1935")], "top about 1935, quilted 1972"),
        (
            [phase("blocks", "1890s"), phase("top", "1890s"), phase("quilted", "1978")],
            "blocks and top 1890s, quilted 1978",
        ),
        ([phase("top", "1935"), phase("quilted", "1935")], "1935"),
        ([phase("made", "c. 1935")], "about 1935"),
        (
            [phase("top", "before 1940"), phase("quilted", "1972")],
            "top 1939 or earlier, quilted 1972",
        ),
        ([phase("quilted"), phase("top", "1935")], "top 1935, quilted undated"),
        ([phase("", "1935"), phase("bound", "1960")], "1935, bound 1960"),
        ([phase("top"), phase("quilted")], "undated"),
        ([], "undated"),
    ],
)
def test_the_headline_tells_each_date_once_in_order(phases, says):
    assert headline(phases) == says


def test_a_phase_keeps_its_makers_and_places():
    made = Phase("blocks", read_date("1890s"), ("Ada Thistlewood",), ("Quillfield",))
    assert (made.makers, made.places) == (("Ada Thistlewood",), ("Quillfield",))
