"""A whole copy becomes a new collection; a damaged one becomes nothing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from stars import originals, untold

from catalogue.cli import main
from catalogue.collection.checking import check
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.safekeeping.copies import Copy
from catalogue.collection.safekeeping.restoring import restore
from catalogue.collection.store import load


def run(*arguments: str | Path) -> str:
    result = CliRunner().invoke(main, [str(each) for each in arguments])
    assert result.exit_code == 0, result.output
    return result.stdout


def test_what_is_restored_has_every_record_and_photograph_and_passes_the_check(
    stars: Collection, copied: Copy, tmp_path: Path
) -> None:
    run("restore", copied.folder, tmp_path / "again")
    assert check(tmp_path / "again") == []
    restored = Collection.open(tmp_path / "again")
    assert load(restored.database, Quilt, 1) == load(stars.database, Quilt, 1)
    assert [file.read_bytes() for file in originals(restored.photographs)] == [
        file.read_bytes() for file in originals(stars.photographs)
    ]
    restored.close()


def test_a_restored_collection_shares_no_file_with_its_copy(copied: Copy, tmp_path: Path) -> None:
    restore(copied.folder, tmp_path / "again", untold)
    assert not {file.stat().st_ino for file in originals(copied.folder)} & {
        file.stat().st_ino for file in originals(tmp_path / "again")
    }


def test_the_key_of_the_sessions_is_another_one(
    stars: Collection, copied: Copy, tmp_path: Path
) -> None:
    restore(copied.folder, tmp_path / "again", untold)
    assert Collection.open(tmp_path / "again").secret() != stars.secret()


def flip_a_byte(copy: Path) -> None:
    file = copy / "data" / "catalogue.db"
    data = bytearray(file.read_bytes())
    data[-100] ^= 1
    file.write_bytes(data)


def add_a_file(copy: Path) -> None:
    (copy / "data" / "photographs" / "more.jpg").write_bytes(b"x")


@pytest.mark.parametrize(
    ("harm", "sentence"),
    [
        (flip_a_byte, "“data/catalogue.db” has been altered or damaged"),
        (lambda copy: originals(copy)[0].unlink(), "is missing"),
        (add_a_file, "“data/photographs/more.jpg” is not listed"),
        (lambda copy: (copy / "manifest-sha256.txt").unlink(), "cannot be read"),
        (lambda copy: (copy / "bag-info.txt").write_text("Quilts: 9"), "“bag-info.txt” has been"),
        (lambda copy: (copy / "bagit.txt").unlink(), "is not a copy"),
    ],
)
def test_a_damaged_copy_is_refused_in_a_sentence_and_leaves_nothing(
    copied: Copy, tmp_path: Path, harm: Callable[[Path], object], sentence: str
) -> None:
    harm(copied.folder)
    with pytest.raises(CollectionError, match=sentence):
        restore(copied.folder, tmp_path / "again", untold)
    assert not (tmp_path / "again").exists()
    assert not list(tmp_path.glob("*.making"))


def test_a_manifest_that_points_outside_the_copy_is_refused(copied: Copy, tmp_path: Path) -> None:
    with (copied.folder / "manifest-sha256.txt").open("a") as lines:
        lines.write(f"{'0' * 64}  data/../../outside\n")
    with pytest.raises(CollectionError, match="not clear: “0000"):
        restore(copied.folder, tmp_path / "again", untold)


def test_a_folder_that_holds_something_is_never_restored_into(copied: Copy, tmp_path: Path) -> None:
    (tmp_path / "again").mkdir()
    (tmp_path / "again" / "letter.txt").write_text("mine")
    with pytest.raises(CollectionError, match="holds something already"):
        restore(copied.folder, tmp_path / "again", untold)
    assert (tmp_path / "again" / "letter.txt").read_text() == "mine"


def test_a_check_of_a_copy_tells_the_truth(copied: Copy) -> None:
    assert check(copied.folder) == []
    flip_a_byte(copied.folder)
    (finding,) = check(copied.folder)
    assert finding.what == "copy"
    assert "catalogue.db" in finding.says


def test_the_command_says_what_it_copied_and_what_was_amiss(stars: Collection) -> None:
    assert "Verified: 2 quilts, 2 photographs" in run("backup", stars.folder)
    originals(stars.photographs)[0].unlink()
    elsewhere = stars.folder.parent / "stick"
    result = CliRunner().invoke(main, ["backup", str(stars.folder), "--into", str(elsewhere)])
    assert result.exit_code == 0
    assert "is missing or altered" in result.stderr
    assert [path.name[:4] for path in elsewhere.iterdir() if path.is_dir()] == ["0001"]


def test_the_command_refuses_what_is_no_collection(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["backup", str(tmp_path)])
    assert result.exit_code == 1
    assert "is not a collection" in result.stderr
