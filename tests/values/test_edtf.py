"""EDTF is read strictly, with the faults of the `edtf` library kept from the user."""

import csv
from pathlib import Path

import pytest
from edtf import EDTFParseException, parse_edtf

from catalogue.values import edtf_guard
from catalogue.values.dates import DateError, answer_date, read_edtf

PUBLISHED = Path(__file__).parents[1] / "published"


def table(name):
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


EXAMPLES = table("edtf_examples.csv")
READ = [row["text"] for row in EXAMPLES if row["valid"] == "yes"]
REFUSED = [row["text"] for row in EXAMPLES if row["valid"] == "no"]


def test_the_table_of_examples_is_whole():
    assert (len(READ), len(REFUSED)) == (64, 19)


@pytest.mark.parametrize("text", READ)
def test_every_example_of_the_specification_is_read_and_kept_unchanged(text):
    date = read_edtf(text)
    assert date.edtf == date.written == text
    assert date.says


@pytest.mark.parametrize("text", REFUSED)
def test_what_the_specification_excludes_is_refused_in_one_sentence(text):
    with pytest.raises(DateError) as refusal:
        read_edtf(text)
    assert f'"{text}"' in str(refusal.value)
    assert str(refusal.value).endswith(".")


@pytest.mark.parametrize("row", table("edtf_bounds.csv"), ids=lambda row: row["text"])
def test_the_bounds_are_those_that_the_specification_describes(row):
    date = read_edtf(row["text"])
    assert (date.earliest or "", date.latest or "") == (row["earliest"], row["latest"])


WHERE_THE_LIBRARY_ERRS = {
    **dict.fromkeys(["1985-04-12/", "1985-04/", "1985/"], "an unknown end is invented"),
    **dict.fromkeys(["/1985-04-12", "/1985-04", "/1985"], "an unknown beginning is invented"),
    **dict.fromkeys(["1950S2", "Y171010000S3", "Y3388E2S3"], "significant digits are ignored"),
    **dict.fromkeys(["2004-06~", "2004-06-11%", "2004-06~-11"], "widening is our policy"),
    "1984-1X": "it crashes",
    "XXXX-12-XX": "a wholly unknown year is not unknown to it",
}


@pytest.mark.parametrize("text", [t for t in READ if t not in WHERE_THE_LIBRARY_ERRS])
def test_the_library_as_a_second_reader_finds_the_same_bounds(text):
    theirs = parse_edtf(text)
    date = read_edtf(text)
    bounds = [(date.earliest, theirs.lower_strict()), (date.latest, theirs.upper_strict())]
    for ours, other in bounds:
        if ours is None:
            assert abs(other) == float("inf")
        else:
            year, month, day = other[:3]
            assert ours.lstrip("+") == f"{year:04d}-{month:02d}-{day:02d}"


