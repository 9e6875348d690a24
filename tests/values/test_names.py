"""Names in all their forms, life dates, and which records may be one person."""

import pytest

from catalogue.values.life_dates import LifeDates, LifeDatesError, parse_life_dates
from catalogue.values.name_likeness import compare_people, name_keys, sound_of
from catalogue.values.names import PersonNameError, fold, given_name_roots, parse_name

FORMS = [  # written, display, sorting
    ("Eliza Ann Thornbury", "Eliza Ann Thornbury", "Thornbury, Eliza Ann"),
    ("Thornbury, Eliza Ann", "Eliza Ann Thornbury", "Thornbury, Eliza Ann"),
    ("Thornbury, Eliza Ann, Mrs.", "Mrs. Eliza Ann Thornbury", "Thornbury, Eliza Ann, Mrs."),
    ("Eliza (Pell) Thornbury", "Eliza (Pell) Thornbury", "Thornbury, Eliza (Pell)"),
    ("Eliza Thornbury, née Pell", "Eliza (Pell) Thornbury", "Thornbury, Eliza (Pell)"),
    ("Eliza Thornbury (born Pell)", "Eliza (Pell) Thornbury", "Thornbury, Eliza (Pell)"),
    (
        "Mrs. Amos Thornbury (Eliza Pell)",
        "Mrs. Amos Thornbury (Eliza Pell)",
        "Thornbury, Eliza (Pell), Mrs. Amos",
    ),
    ("Thornbury, Mrs. Amos", "Mrs. Amos Thornbury", "Thornbury, Amos, Mrs."),
    ('Margaret "Peggy" Lowe', 'Margaret "Peggy" Lowe', 'Lowe, Margaret "Peggy"'),
    ("Margaret (Peggy) Lowe", 'Margaret "Peggy" Lowe', 'Lowe, Margaret "Peggy"'),
    ("Amos Thornbury, Jr.", "Amos Thornbury, Jr.", "Thornbury, Amos, Jr."),
    ("Thornbury, Amos, Jr.", "Amos Thornbury, Jr.", "Thornbury, Amos, Jr."),
    ("Amos Thornbury III", "Amos Thornbury, III", "Thornbury, Amos, III"),
    ("Anna van der Berg", "Anna van der Berg", "van der Berg, Anna"),
    ("Mary St. Clair", "Mary St. Clair", "St. Clair, Mary"),
    ("Dr. H. H. Fenwick", "Dr. H. H. Fenwick", "Fenwick, H. H., Dr."),
    ("Mrs. Fenwick", "Mrs. Fenwick", "Fenwick, Mrs."),
    ("Eliza", "Eliza", "Eliza"),
    ("  Zoë   D’Arcy ", "Zoë D’Arcy", "D’Arcy, Zoë"),
]


@pytest.mark.parametrize(("written", "display", "sorting"), FORMS)
def test_a_name_has_a_display_and_a_sorting_form(written, display, sorting):
    name = parse_name(written)
    assert (name.display, name.sorting) == (display, sorting)


@pytest.mark.parametrize("written", [written for written, _, _ in FORMS])
def test_the_display_form_reads_as_the_same_name(written):
    name = parse_name(written)
    assert parse_name(name.display) == name


def test_maiden_and_married_forms_are_kept_apart():
    name = parse_name("Eliza Ann (Pell) Thornbury")
    assert (name.birth_form, name.married_form) == ("Eliza Ann Pell", "Eliza Ann Thornbury")
    assert parse_name("Eliza Thornbury").birth_form == ""


def test_a_name_after_mrs_may_be_the_husbands():
    assert parse_name("Mrs. Amos Thornbury").may_be_husbands
    assert not parse_name("Mrs. Amos Thornbury (Eliza Pell)").may_be_husbands


@pytest.mark.parametrize("text", ["", " - ", "1890", "?"])
def test_a_text_without_letters_is_no_name(text):
    with pytest.raises(PersonNameError, match="has no name in it"):
        parse_name(text)


def test_fold_drops_accents_possessives_hyphens_and_points():
    assert fold("Zoë D’Arcy-O'Neill's") == "zoe darcy oneill"


