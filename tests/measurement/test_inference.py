"""What an inference says of records of every kind: whole, lacking, spoilt and ambiguous."""

from copy import deepcopy
from math import sqrt
from typing import Any

import pytest

from catalogue.measurement.inference import infer
from catalogue.measurement.layouts import Inference, Layout
from catalogue.measurement.readings import read_readings

SASHED: dict[str, Any] = {
    "overall": {"width": ["92", "92 1/4", "91 3/4"], "length": ["77 1/2", "77 1/4", "77 1/2"]},
    "block": {"width": ["12", "12", "11 7/8"], "length": ["12", "12 1/8"]},
    "sashing": {"width": ["2 1/2"], "cornerstones": True},
    "borders": [{"width": ["3"]}, {"width": ["8"]}],
    "binding": None,
}


def made(record: dict[str, Any], **changed: Any) -> Inference:
    """The inference from a record with some parts changed; None of `Ellipsis` leaves a part out."""
    edited = {**deepcopy(record), **changed}
    return infer(read_readings({key: part for key, part in edited.items() if part is not ...}))


def name(layout: Layout) -> tuple[object, ...]:
    return layout.setting, layout.sashing, layout.columns, layout.rows


def test_the_parts_settle_the_layout_and_the_grounds_say_how() -> None:
    found = made(SASHED)
    best = found.layouts[0]
    assert name(best) == ("straight", "between", 5, 4)
    assert best.probability > 0.9
    assert found.cautions == ()
    assert "5 blocks of 12 in, 4 strips of 2 1/2 in" in best.grounds


def on_point(columns: int, rows: int, block: float) -> dict[str, Any]:
    """An on-point set without sashing or border, read once to the hundredth."""
    return {
        "overall": {
            "width": [round(columns * block * sqrt(2), 2)],
            "length": [round(rows * block * sqrt(2), 2)],
        },
        "block": {"width": [block], "length": [block]},
        "sashing": None,
        "borders": [],
        "binding": None,
    }


# Sizes computed from the settings' own geometry (tests/measurement/test_settings.py).
@pytest.mark.parametrize(
    ("record", "expected", "details"),
    [
        (on_point(5, 6, 10.0), ("on point", "none", 5, 6), ()),
        ({**on_point(7, 9, 6.0), "setting": "zigzag"}, ("zigzag", "none", 7, 9), ()),
        (
            {
                "overall": {"width": [66], "length": [84]},
                "block": {"width": [9], "length": [12]},
                "sashing": None,
                "borders": [{"width": [6]}],
            },
            ("straight", "none", 6, 6),
            ("rectangular blocks",),
        ),
        (
            {
                "overall": {"width": [60], "length": [75]},
                "block": {"width": [12], "length": [12]},
                "sashing": {"width": [1.5]},
                "borders": [],
                "binding": None,
                "counted": {"columns": 4, "rows": 5},
            },
            ("straight", "framed", 4, 5),
            ("framed blocks",),
        ),
        (
            {
                "overall": {"width": [69], "length": [84]},
                "block": {"width": [5], "length": [60]},
                "sashing": None,
                "borders": [{"width": [12]}],
            },
            ("bars", "none", 9, 1),
            (),
        ),
        (
            {
                "overall": {"width": [72.43], "length": [84.85]},
                "block": {"width": [6], "length": [6]},
                "sashing": {"width": [5]},
                "borders": [],
                "binding": None,
            },
            ("strippy", "framed", 5, 10),
            ("columns on point", "outside strips"),
        ),
        (
            {
                "overall": {"width": ["75 1/2"], "length": ["84 1/2"]},
                "block": {"width": [6], "length": [3]},
                "sashing": {"width": ["7 1/2"]},
                "borders": [],
                "binding": {"width": ["1/4"]},
                "setting": "strippy",
            },
            ("strippy", "framed", 5, 28),
            ("outside strips", "rectangular blocks"),
        ),
        (
            {
                "overall": {"width": [36], "length": [36]},
                "block": {"width": [18], "length": [18]},
                "sashing": None,
                "borders": [{"width": [3]}, {"width": [4]}, {"width": [2]}],
                "binding": None,
            },
            ("medallion", "none", 1, 1),
            (),
        ),
        (
            {
                "overall": {"width": [39.63], "length": [39.63]},
                "block": {"width": [20], "length": [20]},
                "sashing": None,
                "borders": [{"width": [5.675]}],
                "binding": None,
            },
            ("medallion", "none", 1, 1),
            ("centre on point",),
        ),
        (
            {
                "overall": {"width": [57.16], "length": [60]},
                "block": {"width": [6], "length": [5.196]},
                "sashing": None,
                "borders": [],
                "binding": None,
            },
            ("hexagon", "none", 11, 13),
            ("points up",),
        ),
        (
            {
                "overall": {"width": [60], "length": [57.16]},
                "block": {"width": [6], "length": [5.196]},
                "sashing": None,
                "borders": [],
                "binding": None,
            },
            ("hexagon", "none", 13, 11),
            ("flat side up",),
        ),
        (
            {
                "overall": {"width": [50.91], "length": [63.64]},
                "block": {"width": [7], "length": [7]},
                "sashing": {"width": [2], "cornerstones": True},
                "borders": [],
                "binding": None,
                "counted": {"columns": 4, "rows": 5, "pieced_blocks": 31},
            },
            ("on point", "between", 4, 5),
            ("cornerstone-centred",),
        ),
        (
            {**on_point(4, 5, 10.0), "counted": {"pieced_blocks": 20}},
            ("on point", "none", 4, 5),
            ("alternate blocks",),
        ),
    ],
    ids=lambda value: " ".join(map(str, value)) if isinstance(value, tuple) else "",
)
def test_every_setting_is_told_from_its_sizes(
    record: dict[str, Any], expected: tuple[object, ...], details: tuple[str, ...]
) -> None:
    best = infer(read_readings(record)).layouts[0]
    assert name(best) == expected
    assert best.details == details


