"""An archive copy is a bag that other tools validate, and that can be read without this program."""

from __future__ import annotations

import json
import logging
from pathlib import Path

import bagit
import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from stars import originals, untold

from catalogue.cli import main
from catalogue.collection import accounts
from catalogue.collection.checking import check
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.safekeeping.archiving import archive
from catalogue.collection.safekeeping.copies import Copy

logging.getLogger("bagit").setLevel(logging.CRITICAL)


@pytest.fixture
def bag(stars: Collection, tmp_path: Path) -> Path:
    """An archive copy of a collection that has an account."""
    accounts.add(stars.database, "Zebulon the keeper", "keeper")
    accounts.make_link_token(stars.database, accounts.add(stars.database, "Tess", "historian"))
    archive(stars.folder, tmp_path / "bag", untold)
    return tmp_path / "bag"


def test_the_library_of_congress_s_bagit_validates_an_archive_copy(bag: Path) -> None:
    opened = bagit.Bag(str(bag))
    opened.validate()
    assert opened.info["Quilts"] == "2"
    assert len(opened.payload_entries()) == sum(f.is_file() for f in (bag / "data").rglob("*"))


def test_the_library_of_congress_s_bagit_validates_an_ordinary_copy(copied: Copy) -> None:
    bagit.Bag(str(copied.folder)).validate()


@given(data=some.data())
@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_one_changed_byte_anywhere_is_found_by_us_and_by_them(
    bag: Path, data: some.DataObject
) -> None:
    # Of the tag manifest a letter may change its case, which changes nothing.
    files = [file for file in bag.rglob("*") if file.is_file() and file.stat().st_size]
    files = [file for file in files if file.name != "tagmanifest-sha256.txt"]
    file = data.draw(some.sampled_from(sorted(files)))
    whole = file.read_bytes()
    place = data.draw(some.integers(0, len(whole) - 1))
    changed = bytearray(whole)
    changed[place] ^= 1 << data.draw(some.integers(0, 7))
    file.write_bytes(changed)
    try:
        assert check_fails(bag)
        with pytest.raises((bagit.BagError, UnicodeDecodeError)):
            bagit.Bag(str(bag)).validate()
    finally:
        file.write_bytes(whole)


def check_fails(bag: Path) -> bool:
    try:
        return bool(check(bag))
    except CollectionError:
        return True


def test_every_record_and_its_history_can_be_read_without_this_program(bag: Path) -> None:
    def lines(name: str) -> list[dict[str, object]]:
        text = (bag / "data" / "records" / f"{name}.jsonl").read_text("utf-8")
        return [json.loads(line) for line in text.splitlines()]

    assert [quilt["title"] for quilt in lines("quilt")] == ["Stars", "Bars"]
    assert lines("quilt")[1]["history"] == "From Ada's house"
    assert [entry["by"] for entry in lines("change")] == ["Tess", "Tess"]
    assert "named by its SHA-256" in (bag / "data" / "READ_ME.txt").read_text("utf-8")


def test_no_account_is_left_anywhere_in_an_archive_copy(bag: Path) -> None:
    for file in bag.rglob("*"):
        if file.is_file():
            assert b"Zebulon" not in file.read_bytes(), file


def test_an_archive_copy_can_be_restored(bag: Path, tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["restore", str(bag), str(tmp_path / "again")])
    assert result.exit_code == 0, result.output
    assert check(tmp_path / "again") == []
    assert len(originals(tmp_path / "again")) == 2
    assert not (tmp_path / "again" / "records").exists()


def test_a_folder_that_is_there_is_never_packed_into(stars: Collection, tmp_path: Path) -> None:
    with pytest.raises(CollectionError, match="is there already"):
        archive(stars.folder, tmp_path, untold)
