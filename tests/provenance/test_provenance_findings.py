"""Gaps and contradictions in a chain of owners; all people are invented."""

import pytest

from catalogue.provenance.examination import examine
from catalogue.provenance.findings import FamilyTie, Maker
from catalogue.provenance.reading import parse_provenance
from catalogue.values.life_dates import LifeDates

MADE = ("1875-01-01", "1879-12-31")


def findings(text, made=(None, None), **facts):
    return examine(parse_provenance(text).periods, made, **facts)


def kinds(text, made=(None, None), **facts):
    return [finding.kind for finding in findings(text, made, **facts)]


CLEAN = [
    "Eliza Pell [1850-1920], 1875 until 1920; by descent to Ann Lowe, her daughter [1880-1955], "
    "1920 until 1955; gift to Rosewater Guild, 1955.",
    "Ann Lowe, until 1940; gift to Bea Roe, 1940.",
    "Ann Lowe, 1950; loaned to Elm Museum, 1955 until 1956; returned to Ann Lowe, 1956.",
    "Ann Lowe, in 1950; gift to Bea Roe, 1950.",
    "Ann Lowe; Bea Roe; Cora Fell",
]


@pytest.mark.parametrize("text", CLEAN)
def test_a_chain_that_fits_yields_nothing(text):
    assert findings(text) == ()


FOUND = [  # text, made, kind, severity, certain, words of the sentence
    ("Ann, until 1940. Bea, 1995.", None, "gap", "gap", True, "between 1940"),
    ("Ann, until 1940. Bea, 1995.", None, "gap", "gap", True, "55 years"),
    ("Ann. Bea.", None, "gap", "gap", True, "not known how the quilt passed from Ann to Bea"),
    ("Ann, until 1940. Possibly Bea, 1995.", None, "gap", "gap", False, "55 years"),
    (
        "Ann, 1930 until 1940; Bea, 1950.",
        None,
        "gap",
        "contradiction",
        True,
        "left the one in 1940",
    ),
    ("Bea, 1940.", MADE, "gap", "gap", True, "from the making in 1875 to 1879 until Bea in 1940"),
    ("Ann, 1930 until 1950; Bea, 1940.", None, "overlap", "contradiction", True, "until 1950"),
    ("Ann, 1930 until 1950?; Bea, 1940.", None, "overlap", "contradiction", False, "in 1940"),
    ("Ann, 1950; Bea, 1940.", None, "out of order", "contradiction", True, "before Ann in 1950"),
    (
        "Ann, 1950 until 1940.",
        None,
        "ends before it begins",
        "contradiction",
        True,
        "given it up in 1940",
    ),
    ("Ann [1950-], 1940.", None, "before birth", "contradiction", True, "born in 1950"),
    ("Ann [1950?-], 1940.", None, "before birth", "contradiction", False, "in 1940"),
    ("Ann [1880-1930], 1940?.", None, "after death", "contradiction", False, "dead since 1930"),
    ("Possibly Ann [-1930], after 1935.", None, "after death", "contradiction", False, "1935"),
    ("Ann [1880-1930], until 1950.", None, "held after death", "question", True, "20 years"),
    ("Ann, 1860.", MADE, "owned before made", "contradiction", True, "dated 1875 to 1879"),
    ("Made by Ann, 1860.", MADE, "owned before made", "contradiction", True, "said to have made"),
    ("Ann; possibly Bea.", None, "direct but in doubt", "question", True, "Bea is only possible"),
]


@pytest.mark.parametrize(("text", "made", "kind", "severity", "certain", "says"), FOUND)
def test_each_contradiction_and_gap_is_found_and_said(text, made, kind, severity, certain, says):
    found = [item for item in findings(text, made or (None, None)) if item.kind == kind]
    assert [(item.severity, item.certain) for item in found] == [(severity, certain)]
    assert says in found[0].says


def test_findings_name_the_periods_they_concern():
    (found,) = findings("Ann, until 1940. Bea, 1995; Cora.")
    assert found.periods == (0, 1)


def test_contradictions_come_before_questions_and_gaps():
    found = findings("Ann. Bea [1880-1930], until 1950; Cora, 1940; Dora [1990-], 1980.")
    severities = [finding.severity for finding in found]
    assert severities == sorted(severities, key=["contradiction", "question", "gap"].index)
    assert set(severities) == {"contradiction", "question", "gap"}


