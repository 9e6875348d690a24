"""The written description: exact paragraphs, and no bad English whatever is missing."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.description.composing import compose, compose_sentences, moved_on
from catalogue.description.quilt_facts import (
    BlockFacts,
    BorderFacts,
    DescriptionFacts,
    InscriptionFacts,
    SashingFacts,
)
from catalogue.description.wording import article, listed

FULL = DescriptionFacts(
    techniques=("pieced", "appliquéd"),
    worked="by hand",
    fibre="cotton",
    colours="blue and white",
    blocks=(
        BlockFacts(
            "Flying Wheel",
            "Wheel of Time",
            "the Rosewater Weekly, 12 May 1932",
            count=30,
            width=12,
            length=12,
        ),
    ),
    alternate_blocks=20,
    setting="on point",
    columns=5,
    rows=6,
    sashing=SashingFacts(Fraction(5, 2), True, "green cotton"),
    borders=(BorderFacts(3), BorderFacts(8, ("left", "right"), "floral print")),
    quilting_worked="by hand",
    quilting_design="feathered wreaths",
    stitches_per_inch=9,
    edge="bound",
    binding_width=Fraction(3, 8),
    binding_cloth="green cotton",
    edge_finish="straight grain, applied",
    batting="cotton",
    backing="unbleached muslin",
    inscriptions=(
        InscriptionFacts("E. P.\n1876", "label", "on the back, lower left", "embroidered"),
    ),
    overall_width=92,
    overall_length=Fraction(181, 2),
)


def test_the_full_description_follows_the_order_of_the_trade():
    assert compose(FULL) == (
        "A pieced and appliquéd cotton quilt in blue and white, worked by hand, in the Flying "
        "Wheel pattern, published as “Wheel of Time” in the Rosewater Weekly, 12 May 1932. "
        "It has 30 blocks, each 12 inches (30.5 cm) square, alternating with 20 plain blocks. "
        "The blocks are set on point in 5 columns and 6 rows. "
        "Sashing of green cotton, 2 1/2 inches (6.4 cm) wide, with cornerstones, separates the "
        "blocks. "
        "Two borders surround the field, from the inside out: the first 3 inches (7.6 cm) wide; "
        "the second of floral print, 8 inches (20.3 cm) wide, at the left and right only. "
        "It is quilted by hand in feathered wreaths, with 9 stitches to the inch. "
        "The edge is bound in green cotton, 3/8 inch (1 cm) wide: straight grain, applied. "
        "The batting is cotton and the backing is unbleached muslin. "
        "An embroidered label on the back, lower left, reads “E. P. / 1876”. "
        "It measures 90 1/2 inches in length x 92 inches in width (229.9 x 233.7 cm)."
    )


def test_an_empty_record_is_still_a_sentence():
    assert compose(DescriptionFacts()) == "A quilt."


ALONE = [  # one fact by itself, and the sentence it becomes
    ({"object_type": "crib quilt"}, "A crib quilt."),
    ({"object_type": "unquilted top"}, "An unquilted top."),
    ({"techniques": ("embroidered",)}, "An embroidered quilt."),
    ({"techniques": ("one-patch",)}, "A one-patch quilt."),
    ({"worked": "by hand"}, "A quilt."),
    ({"techniques": ("pieced",), "worked": "by machine"}, "A pieced quilt, worked by machine."),
    ({"fibre": "wool", "colours": "red"}, "A wool quilt in red."),
    ({"blocks": (BlockFacts("the Sunrise pattern"),)}, "A quilt in the Sunrise pattern."),
    (
        {"blocks": (BlockFacts("Sunrise", certainty="probable"),)},
        "A quilt probably in the Sunrise pattern.",
    ),
    (
        {"blocks": (BlockFacts("Sunrise", certainty="disputed"),)},
        "A quilt in a pattern that is disputed, recorded as Sunrise.",
    ),
    (
        {"blocks": (BlockFacts("Sunrise", published_in="the Weekly"),)},
        "A quilt in the Sunrise pattern, published in the Weekly.",
    ),
    ({"blocks": (BlockFacts(count=30),)}, "It has 30 blocks."),
    (
        {"blocks": (BlockFacts(count=1, width=60),)},
        "It has 1 block, 60 inches (152.4 cm) in width.",
    ),
    (
        {"blocks": (BlockFacts(width=10, length=12),)},
        "Each block is 12 inches in length x 10 inches in width (30.5 x 25.4 cm).",
    ),
    ({"alternate_blocks": 20}, "The blocks alternate with 20 plain blocks."),
    ({"setting": "straight"}, "The blocks are set straight."),
    ({"setting": "strippy", "columns": 5}, "The blocks are set in vertical strips."),
    ({"setting": "bars", "columns": 7}, "The top is made of 7 bars."),
    ({"setting": "one-patch"}, "The top repeats a single patch."),
    ({"columns": 5, "rows": 1}, "The blocks stand in 5 columns and 1 row."),
    ({"has_sashing": False}, "There is no sashing."),
    ({"has_sashing": True}, "Sashing separates the blocks."),
    ({"sashing": SashingFacts(2)}, "Sashing 2 inches (5.1 cm) wide separates the blocks."),
    (
        {"sashing": SashingFacts(cornerstones=False)},
        "Sashing without cornerstones separates the blocks.",
    ),
    ({"borders": ()}, "There is no border."),
    ({"borders": (BorderFacts(),)}, "A border surrounds the field."),
    (
        {"borders": (BorderFacts(1, ("top",)),)},
        "A border 1 inch (2.5 cm) wide runs along the top side only.",
    ),
    ({"borders": (BorderFacts(), BorderFacts())}, "Two borders surround the field."),
    ({"quilting_worked": "tied"}, "It is tied, not quilted."),
    ({"quilting_worked": "not quilted"}, "It is not quilted."),
    ({"quilting_worked": "by machine"}, "It is quilted by machine."),
    ({"quilting_design": "in the ditch"}, "It is quilted in the ditch."),
    ({"stitches_per_inch": 1}, "It is quilted with 1 stitch to the inch."),
    ({"edge": "bound"}, "The edge is bound."),
    ({"edge": "raw"}, "The edge is raw."),
    ({"edge_finish": "a knife edge"}, "The edge finish is a knife edge."),
    ({"batting": "wool."}, "The batting is wool."),
    ({"batting": "none"}, "There is no batting."),
    ({"backing": "feed sack"}, "The backing is feed sack."),
    ({"inscriptions_sought": True}, "No inscription was found."),
    (
        {"inscriptions": (InscriptionFacts("1876!", "date", "back", "in ink"),)},
        "A date in ink (back) reads “1876!”",
    ),
    ({"inscriptions": (InscriptionFacts("", "label"),)}, "A label is not transcribed."),
    (
        {"inscriptions": tuple(InscriptionFacts(f"Ann {n}", "signature") for n in range(1, 37))},
        "It bears 36 signatures, among them “Ann 1”, “Ann 2” and “Ann 3”.",
    ),
    (
        {"overall_width": 92},
        "It measures 92 inches (233.7 cm) in width; the length is not recorded.",
    ),
]


@pytest.mark.parametrize(("facts", "expected"), ALONE, ids=[next(iter(f)) for f, _ in ALONE])
def test_one_fact_alone_makes_one_sound_sentence(facts, expected):
    written = compose(DescriptionFacts(**facts))
    assert written in (expected, f"A quilt. {expected}")


def test_several_kinds_of_block_are_listed_with_their_patterns():
    kinds = (
        BlockFacts("Star", count=20, width=10, length=10),
        BlockFacts("Flying Wheel", "Wheel", certainty="possible", count=1),
        BlockFacts(width=6),
    )
    assert compose(DescriptionFacts(blocks=kinds, alternate_blocks=3)) == (
        "A quilt. It has blocks of three kinds: 20 Star blocks, each 10 inches (25.4 cm) square; "
        "possibly 1 Flying Wheel block, published as “Wheel”; and blocks, each 6 inches (15.2 cm) "
        "in width. They alternate with 3 plain blocks."
    )


def test_each_sentence_says_what_it_is_about():
    abouts = [sentence.about for sentence in compose_sentences(FULL)]
    assert abouts == [
        "technique and pattern",
        "blocks",
        "setting",
        "sashing",
        "borders",
        "quilting",
        "binding",
        "batting and backing",
        "inscriptions",
        "overall size",
    ]


def test_a_kept_description_tells_what_the_record_says_otherwise_now():
    kept = compose(FULL)
    assert moved_on(kept, FULL) == ()
    assert moved_on(kept.replace(" ", "\n"), FULL) == ()
    assert moved_on(kept, replace(FULL, batting="wool", overall_width=93)) == (
        "batting and backing",
        "overall size",
    )
    assert moved_on(kept, replace(FULL, borders=None)) == ("something left out",)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("quilt", "a quilt"),
        ("embroidered quilt", "an embroidered quilt"),
        ("one-patch quilt", "a one-patch quilt"),
        ("union quilt", "a union quilt"),
        ("8-pointed star", "an 8-pointed star"),
        ("80-inch quilt", "an 80-inch quilt"),
        ("18-inch block", "an 18-inch block"),
        ("180-piece quilt", "a 180-piece quilt"),
    ],
)
def test_articles_are_said_as_spoken(words, expected):
    assert article(words) == expected


def test_lists_are_joined_as_english_joins_them():
    assert [listed(words) for words in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]


TEXT = st.sampled_from(["", " ", "cotton", "green  cotton.", "wool,", "Feathered wreaths; "])
SIZE = st.sampled_from([None, 3, 12, Fraction(5, 2), 90.5])
COUNT = st.sampled_from([None, 1, 2, 30])
WHERE = st.sampled_from(["", "back", "on the back, lower left"])
BLOCKS = st.builds(
    BlockFacts,
    pattern=st.sampled_from(["", "Star", "the Sunrise pattern"]),
    published_as=st.sampled_from(["", "Wheel"]),
    published_in=st.sampled_from(["", "the Weekly, 1932"]),
    certainty=st.sampled_from(["certain", "probable", "possible", "disputed"]),
    count=COUNT,
    width=SIZE,
    length=SIZE,
)
FACTS = st.builds(
    DescriptionFacts,
    object_type=st.sampled_from(["quilt", "", "quilt top"]),
    techniques=st.lists(st.sampled_from(["pieced", "appliquéd", ""]), max_size=3).map(tuple),
    worked=st.sampled_from(["", "by hand", "by hand and machine"]),
    fibre=TEXT,
    colours=TEXT,
    blocks=st.lists(BLOCKS, max_size=3).map(tuple),
    alternate_blocks=COUNT,
    setting=st.sampled_from(["", "straight", "on point", "bars", "medallion", "zigzag", "none"]),
    columns=COUNT,
    rows=COUNT,
    has_sashing=st.sampled_from([None, True, False]),
    sashing=st.none() | st.builds(SashingFacts, SIZE, st.sampled_from([None, True, False]), TEXT),
    borders=st.none()
    | st.lists(
        st.builds(BorderFacts, SIZE, st.sampled_from([(), ("top",), ("left", "right")]), TEXT),
        max_size=3,
    ).map(tuple),
    quilting_worked=st.sampled_from(["", "by hand", "tied", "not quilted"]),
    quilting_design=TEXT,
    stitches_per_inch=COUNT,
    edge=st.sampled_from(["", "bound", "raw"]),
    edge_finish=TEXT,
    binding_width=SIZE,
    binding_cloth=TEXT,
    batting=st.sampled_from(["", "cotton", "none"]),
    backing=TEXT,
    inscriptions=st.lists(
        st.builds(
            InscriptionFacts,
            st.sampled_from(["", "E. P.\n\n 1876 "]),
            st.sampled_from(["label", "signature", ""]),
            WHERE,
            st.sampled_from(["", "embroidered", "in ink", "typed on tape"]),
        ),
        max_size=5,
    ).map(tuple),
    inscriptions_sought=st.booleans(),
    overall_width=SIZE,
    overall_length=SIZE,
)
BAD_ENGLISH = re.compile(
    r"None|  |\s[,.;:]|,,|\.\.|,\.|;\.|:\.|\(\)|“”|"
    r"\b(?:in|of|with|as|by|at|and|is)[.,;:]|\b(\w+) \1\b"
)


@settings(max_examples=400, deadline=None, derandomize=True)
@given(FACTS)
def test_whatever_is_missing_the_english_stays_sound(facts):
    written = compose(facts)
    assert BAD_ENGLISH.search(written) is None, written
    assert written.endswith((".", "”"))
    for sentence in compose_sentences(facts):
        assert sentence.text[0].isupper()
        assert sentence.text.endswith(".")
    assert moved_on(written, facts) == ()
