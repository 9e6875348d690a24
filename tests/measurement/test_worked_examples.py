"""Published quilts: what adds up comes first or in a tie that is real, the rest is cautioned.

Figures and their sources: tests/published/worked_examples.csv.
"""

import csv
from pathlib import Path
from typing import Any

import pytest

from catalogue.measurement.lines import answer

Row = dict[str, str]

ROWS: dict[str, Row] = {
    row["id"]: row
    for row in csv.DictReader(
        (Path(__file__).parent.parent / "published" / "worked_examples.csv").open(encoding="utf-8")
    )
}
SETTINGS = {
    "one-patch": "one-patch",
    "on point": "on point",
    "bars": "bars",
    "medallion": "medallion",
    "single": "medallion",
    "centre": "medallion",
    "hexagon": "hexagon",
    "zigzag": "zigzag",
    "strippy": "strippy",
    "straight": "straight",
}


def record(row: Row, counted: bool = False, setting: bool = False) -> dict[str, Any]:
    """A row of the table as the record of a cataloguer who measured every part once."""
    made: dict[str, Any] = {
        "overall": {"width": [row["overall_width_in"]], "length": [row["overall_length_in"]]},
        "block": {"width": [row["block_width_in"]], "length": [row["block_length_in"]]},
        "sashing": _sashing(row),
        "borders": _borders(row),
    }
    if row["binding_in"]:
        made["binding"] = {"width": [row["binding_in"]]}
    if counted:
        made["counted"] = {"columns": int(row["cols"]), "rows": int(row["rows"])}
    if setting:
        made["setting"] = _setting(row)
    return made


def _setting(row: Row) -> str:
    return next(name for start, name in SETTINGS.items() if row["setting"].startswith(start))


def _sashing(row: Row) -> dict[str, Any] | None:
    width = row["sash_width_in"]
    if width == "0":
        return None
    sashing: dict[str, Any] = {"width": [width] if width else []}
    if row["cornerstones"] in ("y", "n"):
        sashing["cornerstones"] = row["cornerstones"] == "y"
    return sashing


def _borders(row: Row) -> list[dict[str, Any]]:
    """ "3;8", or "4;13 (two sides)/4;14 (two ends)"; stated but not measured in W057."""
    written = row["border_widths_in"]
    if "(" not in written:
        missing: list[dict[str, Any]] = [{"width": []}] if row["id"] == "W057" else []
        return [{"width": [width]} for width in written.split(";") if width] or missing
    found = []
    for part in written.split("/"):
        sides = ["left", "right"] if "sides" in part else ["top", "bottom"]
        widths = part.split("(")[0].split(";")
        found += [{"width": [width], "sides": sides} for width in widths]
    return found


def _fits(layout: dict[str, Any], row: Row) -> bool:
    same = layout["columns"] == int(row["cols"]) and layout["rows"] == int(row["rows"])
    return same and layout["setting"] == _setting(row)


SOUND = [
    row
    for row in ROWS.values()
    if row["check"].startswith("ok") and row["provenance"] != "computed"
]
STATED = [row for row in SOUND if row["provenance"] == "stated in source"]
AMISS = [row for row in ROWS.values() if row["check"].startswith(("off", "inconsistent"))]


@pytest.mark.parametrize("setting", [False, True], ids=["", "setting told"])
@pytest.mark.parametrize("counted", [False, True], ids=["", "counted"])
@pytest.mark.parametrize("row", SOUND, ids=lambda row: row["id"])
def test_what_adds_up_comes_first_or_stands_in_a_tie_with_the_first(
    row: Row, counted: bool, setting: bool
) -> None:
    layouts = answer(record(row, counted, setting))["layouts"]
    assert isinstance(layouts, list)
    first = layouts[0]
    tied = [one for one in layouts if first["tie"] is not None and one["tie"] == first["tie"]]
    assert any(_fits(one, row) for one in [first, *tied]), layouts[:3]
    if row in STATED and counted:
        assert _fits(first, row), layouts[:3]


@pytest.mark.parametrize("row", AMISS, ids=lambda row: row["id"])
def test_what_does_not_add_up_is_cautioned(row: Row) -> None:
    found = answer(record(row, counted=True))["cautions"]
    assert isinstance(found, list)
    kinds = {caution["kind"] for caution in found}
    assert kinds & {"does not fit", "count"}, found


def test_thirteen_columns_stated_where_twelve_fit_is_a_caution_about_the_count() -> None:
    shown: Any = answer(record(ROWS["W018"], counted=True))
    first = shown["layouts"][0]
    assert (first["columns"], first["rows"], first["sashing"]) == (12, 14, "between")
    assert first["predicted"] == {"width": 83.5, "length": 97.5}
    (caution,) = shown["cautions"]
    assert (caution["about"], caution["kind"]) == ("counted.columns", "count")
    assert caution["says"] == "13 columns were counted, but the readings of the tape make 12."


def test_sashing_stated_where_the_spare_is_alike_both_ways_has_no_room() -> None:
    shown: Any = answer(record(ROWS["W057"], counted=True))
    (caution,) = shown["cautions"]
    assert (caution["about"], caution["kind"]) == ("sashing.width", "does not fit")
    assert "no room" in caution["says"]


def test_seven_straight_and_five_on_point_are_a_tie_that_counting_does_not_settle() -> None:
    stars = record(ROWS["W073"])
    stars["counted"] = {"pieced_blocks": 25}
    for told in (record(ROWS["W073"]), stars):
        shown: Any = answer(told)
        tied = [one for one in shown["layouts"] if one["tie"] == shown["layouts"][0]["tie"]]
        named = {(one["setting"], one["columns"], one["rows"]) for one in tied}
        assert {("straight", 7, 7), ("on point", 5, 5)} <= named
        assert "ambiguous" in {caution["kind"] for caution in shown["cautions"]}


def test_a_binding_inside_or_outside_the_border_makes_33_or_31_patches() -> None:
    shown: Any = answer(record(ROWS["W071"]))
    tie = shown["layouts"][0]["tie"]
    tied = [one for one in shown["layouts"] if tie is not None and one["tie"] == tie]
    assert {31, 33} <= {one["columns"] for one in tied}
    for one in tied:
        if one["columns"] in (31, 33):
            assert one["predicted"]["width"] == pytest.approx(83.75, abs=0.01)


def test_float_and_border_cannot_be_told_apart_from_the_overall_size() -> None:
    row = ROWS["W090"]
    with_border = answer(record(row, setting=True))["layouts"]
    unsaid = record(row, setting=True)
    unsaid["borders"] = [{"width": ["4.44"]}]
    floated: Any = answer(unsaid)["layouts"]
    assert isinstance(with_border, list)
    assert _fits(with_border[0], row)
    assert _fits(floated[0], row)
    assert floated[0]["details"] == ["floated"]
