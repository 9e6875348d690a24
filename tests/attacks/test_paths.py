"""Ways out of the folder: in addresses, in archives, in the files of a sample collection."""

from __future__ import annotations

import hashlib
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from walking import rules
from werkzeug.routing import IntegerConverter

from catalogue import shipped
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import smaller, whole_original
from catalogue.collection.records import Photograph
from catalogue.collection.safekeeping.archiving import archive
from catalogue.collection.safekeeping.restoring import restore
from catalogue.exchange.sample import SampleError, load_sample
from catalogue.photographs.derivatives import PhotographError

WAYS_OUT = (
    *("../secret", "..%2fsecret", "%2e%2e/secret", "%2e%2e%2fsecret", "..%5csecret"),
    *("....//secret", "..;/secret", "%252e%252e%252fsecret", "..%c0%afsecret", "/etc/passwd"),
    *("..%2f..%2f..%2f..%2f..%2fetc%2fpasswd", "secret%00", "%00", "..%2fcatalogue.db"),
    *("file:%2f%2f%2fetc%2fpasswd", "C:%5cWindows%5cwin.ini", "~root", "con", "%ff%fe"),
)


@pytest.mark.parametrize("way", WAYS_OUT)
def test_no_address_leads_out_of_what_is_served(
    unchanged: Flask, reader_of: Callable[[str], FlaskClient], way: str
) -> None:
    key, keeper, asked = unchanged.extensions["collection"].secret(), reader_of("keeper"), 0
    for rule in rules(unchanged, ["GET"]):
        known = rule._converters.items()
        texts = [name for name, each in known if not isinstance(each, IntegerConverter)]
        if rule.endpoint.startswith("sign_in.") or not texts:
            continue
        filled = dict.fromkeys(rule.arguments, 1) | dict.fromkeys(texts, "WAYOUT")
        address = unchanged.url_map.bind("").build(rule.endpoint, filled).replace("WAYOUT", way)
        answer = keeper.get(address)
        assert answer.status_code in (301, 308, 400, 404), address
        assert key not in answer.data
        assert b"SQLite format 3" not in answer.data
        assert b"root:" not in answer.data
        asked += 1
    assert asked > 8


@pytest.mark.parametrize("file", ["../../secret", "/etc/passwd", "..", "a/../../../secret"])
def test_a_record_that_names_a_file_elsewhere_shows_none(hostile: Collection, file: str) -> None:
    photograph = Photograph(file, "jpg", 100, 100)
    with pytest.raises((FileNotFoundError, IsADirectoryError, PhotographError)):
        whole_original(hostile, photograph)
    with pytest.raises((FileNotFoundError, IsADirectoryError, PhotographError)):
        smaller(hostile, photograph, "page", "jpg")


# --- archives ----------------------------------------------------------------------------------


@pytest.fixture
def bag(hostile: Collection, tmp_path: Path) -> Path:
    """An archive copy, to be tampered with; its checksums are made to fit."""
    archive(hostile.folder, tmp_path / "bag", lambda done, total: None)
    return tmp_path / "bag"


def relisted(bag: Path, line: str) -> None:
    """Add a line to the manifest, and make the manifest's own checksum fit again."""
    manifest, tags = bag / "manifest-sha256.txt", bag / "tagmanifest-sha256.txt"
    before = hashlib.sha256(manifest.read_bytes()).hexdigest()
    manifest.write_text(manifest.read_text("utf-8") + line, "utf-8")
    after = hashlib.sha256(manifest.read_bytes()).hexdigest()
    tags.write_text(tags.read_text("utf-8").replace(before, after), "utf-8")


@pytest.mark.parametrize(
    "path",
    [
        *("data/../../evil", "/tmp/evil", "data/photographs/originals/../../../evil", "../evil"),
        *("data\\..\\evil", "C:/evil", "data/photographs/originals/ab/..", "~/evil"),
    ],
)
def test_an_archive_that_names_files_elsewhere_is_not_restored(
    bag: Path, tmp_path: Path, path: str
) -> None:
    (bag / "evil").write_bytes(b"evil")
    relisted(bag, f"{hashlib.sha256(b'evil').hexdigest()}  {path}\n")
    with pytest.raises(CollectionError):
        restore(bag, tmp_path / "new", lambda done, total: None)
    assert not (tmp_path / "new").exists()
    assert not [p for p in tmp_path.rglob("evil") if bag not in p.parents]


def test_a_link_in_an_archive_carries_nothing_in(bag: Path, tmp_path: Path) -> None:
    """A link to a file of this computer would bring that file into the collection's pictures."""
    private = tmp_path / "private"
    private.write_bytes(b"of this computer")
    digest = hashlib.sha256(b"of this computer").hexdigest()
    place = f"data/photographs/originals/{digest[:2]}/{digest}.jpg"
    (bag / place).parent.mkdir(exist_ok=True)
    (bag / place).symlink_to(private)
    relisted(bag, f"{digest}  {place}\n")
    with pytest.raises(CollectionError):
        restore(bag, tmp_path / "new", lambda done, total: None)
    assert not (tmp_path / "new").exists()


def test_a_folder_linked_into_an_archive_carries_nothing_in(bag: Path, tmp_path: Path) -> None:
    private = tmp_path / "private"
    private.mkdir()
    digest = hashlib.sha256(b"of this computer").hexdigest()
    (private / f"{digest}.jpg").write_bytes(b"of this computer")
    folder = bag / f"data/photographs/originals/{digest[:2]}"
    if folder.exists():
        shutil.rmtree(folder)
    folder.symlink_to(private, target_is_directory=True)
    relisted(bag, f"{digest}  data/photographs/originals/{digest[:2]}/{digest}.jpg\n")
    with pytest.raises(CollectionError):
        restore(bag, tmp_path / "new", lambda done, total: None)
    assert not (tmp_path / "new").exists()


def test_an_archive_that_is_as_it_was_made_is_restored(bag: Path, tmp_path: Path) -> None:
    """Without this, the refusals above would say nothing."""
    restore(bag, tmp_path / "new", lambda done, total: None)
    assert (tmp_path / "new" / "catalogue.db").is_file()


@pytest.mark.parametrize(
    "file", ["../outside.jpg", "/etc/hostname", "photographs/../../outside.jpg"]
)
def test_a_sample_collection_reads_pictures_of_its_own_folder_alone(
    collection: Collection, tmp_path: Path, file: str
) -> None:
    sample = tmp_path / "sample"
    shutil.copytree(shipped.folder("sample_collection"), sample)
    picture = next((sample / "photographs").rglob("*.jpg"))
    shutil.copy(picture, tmp_path / "outside.jpg")
    for quilt in (sample / "quilts").glob("*.toml"):
        quilt.unlink()
    (sample / "quilts" / "evil.toml").write_text(
        f'title = "Evil"\n[[photographs]]\nfile = "{file}"\n', "utf-8"
    )
    with pytest.raises(SampleError, match="outside"):
        load_sample(collection, sample, lambda _: None)