class TestFaultsOfTheLibrary:
    """Each fault is shown to be there (or the guard may go), and shown to be guarded."""

    def test_a_partly_unspecified_month_crashes_it(self):
        with pytest.raises(AttributeError):
            parse_edtf("1984-1X")
        assert read_edtf("1984-1X").earliest == "1984-10-01"

    def test_a_partly_unspecified_day_crashes_it(self):
        with pytest.raises(ValueError, match="invalid literal"):
            str(parse_edtf("1984-12-3X").lower_strict())
        date = read_edtf("1984-12-3X")
        assert (date.earliest, date.latest) == ("1984-12-30", "1984-12-31")

    def test_an_interval_without_a_date_crashes_it(self):
        with pytest.raises(TypeError):
            parse_edtf("/..")
        with pytest.raises(DateError, match="without any date"):
            read_edtf("/..")

    def test_what_it_prints_while_it_crashes_reaches_nobody(self, capsys):
        edtf_guard.library_reads.cache_clear()
        read_edtf("1984-1X")
        assert capsys.readouterr().out == ""

    @pytest.mark.parametrize("text", ["2023-02-29", "1900-02-29"])
    def test_it_accepts_29_february_in_common_years(self, text):
        assert parse_edtf(text)
        with pytest.raises(DateError, match="day that the calendar does not have"):
            read_edtf(text)

    def test_it_accepts_intervals_that_run_backwards(self):
        assert parse_edtf("1985/1980")
        with pytest.raises(DateError, match="runs backwards"):
            read_edtf("1985/1980")

    @pytest.mark.parametrize("text", ["[1667, 1668]", " 1985", "1985 ", "1985\n"])
    def test_it_accepts_blanks(self, text):
        assert parse_edtf(text)
        with pytest.raises(DateError):
            read_edtf(text)

    def test_its_open_ends_are_infinite_floats(self):
        assert parse_edtf("1985/..").upper_strict() == float("inf")
        assert read_edtf("1985/..").latest is None

    def test_its_unknown_ends_are_ten_invented_years(self):
        assert parse_edtf("1985/").upper_strict()[0] == 1995
        assert read_edtf("1985/").latest is None

    @pytest.mark.parametrize("text", ["Y3388E2S3", "[1667,1668,1670..1672]", "{1960,1961-12}"])
    def test_it_does_not_print_what_it_read(self, text):
        assert str(parse_edtf(text)) != text
        assert read_edtf(text).edtf == text

    def test_it_ignores_significant_digits(self):
        assert parse_edtf("1950S2").lower_strict()[0] == 1950
        assert read_edtf("1950S2").earliest == "1900-01-01"


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("by 1940", "../1940"),
        ("pre-1900", "../1899"),
        ("1935 or 1936", "[1935,1936]"),
        ("probably 1935", "1935?"),
        ("not before 1840", "1840/.."),
        ("1930's", "193X"),
        ("1935-6", "1935/1936"),
        ("circa 1860-1880", "1860~/1880~"),
        ("100 years old", None),
        ("top 1935; quilted 1972", None),
    ],
)
def test_words_that_its_plain_reader_gets_wrong_in_silence_are_ours(words, meant):
    assert answer_date(words).get("edtf") == meant


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("2001-21?", "neither reader's grammar qualifies a season"),
        ("[1935]", "a set of one"),
        ("../..", "no date"),
        ("193X/..", "unspecified digits beside an open end"),
        ("1985-04-12T25:00:00", "no such hour"),
        ("1985-04-12T23:20", "seconds left out"),
        ("1935-06S2", "significant digits of a month"),
        ("Y1E99", "further away than is counted"),
        ("Y" + "9" * 500, "longer than is read"),
        ("1950S5", "more significant digits than digits"),
        ("1984-?XX", "a mark on nothing"),
        ("٢٠٠٤", "figures that are not ASCII"),
        ("1985−04", "a minus sign"),
        ("[1668..1667,1670]", "a run backwards inside a set"),
        ("", "nothing"),
    ],
)
def test_more_that_is_no_edtf_to_both_readers(text, why):
    answer = answer_date(text, edtf_only=True)
    assert "error" in answer, why


@pytest.mark.parametrize("text", READ)
def test_the_library_is_asked_about_the_form_and_not_about_the_numbers(text):
    def verdict(asked):
        try:
            return bool(parse_edtf(asked))
        except EDTFParseException:
            return False
        except AttributeError:
            return None

    assert verdict(edtf_guard.form_of(text)) == verdict(text)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1985", "1985"),
        ("1935~", "about 1935"),
        ("1935?", "possibly 1935"),
        ("1935%", "possibly about 1935"),
        ("1985-04-12", "12 April 1985"),
        ("1985-04", "April 1985"),
        ("1985-04-12T23:20:30Z", "12 April 1985"),
        ("2001-21", "spring 2001"),
        ("2001-34", "second quarter of 2001"),
        ("201X", "the 2010s"),
        ("190X", "the decade 1900 to 1909"),
        ("20XX", "the 21st century"),
        ("1XXX", "1000 to 1999"),
        ("2004-XX", "some month of 2004"),
        ("1985-04-XX", "some day of April 1985"),
        ("1985-XX-XX", "some day of 1985"),
        ("1984-1X", "October, November or December of 1984"),
        ("156X-12-25", "25 December of some year of the 1560s"),
        ("XXXX-12-XX", "some day of December of an unknown year"),
        ("XXXX", "undated"),
        ("1XXX-12", "December of some year of 1000 to 1999"),
        ("1985/..", "1985 or later"),
        ("../1985", "1985 or earlier"),
        ("1985/", "1985 to unknown end"),
        ("/1985", "unknown beginning to 1985"),
        ("1964/2008", "1964 to 2008"),
        ("1865?/1870", "from possibly 1865 to 1870"),
        ("2004-06/2004-08", "June to August 2004"),
        ("2004-06-01/2004-06-20", "1 to 20 June 2004"),
        ("[1667,1668,1670..1672]", "1667, 1668 or 1670 to 1672"),
        ("{1960,1961-12}", "1960 and December 1961"),
        ("[..1984]", "1984 or earlier"),
        ("{..1984}", "all of 1984 or earlier"),
        ("2004?-06-11", "11 June 2004 (year uncertain)"),
        ("2004-06~-11", "11 June 2004 (year approximate, month approximate)"),
        ("?2004-06-~11", "11 June 2004 (year uncertain, day approximate)"),
        ("-1985", "1986 BC"),
        ("0000", "1 BC"),
        ("0800", "AD 800"),
        ("Y170000002", "170000002"),
        ("1950S2", "1950, some year of 1900 to 1999"),
    ],
)
def test_an_edtf_date_is_said_in_words(text, says):
    assert read_edtf(text).says == says
