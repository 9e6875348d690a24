"""Object ID and CDWA core: the published lists, and what a record leaves unanswered."""

import csv
import re
from pathlib import Path

import pytest

from catalogue.description import cdwa, object_id
from catalogue.description.asking import UnknownFactError, facts

PUBLISHED = Path(__file__).parents[1] / "published"


def published(name):
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def plain(name):
    words = re.sub(r"^(?:take|write a|keep it|kept)\b", "", name.lower()).replace("&", "and")
    return re.sub(r"/discovery|[^a-z]", "", words)


@pytest.mark.parametrize("row", published("object_id.csv"), ids=lambda row: row["name"])
def test_every_category_of_object_id_is_asked_for(row):
    names = [plain(question.name) for question in object_id.questions(row["group"])]
    assert plain(row["name"]) in names


def test_object_id_has_nine_questions_three_more_steps_and_five_recommendations():
    counts = [len(object_id.questions(group)) for group in object_id.GROUPS]
    assert counts == [9, 3, 5]


def test_the_core_categories_of_cdwa_are_the_published_ones_in_order():
    ours = [(question.group, question.name) for question in cdwa.questions()]
    assert ours == [(row["number"], row["name"]) for row in published("cdwa.csv")]


def test_every_question_has_a_source_and_every_fact_a_section():
    assert all(question.source for question in (*object_id.questions(), *cdwa.questions()))
    assert all(fact.section for fact in facts().values())


NINE = {
    "object_type": "quilt",
    "materials": "cotton",
    "techniques": "pieced",
    "overall_width": 92,
    "overall_length": 90,
    "inscriptions": "none found",
    "distinguishing_features": "one block turned",
    "title": "Flying wheel",
    "subject": "Flying wheel",
    "date": "about 1935",
    "maker": "unknown",
}


def test_a_full_record_answers_the_nine_questions():
    found = object_id.completeness(NINE)
    assert found.complete
    assert found.says == "9 of 9 questions are answered."
    assert found.missing == ()


@pytest.mark.parametrize(
    ("left_out", "question", "section"),
    [
        ("techniques", "Materials and techniques", "cloth"),
        ("overall_width", "Measurements", "measurements"),
        ("inscriptions", "Inscriptions and markings", "inscriptions"),
        ("maker", "Maker", "making"),
    ],
)
def test_a_missing_fact_names_the_question_and_the_section(left_out, question, section):
    found = object_id.completeness({**NINE, left_out: " "})
    (answer,) = [answer for answer in found.answers if not answer.complete]
    assert answer.question.name == question
    assert [fact.section for fact in answer.missing] == [section]
    assert answer.says == f"{question} still needs {facts()[left_out].words}."


def test_an_empty_record_misses_every_fact_once():
    found = cdwa.completeness({})
    assert found.answered == 0
    names = [fact.name for fact in found.missing]
    assert len(names) == len(set(names))
    assert {"date_earliest", "date_latest", "repository", "classification"} <= set(names)


@pytest.mark.parametrize("value", [None, "", "  ", False, 0, ()])
def test_an_empty_value_is_no_answer(value):
    assert object_id.completeness({"title": value}).answered == 0


def test_the_recommended_categories_are_asked_for_when_named():
    found = object_id.completeness({"accession_number": "1995.4.1"}, "recommended")
    assert (found.answered, len(found.answers)) == (1, 5)


def test_a_name_that_is_no_fact_is_refused():
    with pytest.raises(UnknownFactError, match='"colour" is not a fact'):
        object_id.completeness({"colour": "blue"})
