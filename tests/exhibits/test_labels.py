"""Label texts: sentences and words found, advice with its source, contrast by formula."""

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.exhibits.contrast import ColourError, contrast_ratio, relative_luminance
from catalogue.exhibits.labels import DEFAULT_LABEL_RULES, LabelRules, advise, line_length_at
from catalogue.exhibits.sentences import sentences, words


def published(name):
    path = Path(__file__).parents[1] / "published" / name
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


SENTENCES = [  # a text, with | where a sentence ends
    "She pieced it in 1935. | Her sister quilted it.",
    "Mrs. Amos Thornbury made it c. 1935. | It won a prize at St. Ives.",
    "Made by M. E. Pell for Rev. J. Hale Jr. | The blocks are 12½ in. wide. | They vary.",
    "It is signed M. Pell. | Nobody knows who M. Pell was.",
    "She came from Mt. Airy in Dec. 1901 with Dr. Bell.",
    "“Is it a star?” she asked. | He said no.",
    "“It is a star!” | The guild agreed.",
    "She called it “my star.” | It has eight points.",
    "He lived in the U.S. | He quilted.",
    "The U.S. Army bought forty.",
    "It has no. 5 thread ... and more. | See p. 4.",
    "She paid $3.50. | 1935 was a hard year.",
    "Who made it? | Nobody knows! | The label (inked by hand.) | That is all.",
    "She moved in. | Nothing was said.",
    "The top is older (see fig. 3) than the back.",
    "Top, c. June 1935; quilted 1972.",
    "One line\n\n| Another, without a point",
    "- cotton\n| - wool",
    "It ends in an ellipsis… | Then it goes on.",
    "e.g. this one",
    "",
]


@pytest.mark.parametrize("text", SENTENCES)
def test_sentences_end_where_a_reader_ends_them(text):
    expected = tuple(part.strip() for part in text.split("|") if part.strip())
    assert sentences(text.replace("|", "")) == tuple(" ".join(part.split()) for part in expected)


WORDS = [
    ("hand-quilted, by her", 3),
    ("made twice—once by day, once by night", 8),
    ("made twice -- once", 3),
    ("1935–40", 1),
    ("83½ × 79 in", 3),
    ("cotton & wool", 2),
    ("“Stars” (1935)", 2),
    ("the maker’s mother’s", 3),
    ("  ", 0),
    ("Šárka Ångström 東京", 3),
]


@pytest.mark.parametrize(("text", "count"), WORDS)
def test_words_are_counted_as_a_reader_counts_them(text, count):
    assert len(words(text)) == count


@given(st.text(alphabet="aB1 .!?“”\n-—c", max_size=80))
@settings(max_examples=200)
def test_no_word_is_lost_or_gained_between_the_sentences(text):
    assert [word for sentence in sentences(text) for word in words(sentence)] == list(words(text))


def test_a_text_of_points_alone_has_no_sentence():
    assert sentences("." * 20_000 + "!") == ()


@pytest.mark.parametrize("row", published("labels_rules.csv"), ids=lambda row: row["rule"])
def test_limits_from_published_guidance_say_what_their_sources_say(row):
    assert getattr(DEFAULT_LABEL_RULES, row["rule"]) == float(row["figure"])
    assert LabelRules.rule(row["rule"]).basis == "published"


def kinds(text, **options):
    return [(advice.kind, advice.weight) for advice in advise(text, **options)]


ADVICE = [
    ("Word. " * 75, {}, []),
    ("Word. " * 76, {}, [("length", "better")]),
    ("Word. " * 100, {}, [("length", "better")]),
    ("Word. " * 101, {}, [("length", "change this")]),
    ("word " * 15 + ".", {}, []),
    ("word " * 16 + ".", {}, [("sentence", "better")]),
    ("word " * 25 + ".", {}, [("sentence", "better")]),
    ("word " * 26 + ".", {}, [("sentence", "change this")]),
    ("Stars.", {"line": 50}, []),
    ("Stars.", {"line": 51}, [("line", "better")]),
    ("Stars.", {"line": 56}, [("line", "change this")]),
    ("Stars.", {"point": 24}, []),
    ("Stars.", {"point": 23.5}, [("type", "change this")]),
    ("Stars.", {"ink": "#000", "paper": "#fff"}, []),
    ("Stars.", {"ink": "#777777", "paper": "#ffffff"}, [("contrast", "change this")]),
    ("Stars.", {"ink": "#777777"}, []),
    ("", {}, []),
]


@pytest.mark.parametrize(("text", "options", "expected"), ADVICE)
def test_advice_is_given_beyond_the_limits_and_not_at_them(text, options, expected):
    assert kinds(text, **options) == expected


def test_advice_quotes_the_sentence_and_names_figure_limit_and_source():
    long = "The maker pieced " + "one more block " * 9 + "for her sister."
    (advice,) = advise(f"Stars. {long}")
    assert advice.passage == long
    assert (advice.figure, advice.limit) == (33, 25)
    assert advice.says == (
        "The sentence that begins “The maker pieced one more …” has 33 words; at most 25 are read"
        " with ease."
    )
    assert "Smithsonian" in advice.source


def test_a_collection_may_set_limits_of_its_own():
    rules = DEFAULT_LABEL_RULES.changed({"most_words": 40, "better_words": 30})
    assert kinds("Word. " * 41, rules=rules) == [("length", "change this")]


@pytest.mark.parametrize("row", published("labels_contrast.csv"), ids=lambda row: row["ink"])
def test_published_contrasts_are_reproduced(row):
    assert contrast_ratio(row["ink"], row["paper"]) == pytest.approx(float(row["ratio"]), abs=0.005)


def test_contrast_is_the_same_in_either_order_and_luminance_runs_from_black_to_white():
    assert contrast_ratio("#345", "#fed") == contrast_ratio("#ffeedd", "#334455")
    assert relative_luminance("#000000") == 0
    assert relative_luminance("#FFFFFF") == pytest.approx(1)


def test_a_contrast_just_under_the_limit_is_not_rounded_up_to_it():
    (advice,) = advise("Stars.", ink="#777777", paper="#ffffff")
    assert "4.47 to 1" in advice.says


@pytest.mark.parametrize("colour", ["red", "#12345", "", "#12345g", "rgb(0,0,0)"])
def test_what_is_no_colour_is_refused(colour):
    with pytest.raises(ColourError, match="#rrggbb"):
        contrast_ratio(colour, "#fff")


def test_the_estimate_of_a_line_says_how_far_it_may_be_off():
    estimate = line_length_at(8, 24)
    assert estimate.least < estimate.characters < estimate.most
    assert (estimate.least, estimate.most) == (48, 60)  # 24 ems of 0.5 and of 0.4
    assert "estimate" in estimate.grounds
    with pytest.raises(ValueError, match="holds no text"):
        line_length_at(0, 24)