def test_alternate_blocks_share_the_field_with_the_pieced_ones() -> None:
    record = {**on_point(4, 5, 10.0), "counted": {"pieced_blocks": 20}}
    pieces = infer(read_readings(record)).layouts[0].pieces
    assert (pieces.blocks, pieces.alternate_blocks, pieces.side_triangles) == (20, 12, 14)


def test_centimetres_and_inches_lead_to_the_same_layout() -> None:
    metric = {
        "unit": "cm",
        "overall": {"width": [233.7], "length": [196.9]},
        "block": {"width": [30.5, 30.5], "length": [30.5]},
        "sashing": {"width": [6.4], "cornerstones": True},
        "borders": [{"width": [7.6]}, {"width": [20.3]}],
        "binding": None,
    }
    found = infer(read_readings(metric))
    assert name(found.layouts[0]) == ("straight", "between", 5, 4)
    assert "30.5 cm" in found.layouts[0].grounds
    assert found.cautions == ()


# --- parts there but not measured ---------------------------------------------------------------


def test_unmeasured_sashing_is_solved_for_with_its_uncertainty_and_asked_for() -> None:
    found = made(SASHED, sashing={"width": [], "cornerstones": True}, counted={"columns": 5})
    best = found.layouts[0]
    assert name(best) == ("straight", "between", 5, 4)
    assert best.dimensions.sashing == pytest.approx(2.5, abs=0.2)
    assert "the width of the strips is worked out, give or take" in best.grounds
    assert found.measure_next is not None
    assert found.measure_next.what == "sashing.width"
    assert found.measure_next.settles >= best.probability


def test_an_unmeasured_border_is_solved_for_and_asked_for() -> None:
    found = made(SASHED, borders=[{"width": ["3"]}, {"width": []}])
    assert name(found.layouts[0]) in {("straight", "between", 5, 4), ("straight", "framed", 5, 4)}
    assert found.measure_next is not None
    assert found.measure_next.what == "borders.1.width"


def test_an_unmeasured_block_is_solved_for_from_the_counts() -> None:
    found = made(SASHED, block={"width": []}, counted={"columns": 5, "rows": 4})
    best = found.layouts[0]
    assert (best.columns, best.rows) == (5, 4)
    assert best.dimensions.block is not None
    assert best.dimensions.block.width == pytest.approx(12, abs=0.6)
    assert found.measure_next is not None
    assert found.measure_next.what == "block.width"


def test_an_axis_not_measured_leaves_its_count_open_and_is_asked_for() -> None:
    found = made(SASHED, overall={"width": ["92"], "length": []})
    assert found.layouts[0].columns == 5
    assert found.layouts[0].probability < 0.6
    assert found.measure_next is not None
    assert found.measure_next.what == "overall.length"


def test_parts_left_out_may_be_there_or_not() -> None:
    found = made(SASHED, sashing=..., borders=..., binding=..., counted={"columns": 5, "rows": 4})
    settings = {layout.sashing for layout in found.layouts}
    assert len(settings) > 1
    assert found.measure_next is not None


def test_nothing_more_is_asked_for_when_all_is_settled() -> None:
    assert made(SASHED, counted={"columns": 5, "rows": 4}, setting="straight").measure_next is None


def test_without_any_overall_size_nothing_is_fitted_and_the_caution_says_so() -> None:
    found = made(SASHED, overall={"width": [], "length": []})
    assert found.layouts == ()
    assert [caution.kind for caution in found.cautions] == ["does not fit"]
    assert found.measure_next is not None
    assert found.measure_next.what == "overall.width"