MAKERS = [  # life, kind or None, words
    (LifeDates(1850, 1920), None, ""),
    (LifeDates(1867), None, ""),  # 8 to 12 years old
    (LifeDates(1872), "maker too young", "3 to 7 years old"),
    (LifeDates(1885), "maker too young", "after the work of 1875 to 1879 was made"),
    (LifeDates(1770), "maker too old", "105 to 109 years old"),
    (LifeDates(1775), None, ""),  # 100 at the earliest date
    (LifeDates(died=1874), "made after death", "died in 1874"),
    (LifeDates(died=1876), None, ""),
]


@pytest.mark.parametrize(("life", "kind", "says"), MAKERS)
def test_makers_are_held_against_their_years(life, kind, says):
    found = findings("", MADE, makers=[Maker("Eliza Pell", life)])
    assert [finding.kind for finding in found] == ([kind] if kind else [])
    assert all(says in finding.says for finding in found)


def test_a_maker_of_one_phase_is_held_against_the_dates_of_that_phase():
    quilter = Maker("Cora Fell", LifeDates(1950), ("1978-01-01", "1978-12-31"))
    assert findings("", MADE, makers=[quilter]) == ()


def test_doubtful_years_of_birth_make_a_doubtful_finding():
    (found,) = findings("", MADE, makers=[Maker("Ann", LifeDates(1874, born_doubtful=True))])
    assert not found.certain


@pytest.mark.parametrize(
    ("text", "donor", "says"),
    [
        ("Ann Lowe; Bea Roe.", "Bea Roe", ""),
        ("Ann Lowe; Bea Roe; gift to The Rosewater Guild.", "Mrs. Bea Roe", ""),
        ("Ann Lowe; Bea Roe.", "Ann Lowe", "the last owner before that is Bea Roe"),
        ("Ann Lowe; Bea Roe.", "Mrs. Otto Roe", "are they one person?"),
        ("Ann Lowe. Unknown party.", "Ann Lowe", "how it came to Ann Lowe is not recorded"),
        ("Bea Roe; loaned to Elm Museum.", "Bea Roe", ""),
        ("Bea Roe; gift of Cora Fell to Rosewater Guild.", "", "Cora Fell gave the quilt"),
        ("Bea Roe; gift of Bea Roe to Rosewater Guild.", "Bea Roe", ""),
    ],
)
def test_the_donor_should_be_the_last_owner(text, donor, says):
    found = [
        finding
        for finding in findings(text, donor=donor, collection="Rosewater Guild")
        if finding.kind == "donor not last owner"
    ]
    assert bool(found) == bool(says)
    assert all(says in finding.says for finding in found)


TIES = (
    FamilyTie("Ann Lowe", "daughter", "Eliza Pell"),
    FamilyTie("Bea Roe", "daughter", "Ann Lowe"),
    FamilyTie("Cora Fell", "niece", "Eliza Pell"),
)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Eliza Pell; by descent to Ann Lowe.", []),
        ("Eliza Pell; by descent to Bea Roe.", []),  # through Ann
        ("Eliza Pell; by descent to Dora Hart.", ["descent without tie"]),
        ("Eliza Pell; gift to Dora Hart.", []),
        ("Eliza Pell; by descent to her daughter Cora Fell.", ["descent against ties"]),
        ("Eliza Pell; by descent to her niece Cora Fell.", []),
        (
            "Eliza Pell [1850-]; by descent to Ann Lowe, her daughter [1855-].",
            ["descent against years"],
        ),
        (
            "Eliza Pell [1850-]; by descent to Ann Lowe, her daughter [1930-].",
            ["descent against years"],
        ),
        ("Unknown party; by descent to Dora Hart.", []),
    ],
)
def test_by_descent_is_held_against_family_ties_and_years(text, expected):
    assert kinds(text, ties=TIES) == expected


def test_a_relation_of_the_maker_is_held_against_the_makers_years():
    makers = [Maker("Eliza Pell", LifeDates(1850))]
    text = "Otto Roe; Ann Lowe, daughter of the maker [1855-]."
    (found,) = findings(text, makers=makers)
    assert "called daughter of Eliza Pell, born in 1850: 5 years apart" in found.says


def test_without_recorded_ties_nothing_is_said_of_descent():
    assert findings("Eliza Pell; by descent to Dora Hart.") == ()