def test_short_forms_lead_to_the_full_names():
    assert given_name_roots("Polly") == {"mary"}
    assert given_name_roots("Nell") == {"cornelia", "eleanor", "helen"}
    assert given_name_roots("Jemima") == {"jemima"}


LIVES = [
    ("1880-1955", LifeDates(1880, 1955), "1880-1955"),
    ("[1880?-1990]", LifeDates(1880, 1990, born_doubtful=True), "1880?-1990"),
    ("[1880-]", LifeDates(1880), "1880-"),
    ("[-1955]", LifeDates(died=1955), "-1955"),
    ("b. 1880", LifeDates(1880), "1880-"),
    ("died 1955", LifeDates(died=1955), "-1955"),
    ("c. 1880–1950?", LifeDates(1880, 1950, True, True), "1880?-1950?"),
    ("born 1880 - died 1900", LifeDates(1880, 1900), "1880-1900"),
]


@pytest.mark.parametrize(("text", "life", "printed"), LIVES)
def test_life_dates_are_read_and_printed_in_one_notation(text, life, printed):
    assert parse_life_dates(text) == life
    assert str(life) == printed


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1880", "whether it is birth or death"),
        ("1955-1880", "death in 1880 before a birth in 1955"),
        ("long ago", "gives no life dates"),
        ("-", "gives no life dates"),
    ],
)
def test_impossible_or_missing_life_dates_are_refused(text, says):
    with pytest.raises(LifeDatesError, match=says):
        parse_life_dates(text)


@pytest.mark.parametrize(
    ("surname", "code"),
    [  # examples of the Soundex Indexing System, US National Archives and Records Administration
        ("Washington", "W252"),
        ("Lee", "L000"),
        ("Gutierrez", "G362"),
        ("Pfister", "P236"),
        ("Jackson", "J250"),
        ("Tymczak", "T522"),
        ("Ashcraft", "A261"),
    ],
)
def test_sounds_follow_the_published_examples(surname, code):
    assert sound_of(surname) == code


SAME = [  # two records that a cataloguer would want to see side by side
    ("Eliza Thornbury", "Thornbury, Eliza"),
    ("Eliza Ann Thornbury", "E. A. Thornbury"),
    ("Eliza (Pell) Thornbury", "Elizabeth Pell"),
    ("Polly Fenwick", "Mary Fenwick"),
    ("Mary Thornbury", "Mary Thornberry"),
    ("Anna Hart-Lowe", "Anna Lowe"),
    ("Zoë Fenwick", "Zoe Fenwick's"),
    ('Margaret "Peggy" Lowe', "Peggy Lowe"),
]


@pytest.mark.parametrize(("one", "other"), SAME)
def test_forms_of_one_name_share_a_key_and_are_likely_one_person(one, other):
    first, second = parse_name(one), parse_name(other)
    assert name_keys(first) & name_keys(second)
    assert compare_people(first, second).likelihood >= 0.5


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Eliza Thornbury", "Amos Thornbury"),
        ("Mary Fenwick", "Mary Lowe"),
        ("Amos Thornbury, Sr.", "Amos Thornbury, Jr."),
    ],
)
def test_different_people_are_unlikely_to_be_one(one, other):
    assert compare_people(parse_name(one), parse_name(other)).likelihood < 0.2


def test_years_of_birth_decide_between_namesakes():
    name = parse_name("Mary Fenwick")
    born_1850, born_1851, born_1910 = (LifeDates(year) for year in (1850, 1851, 1910))
    same = compare_people(name, name, born_1850, born_1850)
    near = compare_people(name, name, born_1850, born_1851)
    far = compare_people(name, name, born_1850, born_1910)
    assert same.likelihood > near.likelihood > 0.5 > 0.1 > far.likelihood
    assert "One born in 1850, one in 1910." in far.grounds


def test_a_husbands_name_proves_little():
    wife, man = parse_name("Mrs. Amos Thornbury"), parse_name("Eliza Thornbury")
    judged = compare_people(wife, man)
    assert 0.2 < judged.likelihood < 0.5
    assert 'The given name after "Mrs." may be her husband\'s.' in judged.grounds
