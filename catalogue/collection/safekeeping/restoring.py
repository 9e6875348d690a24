"""Restoring: a copy that is whole becomes a new collection, in a folder that was not there."""

from __future__ import annotations

import shutil
from pathlib import Path

from catalogue.collection.database import CollectionError
from catalogue.collection.folder import DATABASE
from catalogue.collection.photographs import digest_of
from catalogue.collection.safekeeping.bags import (
    PAYLOAD,
    BagError,
    Progress,
    read_manifest,
)
from catalogue.collection.safekeeping.copies import ORIGINALS, faults_in, is_copy
from catalogue.collection.trouble import explained
from catalogue.collection.whole_files import make_folder, settle, whole_folder


def restore(copy: Path, new_folder: Path, progress: Progress) -> None:
    """Make a collection of a copy or an archive copy, all of it or nothing.

    Raises CollectionError where the folder holds something already, where the copy is damaged, or
    where what arrives is not what the copy lists.
    """
    _refuse_occupied(new_folder)
    _refuse_damaged(copy, progress)
    with explained(f"“{copy}” was not restored"), whole_folder(new_folder) as making:
        _carry_over(copy, making)


def _refuse_occupied(folder: Path) -> None:
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CollectionError(f"“{folder}” holds something already: name a folder that is new.")


def _refuse_damaged(copy: Path, progress: Progress) -> None:
    if not is_copy(copy):
        raise CollectionError(f"“{copy}” is not a copy that the catalogue made.")
    try:
        faults = list(faults_in(copy, progress))
    except BagError as error:
        faults = [str(error)]
    if faults:
        more = f" So are {len(faults) - 1} other things." if len(faults) > 1 else ""
        raise CollectionError(f"“{copy}” is damaged and was not restored. {faults[0]}{more}")


def _carry_over(copy: Path, making: Path) -> None:
    """Copy the database and the originals; never as second names of the copy's own files."""
    for path, digest in sorted(read_manifest(copy).items()):
        within = path.removeprefix(f"{PAYLOAD}/")
        if within != DATABASE and not within.startswith(f"{ORIGINALS}/"):
            continue  # what an archive copy holds besides, for readers without this program
        place = making / within
        make_folder(place.parent)
        shutil.copyfile(copy / path, place)
        settle(place)
        if digest_of(place) != digest:
            raise CollectionError(f"“{path}” did not arrive as the copy lists it.")
    for folder in [making, *(path for path in making.rglob("*") if path.is_dir())]:
        settle(folder)
