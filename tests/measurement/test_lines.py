"""The answer to a record is the contract's object, or an object with an error in one sentence."""

from typing import Any

import pytest

from catalogue.measurement.lines import answer, answer_line

CONTRACT = {
    "id": "any text",
    "unit": "in",
    "overall": {"width": ["92"], "length": ["90 1/2"]},
    "block": {"width": ["12", "12"], "length": ["12"]},
    "sashing": {"width": ["2 1/2"], "cornerstones": True},
    "borders": [{"width": ["3"]}, {"width": ["8"], "sides": ["left", "right"]}],
    "binding": {"width": ["3/8"], "within_border": True},
    "counted": {"columns": 5, "rows": 6, "pieced_blocks": 30},
    "setting": "straight",
    "edge": "bound",
}


def test_the_contract_example_is_answered_as_the_contract_says() -> None:
    shown: Any = answer(CONTRACT)
    first = shown["layouts"][0]
    probability = first.pop("probability")
    grounds = first.pop("grounds")
    assert first == {
        "setting": "straight",
        "sashing": "between",
        "columns": 5,
        "rows": 6,
        "details": [],
        "pieces": {
            "blocks": 30,
            "alternate_blocks": 0,
            "side_triangles": 0,
            "corner_triangles": 0,
            "half_blocks": 0,
            "sash_strips": 49,
            "cornerstones": 20,
        },
        "predicted": {"width": 92.0, "length": 90.5},
        "difference": {"width": 0.0, "length": 0.0},
        "tie": None,
    }
    assert probability > 0.99
    assert grounds == (
        "Across, 5 blocks of 12 in, 4 strips of 2 1/2 in and borders of 3 in and 8 in on either"
        " side make 92 in and the tape says 92 in; down, 6 blocks of 12 in, 5 strips of 2 1/2 in"
        " and a border of 3 in on either side make 90 1/2 in and the tape says 90 1/2 in."
    )
    assert (shown["id"], shown["measure_next"], shown["cautions"]) == ("any text", None, [])


def test_a_setting_without_repeat_gives_one_layout_that_says_so() -> None:
    shown: Any = answer({"overall": {"width": [70], "length": [80]}, "setting": "none"})
    (layout,) = shown["layouts"]
    assert (layout["setting"], layout["columns"], layout["rows"]) == ("none", None, None)
    assert layout["probability"] == 1.0
    assert "No repeat is recorded" in layout["grounds"]


@pytest.mark.parametrize(
    ("line", "identity", "quotes"),
    [
        ("not JSON", None, "not JSON"),
        ("[1, 2", None, "[1, 2"),
        ("[]", None, "object"),
        ('"text"', None, "text"),
        ('{"id": "Q1"}', "Q1", "overall"),
        ('{"id": "Q2", "overall": {"width": ["85/0"]}}', "Q2", "85/0"),
        ('{"id": 7, "overall": {"width": ["abc"]}}', 7, "abc"),
        ('{"id": ["x"], "overall": 3}', None, "overall"),
        ('{"id": "Q3", "overall": {"width": [NaN]}}', "Q3", "nan"),
        ('{"id": "Q4", "overall": {"width": [' + "9" * 5000 + "]}}", None, "not a JSON object"),
        ("[" * 100_000, None, "not a JSON object"),
        ("x" * 300_000, None, "too long"),
    ],
    ids=lambda value: str(value)[:20],
)
def test_what_cannot_be_understood_is_an_error_with_the_id_where_there_is_one(
    line: str, identity: object, quotes: str
) -> None:
    shown = answer_line(line)
    assert set(shown) == {"id", "error"}
    assert shown["id"] == identity
    assert quotes in str(shown["error"])
