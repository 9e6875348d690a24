"""A check tells the truth about a collection and changes nothing in it."""

from __future__ import annotations

import io
import json
import os
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from catalogue.cli import main
from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep, original
from catalogue.collection.records import OwnershipPeriod, Party, Phase, PhaseMaker, Quilt
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add
from catalogue.values.dates import read_date


def picture(colour: str = "indigo") -> bytes:
    buffer = io.BytesIO()
    Image.new("RGB", (64, 64), colour).save(buffer, "PNG")
    return buffer.getvalue()


@pytest.fixture
def whole(collection: Collection) -> Collection:
    """A collection with a photograph and an index, in which nothing is amiss."""
    photograph = keep(collection, picture())
    add(collection.database, Quilt("Stars", photographs=(photograph,)), "Tess")
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    return collection


def whats(collection: Collection) -> list[str]:
    collection.close()
    return [finding.what for finding in check(collection.folder)]


def test_a_whole_collection_is_clean(whole: Collection) -> None:
    assert whats(whole) == []


def test_checking_changes_no_file(whole: Collection) -> None:
    whole.close()
    before = {f: f.read_bytes() for f in whole.folder.rglob("*") if f.is_file()}
    check(whole.folder)
    after = {f: f.read_bytes() for f in whole.folder.rglob("*") if f.is_file()}
    assert {f: b for f, b in after.items() if not f.name.endswith(("-shm", "-wal"))} == {
        f: b for f, b in before.items() if not f.name.endswith(("-shm", "-wal"))
    }


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_write_protected_folder_can_be_checked(whole: Collection) -> None:
    whole.close()
    whole.folder.chmod(0o555)
    try:
        assert check(whole.folder) == []
    finally:
        whole.folder.chmod(0o755)


def test_an_altered_photograph_is_found(whole: Collection) -> None:
    photograph = whole.database.execute("SELECT file, format FROM photograph").fetchone()
    file = next((whole.photographs / "originals").rglob(f"{photograph[0]}.*"))
    file.write_bytes(picture("red"))
    assert whats(whole) == ["photograph"]


def test_a_missing_photograph_is_found(whole: Collection) -> None:
    next((whole.photographs / "originals").rglob("*.png")).unlink()
    assert whats(whole) == ["photograph"]


def test_a_quilt_that_the_index_does_not_hold_is_found(whole: Collection) -> None:
    add(whole.database, Quilt("New"), "Tess")
    assert whats(whole) == ["index"]


def test_a_foreign_file_in_the_index_is_found(whole: Collection) -> None:
    (whole.index / "_MAIN_7.toc").write_bytes(b"no")
    assert whats(whole) == ["index"]


def test_a_broken_reference_is_found(whole: Collection) -> None:
    whole.database.execute("PRAGMA foreign_keys = OFF")
    whole.database.execute("UPDATE quilt SET donor = 99")
    assert whats(whole) == ["reference", "record"]


def test_a_damaged_database_is_said_and_nothing_else_is_trusted(whole: Collection) -> None:
    for n in range(200):
        add(whole.database, Quilt(f"Quilt {n}", history="x" * 2000), "Tess")
    whole.database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    whole.close()
    file = whole.folder / "catalogue.db"
    data = bytearray(file.read_bytes())
    for place in range(40 * 4096, 60 * 4096, 512):
        data[place : place + 64] = b"\xff" * 64
    file.write_bytes(data)
    assert set(whats(whole)) == {"database"}


@pytest.mark.parametrize(
    ("quilt", "born", "died", "sentence"),
    [
        ({"when": "1890"}, "1895", "1960", "was born in 1895, after the work of 1890"),
        ({"when": "1970"}, "1895", "1960", "died in 1960, but the work is dated 1970"),
        ({"when": "1990", "received": "1985"}, "", "", "received 1985, before it was pieced"),
    ],
)
def test_dates_that_cannot_all_be_true_are_found(
    collection: Collection, quilt: dict[str, str], born: str, died: str, sentence: str
) -> None:
    maker = add(
        collection.database,
        Party(
            "Ada Winter",
            born=read_date(born) if born else None,
            died=read_date(died) if died else None,
        ),
        "Tess",
    )
    received = read_date(quilt["received"]) if "received" in quilt else None
    phase = Phase("pieced", read_date(quilt["when"]), makers=(PhaseMaker(maker.id),))
    add(collection.database, Quilt("Stars", received=received, phases=(phase,)), "Tess")
    SearchIndex(collection).catch_up()
    collection.close()
    (finding,) = check(collection.folder)
    assert finding.what == "contradiction"
    assert sentence in finding.says


def test_an_owner_who_gave_it_up_before_having_it_is_found(collection: Collection) -> None:
    period = OwnershipPeriod("Ada", dates="1950 until 1940")
    add(collection.database, Quilt("Stars", ownership=(period,)), "Tess")
    SearchIndex(collection).catch_up()
    assert whats(collection) == ["contradiction"]


def test_the_command_prints_one_object_a_finding(whole: Collection) -> None:
    add(whole.database, Quilt("New"), "Tess")
    whole.close()
    result = CliRunner().invoke(main, ["check", str(whole.folder)])
    assert result.exit_code == 1
    (line,) = result.stdout.splitlines()
    assert json.loads(line).keys() == {"what", "where", "says"}


def test_the_command_says_what_is_no_collection(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["check", str(tmp_path)])
    assert (result.exit_code, result.stdout) == (2, "")
    assert "is not a collection" in result.stderr


def test_a_missing_smaller_picture_is_made_again(whole: Collection) -> None:
    from catalogue.collection.photographs import smaller
    from catalogue.collection.store import load

    photograph = load(whole.database, Quilt, 1).photographs[0]
    file = smaller(whole, photograph, "list", "webp")
    file.unlink()
    assert smaller(whole, photograph, "list", "webp").stat().st_size > 0
    assert original(whole, photograph).read_bytes() == picture()
