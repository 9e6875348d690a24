"""Whatever stands on a line, the answer is one JSON object and never a traceback."""

import json
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.measurement.lines import answer, answer_line
from catalogue.measurement.readings import SETTINGS, SIDES

QUICK = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))

anything = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**400), 10**400)
    | st.floats()
    | st.text(st.characters(), max_size=12),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4)
    ),
    max_leaves=12,
)
lengths = st.one_of(
    st.floats(0.05, 2400),
    st.integers(1, 130),
    st.sampled_from(["85 1/4", "85¼", "216.5 cm", "7 ft 1 1/4 in", "2.165 m", "1/8", "0.001"]),
)
odd = st.one_of(lengths, lengths, lengths, lengths, st.sampled_from(["0", "-3", "85/0", "nan"]))
readings = st.lists(lengths, max_size=4) | st.lists(odd, max_size=3)
count = st.none() | st.integers(1, 120) | st.integers(-3, 10**6)


def part(**fields: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | st.fixed_dictionaries({}, optional=fields)


records = st.fixed_dictionaries(
    {"overall": st.fixed_dictionaries({}, optional={"width": readings, "length": readings})},
    optional={
        "id": st.text(max_size=5) | st.integers() | anything,
        "unit": st.sampled_from(["in", "cm"]),
        "block": part(width=readings, length=readings),
        "sashing": part(width=readings, cornerstones=st.booleans()),
        "borders": st.lists(
            st.fixed_dictionaries(
                {"width": readings},
                optional={"sides": st.lists(st.sampled_from(SIDES), min_size=1, max_size=5)},
            ),
            max_size=4,
        ),
        "binding": part(width=readings, within_border=st.booleans()),
        "counted": part(columns=count, rows=count, pieced_blocks=count),
        "setting": st.sampled_from(SETTINGS),
        "edge": st.sampled_from(["bound", "raw"]),
    },
)


def _check(shown: dict[str, Any]) -> None:
    json.dumps(shown, ensure_ascii=False, allow_nan=False).encode("utf-8")
    if "error" in shown:
        assert set(shown) == {"id", "error"}
        assert shown["error"].strip()
        return
    assert set(shown) == {"id", "layouts", "measure_next", "cautions"}
    probabilities = [layout["probability"] for layout in shown["layouts"]]
    assert len(probabilities) <= 10
    assert probabilities == sorted(probabilities, reverse=True)
    assert sum(probabilities) <= 1.0
    assert shown["layouts"] or shown["cautions"]
    for layout in shown["layouts"]:
        assert layout["grounds"].endswith(".")


@QUICK
@given(anything)
def test_any_json_is_answered(obj: object) -> None:
    _check(answer(obj))


@QUICK
@given(st.text(st.characters(), max_size=60))
def test_any_text_is_answered(text: str) -> None:
    _check(answer_line(text))


@settings(QUICK, max_examples=250)
@given(records)
def test_any_record_of_the_right_shape_is_answered(record: dict[str, Any]) -> None:
    _check(answer(record))
