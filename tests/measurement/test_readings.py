"""A record of tape readings is read as written, and refused in one sentence where it cannot be."""

from fractions import Fraction
from typing import Any

import pytest

from catalogue.measurement.readings import (
    BorderReadings,
    Counted,
    Presence,
    ReadingError,
    TapeReadings,
    read_readings,
)

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


def test_every_part_of_a_record_is_read_exactly_and_keeps_what_was_written() -> None:
    readings = read_readings(CONTRACT)
    assert readings.overall.length[0].inches == Fraction(181, 2)
    assert readings.overall.length[0].written == "90 1/2"
    assert [reading.inches for reading in readings.block.width] == [12, 12]
    assert readings.sashing.presence is Presence.PRESENT
    assert readings.sashing.cornerstones is True
    assert readings.borders is not None
    assert readings.borders[0].sides == ("left", "right", "top", "bottom")
    assert readings.borders[1].sides == ("left", "right")
    assert readings.binding.width[0].inches == Fraction(3, 8)
    assert readings.binding.within_border is True
    assert readings.counted == Counted(5, 6, 30)
    assert (readings.setting, readings.edge) == ("straight", "bound")


def _read(**parts: Any) -> TapeReadings:
    return read_readings({"overall": {"width": [80], "length": [90]}, **parts})


def test_a_part_left_out_is_unknown_a_null_part_is_absent_and_an_empty_one_is_unmeasured() -> None:
    assert _read().sashing.presence is Presence.UNKNOWN
    assert _read(sashing=None).sashing.presence is Presence.ABSENT
    assert _read(sashing={"width": []}).sashing.presence is Presence.PRESENT
    assert _read(binding=None).binding.presence is Presence.ABSENT
    assert _read().borders is None
    assert _read(borders=[]).borders == ()
    assert _read(borders=[{"width": []}]).borders == (BorderReadings(),)
    assert not _read().block_recorded
    assert _read(block={"width": []}).block_recorded


def test_the_unit_of_the_record_holds_where_none_is_written() -> None:
    readings = _read(unit="cm", block={"width": [25.4, "10 in"]})
    assert [reading.inches for reading in readings.block.width] == [10, 10]
    assert [reading.unit for reading in readings.block.width] == ["cm", "in"]


def test_a_lone_length_stands_for_a_list_of_one() -> None:
    assert _read(block={"width": "12 1/2"}).block.width[0].inches == Fraction(25, 2)


@pytest.mark.parametrize(
    ("parts", "quotes"),
    [
        ({"block": {"width": ["85/0"]}}, ("block.width", "85/0")),
        ({"block": {"width": ["0"]}}, ("block.width", "“0”")),
        ({"block": {"width": [-3]}}, ("block.width", "-3")),
        ({"block": {"width": [True]}}, ("block.width", "True")),
        ({"block": {"width": [[12]]}}, ("block.width", "[12]")),
        ({"block": {"width": [float("nan")]}}, ("block.width", "nan")),
        ({"block": 12}, ("block", "12")),
        ({"unit": "yard"}, ("unit", "yard")),
        ({"setting": "diagonal"}, ("setting", "diagonal")),
        ({"edge": "frayed"}, ("edge", "frayed")),
        ({"sashing": []}, ("sashing", "[]")),
        ({"sashing": {"cornerstones": "yes"}}, ("sashing.cornerstones", "yes")),
        ({"borders": {"width": []}}, ("borders", "{")),
        ({"borders": [3]}, ("borders.0", "3")),
        ({"borders": [{"sides": ["north"]}]}, ("side", "north")),
        ({"borders": [{"sides": []}]}, ("borders.0.sides", "[]")),
        ({"borders": [{}] * 21}, ("borders", "21")),
        ({"block": {"width": [1] * 201}}, ("block.width", "201")),
        ({"counted": {"columns": 0}}, ("counted.columns", "0")),
        ({"counted": {"columns": 2.5}}, ("counted.columns", "2.5")),
        ({"counted": {"pieced_blocks": "many"}}, ("counted.pieced_blocks", "many")),
        ({"overall": None}, ("overall",)),
        ({"overall": "92 x 90"}, ("overall", "92 x 90")),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_place_and_its_words(
    parts: dict[str, Any], quotes: tuple[str, ...]
) -> None:
    with pytest.raises(ReadingError) as refused:
        _read(**parts)
    for quote in quotes:
        assert quote in str(refused.value)


@pytest.mark.parametrize("thing", [None, 3, "92 x 90", [], True])
def test_a_record_is_an_object_with_named_parts(thing: object) -> None:
    with pytest.raises(ReadingError, match="object"):
        read_readings(thing)


def test_counts_may_come_as_text_or_as_whole_decimals() -> None:
    assert _read(counted={"columns": "5", "rows": 6.0}).counted == Counted(5, 6)
