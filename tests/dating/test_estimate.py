"""The date that clues allow: their rules, and the four published mixed cases."""

import csv
from itertools import groupby
from pathlib import Path

import pytest

from catalogue.dating.clues import Clue, ClueReading, clue_table, document, inscription, memory
from catalogue.dating.estimate import estimate
from catalogue.dating.posterior import middle_year, share_within

TABLE = clue_table()


def ticked(*keys, **settings):
    return [ClueReading(TABLE[key], **settings) for key in keys]


def cloth(name, first, last, kind="fabric"):
    return Clue(name, name, name, kind, "usual span", None, first, last)


def share(found, first, last):
    return share_within(found.chances, first, last)


def test_the_chances_of_all_years_make_one():
    found = estimate(ticked("pastel-prints", "bias-binding"), known_by=2020)
    assert sum(found.chances) == pytest.approx(1)
    assert share(found, found.half.first, found.half.last) >= 0.5
    assert share(found, found.ninety.first, found.ninety.last) >= 0.9
    assert found.ninety.first <= found.half.first <= found.half.last <= found.ninety.last


class TestRules:
    def test_nothing_comes_before_the_newest_original_clue(self):
        found = estimate(ticked("chrome-yellow", "rayon", "nylon"), known_by=2020)
        assert share(found, None, 1938) == 0
        assert share(found, 1939, 1939) > 0

    def test_nothing_comes_after_the_quilt_was_known(self):
        found = estimate(ticked("chrome-yellow"), known_by=1900)
        assert share(found, 1901, None) == 0

    def test_a_clue_that_is_only_likely_leaves_a_little_before_it(self):
        found = estimate(ticked("nylon", present=0.8), known_by=2020)
        assert 0 < share(found, None, 1938) < 0.5

    def test_the_less_sure_a_clue_the_less_it_moves(self):
        shares = [
            share(estimate(ticked("pastel-prints", original=sure), known_by=2020), 1926, 1945)
            for sure in (1.0, 0.8, 0.5, 0.2, 0.0)
        ]
        assert shares == sorted(shares, reverse=True)
        assert len(set(shares)) == len(shares)

    def test_old_stock_is_used_for_decades_after_its_years(self):
        found = estimate([ClueReading(cloth("prints", 1870, 1890))], known_by=2020)
        after = [share(found, year, year) for year in (1890, 1900, 1910, 1930)]
        assert after == sorted(after, reverse=True)
        assert after[2] > 0.2 * after[0]
        assert after[3] > 0.05 * after[0]

    def test_an_inscription_is_strong_and_may_yet_have_been_added_later(self):
        found = estimate([ClueReading(inscription(1876))], known_by=2020)
        assert found.proposed.edtf == "1876"
        assert 0.75 < share(found, 1876, 1876) < 0.9
        assert share(found, 1880, 1950) > 0.02

    def test_an_inscription_older_than_an_original_material_gives_way(self):
        found = estimate(
            [*ticked("polyester-batting"), ClueReading(inscription(1935, name="label"))],
            known_by=2020,
        )
        assert found.half.first >= 1955

    @pytest.mark.parametrize(
        ("role", "why"),
        [("repair", "it belongs to a repair"), ("replacement", "the part was replaced")],
    )
    def test_repairs_and_replaced_parts_are_left_out(self, role, why):
        prints = ticked("pastel-prints")
        binding = ticked("polyester", role=role)
        found = estimate([*prints, *binding], known_by=2020)
        assert found.chances == estimate(prints, known_by=2020).chances
        assert [(left.reading.clue.key, left.why) for left in found.left_out] == [
            ("polyester", why)
        ]

    def test_what_has_been_made_again_since_gives_only_a_beginning(self):
        found = estimate(ticked("double-wedding-ring"), known_by=2020)
        assert found.proposed.edtf == "1928/.."
        assert share(found, 2000, 2000) == pytest.approx(share(found, 1940, 1940))

    def test_the_cataloguer_overrules_the_table_on_reproductions(self):
        old = estimate(ticked("pastel-prints"), known_by=2020)
        reproduced = estimate(ticked("pastel-prints", reproduced=True), known_by=2020)
        assert old.half.last < 1960 < reproduced.half.last

    def test_clues_that_say_nothing_change_nothing(self):
        found = estimate(ticked("pastel-prints", "cotton-seeds-in-batting"), known_by=2020)
        assert found.chances == estimate(ticked("pastel-prints"), known_by=2020).chances
        assert found.left_out[0].why == "it says nothing about the date"

    def test_more_clues_that_agree_make_the_span_narrower(self):
        one = estimate(ticked("pastel-prints"), known_by=2020)
        three = estimate(ticked("pastel-prints", "printed-bag", "scalloped-edge"), known_by=2020)
        assert three.ninety.last - three.ninety.first < one.ninety.last - one.ninety.first

    def test_a_document_weighs_more_than_a_memory(self):
        prints = ClueReading(cloth("prints", 1870, 1890))
        told = estimate([prints, ClueReading(document(1910, 1912))], known_by=2020)
        remembered = estimate([prints, ClueReading(memory(1910, 1912))], known_by=2020)
        assert share(told, 1905, 1917) > 2 * share(remembered, 1905, 1917)


