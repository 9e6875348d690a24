"""The drawn photographs: there, small enough, described, and of the quilt the tape measured."""

from __future__ import annotations

import csv
import sys
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from catalogue.values.lengths import parse_length

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from sample_collection.studio import layout  # noqa: E402
from sample_collection.studio.__main__ import records, take  # noqa: E402
from sample_collection.studio.plan import Plan  # noqa: E402

HERE = ROOT / "sample_collection"
ALL = {record["drawing"]["seed"]: (record, plan) for record, plan in records()}
EVERY_QUILT = pytest.mark.parametrize("seed", sorted(ALL))
PICTURES = [picture for record, _ in ALL.values() for picture in record["photographs"]]


def mean(readings: list[str]) -> float:
    return float(sum((parse_length(text).inches for text in readings), Fraction(0)) / len(readings))


def true_sizes(plan: Plan) -> dict[str, float]:
    width, length = plan.size
    sizes = {"overall width": width, "overall length": length, "block 1 width": plan.block[0]}
    sizes |= {"block 1 length": plan.block[1], "block 2 width": plan.block[0]}
    sizes |= {"block 2 length": plan.block[1], "sashing width": plan.sash}
    sizes |= {"binding width": plan.binding}
    sizes |= {f"border {k} width": border.width for k, border in enumerate(plan.borders, start=1)}
    return sizes


@EVERY_QUILT
def test_the_readings_are_those_of_the_quilt_that_was_drawn(seed):
    record, plan = ALL[seed]
    sizes = true_sizes(plan)
    for what, readings in record["readings"].items():
        near = mean(readings) == pytest.approx(sizes[what], abs=max(0.13, 0.009 * sizes[what]))
        assert near is (what not in record["drawing"].get("disagrees", ())), what


@EVERY_QUILT
def test_the_pieces_cover_the_quilt(seed):
    _, plan = ALL[seed]
    scene = layout.sew(plan)
    outlines = np.concatenate([piece.outline for piece in scene.pieces])
    reach = plan.block[0] + plan.sash
    assert outlines.min() >= -reach
    assert outlines[:, 0].max() >= scene.width - 0.01
    assert outlines[:, 1].max() >= scene.length - 0.01


def test_every_photograph_is_there_described_and_no_larger_than_agreed():
    sizes = []
    for picture in PICTURES:
        file = HERE / picture["file"]
        sizes.append(file.stat().st_size)
        with Image.open(file) as image:
            assert image.format == "JPEG"
            assert 1000 <= max(image.size) <= 2000
            assert not image.getexif()
        assert len(picture["alternative_text"]) > 60
        assert picture["rights"].startswith("CC0")
    assert len(sizes) >= 40
    assert max(sizes) < 450_000
    assert sum(sizes) < 14_000_000


def test_no_photograph_lies_there_that_no_quilt_has():
    there = {file.name for file in (HERE / "photographs").glob("*.jpg")}
    assert there == {Path(picture["file"]).name for picture in PICTURES}


def test_every_quilt_has_one_overall_view_whose_corners_are_kept():
    with (HERE / "photographs/corners.csv").open(encoding="utf-8", newline="") as lines:
        kept = {row["file"] for row in csv.DictReader(lines)}
    overall = {
        Path(picture["file"]).name
        for record, _ in ALL.values()
        for picture in record["photographs"]
        if picture["view"] == "overall"
    }
    assert len(overall) == len(ALL)
    assert overall <= kept


def test_a_photograph_drawn_again_is_the_one_that_is_kept():
    record, plan = next(pair for pair in ALL.values() if pair[0].get("accession") == "2001.7")
    again = take(record, plan, "2001.7-label.jpg").pixels.astype(int)
    with Image.open(HERE / "photographs/2001.7-label.jpg") as image:
        kept = np.asarray(image.convert("RGB"), dtype=int)
    assert again.shape == kept.shape
    assert np.abs(again - kept).mean() < 4  # what the compression takes
