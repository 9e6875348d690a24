"""What goes into a copy: one moment of the database, and every original photograph.

The order is what makes it consistent: the database first, the photographs after. An original is on
the disk before a record refers to it and no save removes one, so all that this moment of the
database refers to is found. Purging alone removes some; a copy made at that moment says what it
lacks.
"""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from sqlite_utils import Database

from catalogue.collection import settings
from catalogue.collection.damage import damage
from catalogue.collection.database import CollectionError, is_current
from catalogue.collection.folder import DATABASE, open_to_read
from catalogue.collection.photographs import digest_of, original_in
from catalogue.collection.safekeeping import copies
from catalogue.collection.safekeeping.bags import PAYLOAD, Info, Progress, finish_bag
from catalogue.collection.safekeeping.standing import octets_in_words
from catalogue.collection.seals import altered_changes, altered_records
from catalogue.collection.store import now
from catalogue.collection.tables import KINDS, TABLE_OF
from catalogue.collection.whole_files import make_folder, settle

_KEPT = re.compile(r"[0-9a-f]{64}\.[a-z]+")  # how an original is named
# What is left free for the people who go on saving.
RESERVE = 64 * 2**20


def snapshot(folder: Path, file: Path) -> None:
    """Write one moment of a collection's database to a new file, without keeping anybody waiting.

    It goes through SQLite's backup interface (sqlite.org/backup.html), in one step: in WAL mode
    that reads at one moment while others write. Raises CollectionError.
    """
    source = open_to_read(folder)
    make_folder(file.parent)
    target = sqlite3.connect(file, isolation_level=None)
    try:
        refuse_without_room(file.parent, (folder / DATABASE).stat().st_size)
        source.conn.backup(target)
        target.execute("PRAGMA journal_mode = DELETE")  # one file, which opens where none can write
    finally:
        target.close()
        source.close()
    settle(file)
    settle(file.parent)


@contextlib.contextmanager
def opened(file: Path) -> Iterator[Database]:
    """Open a copied database for the time of the block."""
    connection = sqlite3.connect(file, isolation_level=None)
    try:
        yield Database(connection)
    finally:
        connection.close()


def refuse_without_room(folder: Path, needed: int) -> None:
    """Raise CollectionError where a file of this size would leave too little for the others."""
    free = shutil.disk_usage(folder).free
    if free < needed + RESERVE:
        raise CollectionError(
            f"There is not enough room for a copy in “{folder}”: it needs"
            f" {octets_in_words(needed + RESERVE)}, and {octets_in_words(free)} are free."
        )


@dataclass(frozen=True)
class Original:
    """A photograph to be copied: its path below the collection, and the hash it must have."""

    path: str
    digest: str


@dataclass(frozen=True)
class Contents:
    """What a copied database says of itself, what is amiss in it, and what it refers to."""

    about: Info
    findings: tuple[str, ...]
    originals: tuple[Original, ...]


def contents(database: Database, folder: Path) -> Contents:
    """Return what a copied database holds. Raises CollectionError where it is damaged."""
    found = damage(database)
    if found:
        raise CollectionError(f"The database is damaged. {found[0]} The earlier copies stay.")
    return Contents(_about(database), _findings(database), _originals(database, folder))


def _about(database: Database) -> Info:
    house = settings.read(database)
    quilts = database.execute("SELECT count(*) FROM quilt").fetchone()[0]
    return [
        ("Source-Organization", ", ".join(filter(None, [house.name, house.place]))),
        ("External-Description", "The record of a quilt collection, with its photographs."),
        ("Bagging-Date", now()[:10]),
        ("Bag-Software-Agent", f"quilt-catalogue {version('quilt-catalogue')}"),
        (copies.QUILTS, str(quilts)),
    ]


def _findings(database: Database) -> tuple[str, ...]:
    """What is amiss in the record itself, which a copy can only copy."""
    if not is_current(database):
        return ("It is of an older version of the catalogue: its records were not compared.",)
    broken = len(database.execute("PRAGMA foreign_key_check").fetchall())
    found = [f"{broken} references to records that are not there."] * bool(broken)
    for kind in KINDS:
        name = TABLE_OF[kind].replace("_", " ")
        found += [f"The {name} {id} is not as saved." for id in altered_records(database, kind)]
    altered = len(altered_changes(database))
    return (*found, *[f"{altered} entries of the history are not as written."] * bool(altered))


def _originals(database: Database, folder: Path) -> tuple[Original, ...]:
    """Return what the record refers to, and what it once referred to and can be put back."""
    digests = {
        original_in(Path("photographs"), row["file"], row["format"]).as_posix(): row["file"]
        for row in database.query("SELECT DISTINCT file, format FROM photograph")
    }
    for file in (folder / copies.ORIGINALS).rglob("*.*"):
        if _KEPT.fullmatch(file.name):  # what other programs leave there is none of ours
            digests.setdefault(file.relative_to(folder).as_posix(), file.stem)
    return tuple(Original(path, digest) for path, digest in sorted(digests.items()))


def place_photographs(
    folder: Path, making: Path, originals: tuple[Original, ...], earlier: Path | None = None
) -> list[str]:
    """Put every photograph into the copy, and return the names of those that cannot be.

    One that an earlier copy holds becomes a second name of the same file, where the disk can do
    that; it takes no further room.
    """
    lacking = []
    for original in originals:
        place = making / PAYLOAD / original.path
        place.unlink(missing_ok=True)
        make_folder(place.parent)
        if earlier is not None and _linked(earlier / PAYLOAD / original.path, place):
            continue
        if not _copied(folder / original.path, place, original.digest):
            lacking.append(place.name)
    return lacking


def _linked(file: Path, place: Path) -> bool:
    try:
        os.link(file, place)
    except OSError:
        return False
    return True


def _copied(file: Path, place: Path, digest: str) -> bool:
    """Copy a photograph and say whether what arrived is what was once kept."""
    if not file.is_file():
        return False
    refuse_without_room(place.parent, file.stat().st_size)
    shutil.copyfile(file, place)
    settle(place)
    if digest_of(place) == digest:
        return True
    place.unlink()
    return False


def close(making: Path, held: Contents, lacking: list[str], progress: Progress) -> tuple[str, ...]:
    """Write the bag's own files, then read the whole of it anew, and return every fault."""
    said = [f"The photograph {name} is missing or altered." for name in lacking]
    info = [
        *held.about,
        *((copies.LACKS, name) for name in lacking),
        *((copies.FINDING, says) for says in (*held.findings, *said)),
    ]
    finish_bag(making, _digests(making / PAYLOAD), info)
    return tuple(copies.faults_in(making, progress))


def _digests(payload: Path) -> dict[str, str]:
    """Return what the manifest lists; of a photograph the hash is its name."""
    originals = payload / copies.ORIGINALS
    digests = {}
    for path in sorted(payload.rglob("*")):
        if path.is_dir():
            settle(path)
        else:
            known = path.is_relative_to(originals)
            digests[path.relative_to(payload).as_posix()] = path.stem if known else digest_of(path)
    settle(payload)
    return digests