def test_where_no_block_is_spoken_of_a_quilt_without_repeat_comes_first() -> None:
    found = infer(read_readings({"overall": {"width": [70], "length": [84]}}))
    assert name(found.layouts[0]) == ("none", "none", None, None)
    assert len(found.layouts) > 1
    assert sum(layout.probability for layout in found.layouts) <= 1


# --- blunders -----------------------------------------------------------------------------------

BORDER_TWICE = [{"width": ["3"]}, {"width": ["8"]}, {"width": ["8"]}]
SHORT = {"width": ["92", "92 1/4", "91 3/4"], "length": ["77 1/2", "77 1/4", "77 1/2"]}


@pytest.mark.parametrize(
    ("changed", "about", "kind", "says"),
    [
        (
            {"overall": {**SHORT, "width": ["92", "92 1/4", "97"]}},
            "overall.width",
            "outlier",
            "“97” for the overall width is left out: the other readings make it 92",
        ),
        (
            {"block": {"width": ["12", "12", "15 1/2"], "length": ["12"]}},
            "block.width",
            "outlier",
            "“15 1/2” for the width of a block is left out: the other readings make it 12",
        ),
        (
            {"overall": {**SHORT, "width": ["233.7", "234.3", "233.0"]}},
            "overall.width",
            "wrong unit",
            "agrees with the rest only in the other unit, as 92",
        ),
        (
            {"block": {"width": ["12", "30.5", "11 7/8"], "length": ["12", "12 1/8"]}},
            "block.width",
            "wrong unit",
            "“30.5” for the width of a block",
        ),
        (
            {"overall": {**SHORT, "width": ["92", "29", "91 3/4"]}},
            "overall.width",
            "transposed digits",
            "if two digits change places: 91 7/8 in",
        ),
        (
            {
                "overall": {"width": ["95 3/4"] * 3, "length": ["80 1/2"] * 3},
                "block": {"width": ["12 3/4", "12 3/4", "12"], "length": ["12 3/4"]},
            },
            "block.width",
            "dropped fraction",
            "seems to lack its fraction",
        ),
        ({"borders": BORDER_TWICE}, "borders.2.width", "counted twice", "entered twice"),
        (
            {"borders": [{"width": ["3"]}, {"width": ["16"]}]},
            "borders.1.width",
            "counted twice",
            "two sides added together: the rest makes it 8",
        ),
        (
            {
                "overall": {"width": SHORT["length"], "length": SHORT["width"]},
                "counted": {"columns": 5, "rows": 4},
            },
            "overall.width",
            "swapped",
            "only when exchanged",
        ),
        (
            {"counted": {"columns": 6, "rows": 4}},
            "counted.columns",
            "count",
            "6 columns were counted, but the readings of the tape make 5.",
        ),
        (
            {"counted": {"pieced_blocks": 27}},
            "counted.pieced_blocks",
            "count",
            "27 pieced blocks were counted, but 5 x 4 straight would have 10 or 20.",
        ),
        (
            {"overall": {**SHORT, "width": ["90 3/4", "92", "93 1/4"]}},
            "overall.width",
            "out of square",
            "run from 90 3/4 in to 93 1/4 in",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_is_amiss_is_named_with_its_numbers_and_the_rest_still_used(
    changed: dict[str, Any], about: str, kind: str, says: str
) -> None:
    found = made(SASHED, **changed)
    caution = next(caution for caution in found.cautions if caution.kind == kind)
    assert caution.about == about
    assert says in caution.says
    if "block" not in changed or kind == "wrong unit":
        assert name(found.layouts[0]) == ("straight", "between", 5, 4)


WIDE_BINDING: dict[str, Any] = {
    "overall": {"width": ["75 1/2"] * 3, "length": ["87 1/2"] * 3},
    "block": {"width": ["12"] * 4, "length": ["12"] * 4},
    "sashing": None,
    "borders": [{"width": ["6", "6"]}],
    "binding": {"width": ["1 3/4"], "within_border": True},
}


def test_a_binding_said_to_lie_inside_the_border_that_lies_outside_is_named() -> None:
    found = made(WIDE_BINDING, counted={"columns": 5, "rows": 6})
    (caution,) = found.cautions
    assert (caution.about, caution.kind) == ("binding.within_border", "binding")
    assert found.layouts[0].predicted.width == pytest.approx(75.5)


def test_a_raw_edge_is_named_only_as_a_possibility() -> None:
    record = {
        **WIDE_BINDING,
        "overall": {"width": ["36 1/2"] * 5, "length": ["36 1/2"] * 5},
        "block": {"width": ["12"] * 5, "length": ["12"] * 5},
        "borders": [],
        "binding": None,
        "edge": "bound",
    }
    kinds = {caution.kind: caution.says for caution in infer(read_readings(record)).cautions}
    assert set(kinds) <= {"raw edge"}
    for says in kinds.values():
        assert says.startswith("Possibly")
    assert name(infer(read_readings(record)).layouts[0])[2:] == (3, 3)


def test_a_record_typed_in_centimetres_throughout_is_noticed() -> None:
    record = {
        "overall": {"width": ["233.7"], "length": ["196.9"]},
        "block": {"width": ["30.5", "30.4"], "length": ["30.5"]},
        "sashing": {"width": ["6.4"], "cornerstones": True},
        "borders": [{"width": ["7.6"]}, {"width": ["20.3"]}],
        "binding": None,
    }
    found = infer(read_readings(record))
    assert [(caution.about, caution.kind) for caution in found.cautions] == [("unit", "wrong unit")]
    assert name(found.layouts[0]) == ("straight", "between", 5, 4)


def test_where_nothing_fits_there_is_no_layout_and_the_caution_says_what_does_not() -> None:
    found = made(SASHED, setting="medallion", sashing=None)
    assert found.layouts == ()
    (caution,) = found.cautions
    assert caution.kind == "does not fit"
    assert "medallion" in caution.says
    assert "12 in" in caution.says


@pytest.mark.parametrize(("setting", "sashing"), [("bars", {"width": ["2"]}), ("strippy", None)])
def test_a_setting_seen_goes_before_sashing_that_it_cannot_have(
    setting: str, sashing: dict[str, Any] | None
) -> None:
    record = {
        "overall": {"width": [69], "length": [84]},
        "block": {"width": [5], "length": [60]} if setting == "bars" else {"width": [6]},
        "borders": [{"width": [12]}],
        "binding": None,
    }
    found = made(record, setting=setting, sashing=sashing)
    assert {layout.setting for layout in found.layouts} == {setting}
    assert ("sashing.width", "does not fit") in {(c.about, c.kind) for c in found.cautions}


# --- ties ---------------------------------------------------------------------------------------


def test_on_point_and_zigzag_of_one_size_share_a_tie_that_a_count_settles() -> None:
    found = infer(read_readings(on_point(4, 5, 9.0)))
    first, second = found.layouts[:2]
    assert {first.setting, second.setting} == {"on point", "zigzag"}
    assert first.tie == second.tie is not None
    assert found.measure_next is not None
    assert found.measure_next.what in ("counted.pieced_blocks", "setting")
    counted = infer(read_readings({**on_point(4, 5, 9.0), "counted": {"pieced_blocks": 32}}))
    assert name(counted.layouts[0]) == ("on point", "none", 4, 5)
    assert counted.layouts[0].probability > 0.9


def test_seven_on_point_and_ten_straight_of_nearly_one_size_are_a_tie() -> None:
    """Between 7 x 1.41421 = 9.8995 and 10 blocks there is 1 %."""
    width = round(9.95 * 8, 2)
    record = {**on_point(7, 7, 8.0), "overall": {"width": [width], "length": [width]}}
    found = infer(read_readings(record))
    first = found.layouts[0]
    tied = {name(layout) for layout in found.layouts if layout.tie == first.tie}
    assert first.tie is not None
    assert {("on point", "none", 7, 7), ("straight", "none", 10, 10)} <= tied
    assert "ambiguous" in {caution.kind for caution in found.cautions}


def test_layouts_that_the_readings_do_tell_apart_share_no_tie() -> None:
    assert all(layout.tie is None for layout in made(SASHED).layouts)


# --- probabilities ------------------------------------------------------------------------------


def test_layouts_stand_best_first_and_share_at_most_one() -> None:
    found = made(SASHED, sashing={"width": []}, borders=[{"width": []}])
    probabilities = [layout.probability for layout in found.layouts]
    assert probabilities == sorted(probabilities, reverse=True)
    assert 0.5 < sum(probabilities) <= 1
    assert len({name(layout) for layout in found.layouts}) == len(found.layouts) <= 10


def test_round_sizes_are_likelier_and_never_required() -> None:
    """Blocks of 11 3/8 in that fit are found as surely as blocks of 12 in."""
    odd = {
        "overall": {"width": ["68 1/4"] * 3, "length": ["79 5/8"] * 3},
        "block": {"width": ["11 3/8"] * 4, "length": ["11 3/8"] * 4},
        "sashing": None,
        "borders": [],
        "binding": None,
    }
    assert name(infer(read_readings(odd)).layouts[0]) == ("straight", "none", 6, 7)