class TestProposals:
    @pytest.mark.parametrize(
        ("readings", "edtf", "says"),
        [
            ([], "XXXX", "undated"),
            (ticked("chrome-yellow"), "1820/..", "1820 or later"),
            ([ClueReading(inscription(1876))], "1876", "1876"),
            ([ClueReading(inscription(1876), original=0.8)], "1876?", "possibly 1876"),
            (ticked("pastel-prints"), "1926~/1945~", "about 1926 to about 1945"),
            ([ClueReading(document(1931, 1938))], "1935~", "about 1935"),
        ],
    )
    def test_the_proposal_is_as_sharp_as_the_evidence(self, readings, edtf, says):
        proposed = estimate(readings, known_by=2020).proposed
        assert (proposed.edtf, proposed.says) == (edtf, says)

    def test_its_certainty_is_the_probability_within_its_bounds(self):
        found = estimate(ticked("pastel-prints"), known_by=2020)
        assert found.certainty == pytest.approx(share(found, 1921, 1950))

    def test_nothing_is_certain_without_a_clue(self):
        found = estimate([], known_by=2020)
        assert (found.certainty, found.half, found.ninety) == (0.0, None, None)
        assert found.grounds == ("No clue speaks of a date yet.",)


class TestGrounds:
    def test_every_clue_is_told_with_its_years_and_source(self):
        found = estimate(ticked("bias-binding"), known_by=1990)
        assert found.grounds == (
            "Bias binding: known from 1900, usual 1920 to 1940 (Barbara Brackman, blog, 2012; "
            "quiltingboard, Jan in VA).",
            "Known by 1990: nothing after it is possible.",
        )

    def test_each_clues_pull_is_the_estimate_without_it(self):
        readings = [*ticked("pastel-prints"), ClueReading(inscription(1976))]
        found = estimate(readings, known_by=2020)
        without = estimate(readings[:1], known_by=2020)
        pull = found.pulls[1]
        assert pull.without == without.half
        assert pull.years == middle_year(found.chances) - middle_year(without.chances) > 0
        assert pull.says == "Without the inscription, 1926 to 1945 instead of 1976."

    def test_the_pull_of_the_only_clue_is_all(self):
        (pull,) = estimate(ticked("rayon"), known_by=2020).pulls
        assert (pull.without, pull.says) == (None, "Without the rayon, nothing is known.")


class TestContradictions:
    @pytest.mark.parametrize(
        ("readings", "says"),
        [
            (
                [*ticked("polyester-batting"), ClueReading(inscription(1935, name="label"))],
                "The polyester batting is 20 years later than the label: batting replaced, "
                "or label reused?",
            ),
            (
                [*ticked("bias-binding"), ClueReading(inscription(1880))],
                "The bias binding is usually 20 years later than the inscription: "
                "binding replaced, or inscription reused?",
            ),
            (
                [*ticked("rayon"), ClueReading(memory(1880, 1890))],
                "The rayon is 21 years later than the family memory: a later repair, "
                "or another quilt remembered?",
            ),
            (
                [ClueReading(inscription(1876)), ClueReading(document(1890, name="letter"))],
                "The letter (1890) and the inscription (1876) lie 14 years apart: "
                "which tells of this phase?",
            ),
            (
                [ClueReading(cloth("dark prints", 1870, 1890)), *ticked("polyester-batting")],
                "The polyester batting is 65 years later than the dark prints usually end: "
                "two phases of making, or a repair?",
            ),
        ],
    )
    def test_a_contradiction_is_said_with_what_may_have_happened(self, readings, says):
        assert estimate(readings, known_by=2020).contradictions == (says,)

    def test_a_clue_later_than_the_quilt_was_known_leaves_no_year(self):
        found = estimate(ticked("polyester-batting"), known_by=1950)
        assert found.contradictions == (
            "The polyester batting is 5 years later than 1950, when the quilt was already known: "
            "batting replaced, or another quilt?",
        )
        assert (found.half, found.proposed.edtf, sum(found.chances)) == (None, "XXXX", 0)

    def test_agreement_is_not_a_contradiction(self):
        readings = [*ticked("pastel-prints", "bias-binding"), ClueReading(inscription(1934))]
        assert estimate(readings, known_by=2020).contradictions == ()

    def test_doubtful_clues_contradict_nobody(self):
        readings = [*ticked("nylon", present=0.2), ClueReading(inscription(1876))]
        assert estimate(readings, known_by=2020).contradictions == ()


def mixed_cases():
    path = Path(__file__).parents[1] / "published" / "mixed_dates.csv"
    with path.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    phases = groupby(rows, key=lambda row: (row["case"], row["phase"]))
    return [(f"{case}: {phase}", list(parts)) for (case, phase), parts in phases]


@pytest.mark.parametrize(("name", "parts"), mixed_cases(), ids=lambda value: str(value)[:60])
def test_the_published_mixed_cases_come_out_as_their_sources_say(name, parts):
    readings = [
        ClueReading(cloth(row["part"], int(row["first"]), int(row["last"]), row["kind"]))
        for row in parts
    ]
    found = estimate(readings, known_by=2020)
    first, last = int(parts[0]["expected_first"]), int(parts[0]["expected_last"])
    held = [year for year in range(first, last + 1) if found.half.first <= year <= found.half.last]
    assert len(held) >= 0.8 * (last - first + 1), name
    # The span must not hold them by being wide: it stays with the years of the cloth.
    assert found.half.first >= min(int(row["first"]) for row in parts) - 10
    assert found.half.last <= max(int(row["last"]) for row in parts) + 10


def test_there_are_four_mixed_cases():
    assert len({name.split(":")[0] for name, _ in mixed_cases()}) == 4


def test_a_late_finish_on_one_phase_is_never_dated_by_its_old_top():
    readings = [
        ClueReading(cloth("top fabrics", 1870, 1890)),
        ClueReading(cloth("backing", 1930, 1960)),
    ]
    found = estimate(readings, known_by=2020)
    assert found.half.first >= 1920
    assert "two phases" not in " ".join(found.contradictions)  # 40 years are old stock
