"""`catalogue photo`: one file, one JSON object; a sentence where the file cannot be read."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
import simulator
from click.testing import CliRunner
from PIL import Image
from simulated_blocks import blocks

from catalogue.cli import main

CORNERS = ("0,0", "99,0", "99,99", "0,99")


@pytest.fixture(scope="module")
def photograph() -> simulator.Photograph:
    cake_stand = next(each for each in blocks() if each.name == "cake-stand")
    wanted = {"values": "clear", "setting": "framed", "columns": 3, "rows": 4}
    return simulator.photograph(3, block=cake_stand, turned=True, side=800, **wanted)


def asked(file: Path, corners, *more: str):
    points = [f"{x},{y}" for x, y in corners]
    return CliRunner().invoke(main, ["photo", str(file), "--corners", *points, *more])


def test_it_prints_the_layout_and_the_turned_block(photograph, tmp_path):
    (tmp_path / "quilt.jpg").write_bytes(photograph.data)
    tape = ("--width", str(photograph.width), "--length", str(photograph.length))
    result = asked(tmp_path / "quilt.jpg", photograph.corners, *tape)
    answer = json.loads(result.output)
    assert result.exit_code == 0
    layout = [answer[key] for key in ("setting", "sashing", "columns", "rows")]
    assert layout == ["straight", "framed", 3, 4]
    (turned,) = answer["turned"]
    assert (turned["column"] - 1, turned["row"] - 1) == photograph.plan.turned
    assert turned["turn"] in photograph.plan.answers
    assert all(set(colour) == {"name", "hex", "share"} for colour in answer["colours"])
    assert 0.5 < sum(colour["share"] for colour in answer["colours"]) <= 1.01


def test_corners_are_those_of_the_picture_as_it_is_looked_at(photograph, tmp_path):
    """A camera held on its side writes the picture on its side, and how to turn it."""
    picture = Image.open(io.BytesIO(photograph.data))
    exif = Image.Exif()
    exif[0x0112] = 6
    on_its_side = picture.transpose(Image.Transpose.ROTATE_90)
    on_its_side.save(tmp_path / "quilt.jpg", quality=85, exif=exif)
    answer = json.loads(asked(tmp_path / "quilt.jpg", photograph.corners).output)
    assert (answer["columns"], answer["rows"]) == (3, 4)


def test_without_a_repeat_the_layout_is_null(tmp_path):
    crazy = simulator.without_repeat(1, "crazy", side=800)
    (tmp_path / "crazy.jpg").write_bytes(crazy.data)
    answer = json.loads(asked(tmp_path / "crazy.jpg", crazy.corners).output)
    assert [answer[key] for key in ("setting", "sashing", "columns", "rows")] == [None] * 4
    assert answer["turned"] == []


@pytest.mark.parametrize(
    "content", [b"no picture", b"\xff\xd8\xff\xe0", None], ids=["text", "cut short", "missing"]
)
def test_a_file_that_cannot_be_read_ends_in_a_sentence(content, tmp_path):
    if content is not None:
        (tmp_path / "quilt.jpg").write_bytes(content)
    result = CliRunner().invoke(main, ["photo", str(tmp_path / "quilt.jpg"), "--corners", *CORNERS])
    assert result.exit_code == 1
    assert result.stderr.startswith("Error: ")
    assert result.stderr.rstrip().endswith(".")
    assert not result.stdout


def test_corners_that_cross_are_refused(tmp_path):
    Image.new("RGB", (100, 100)).save(tmp_path / "quilt.png")
    crossed = ["0,0", "99,99", "99,0", "0,99"]
    file = str(tmp_path / "quilt.png")
    result = CliRunner().invoke(main, ["photo", file, "--corners", *crossed])
    assert result.exit_code == 1
    assert "clockwise" in result.stderr
