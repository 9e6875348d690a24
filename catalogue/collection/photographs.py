"""Photographs on disk: each original once, under its hash, with the smaller pictures beside it."""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path

from catalogue.collection.folder import Collection
from catalogue.collection.records import Photograph
from catalogue.photographs.derivatives import SIZES, derive, examine

SUFFIX = {"WEBP": "webp", "JPEG": "jpg"}


def keep(collection: Collection, data: bytes) -> Photograph:
    """Keep an original and its smaller pictures, and return the photograph to add to a record.

    A file that is already there is not kept twice. The original is written last, so that one that
    exists is whole and has its smaller pictures. Raises PhotographError; nothing is kept then.
    """
    examined = examine(data)
    digest = hashlib.sha256(data).hexdigest()
    original = original_in(collection.photographs, digest, examined.suffix)
    if not original.exists():
        _make_smaller(collection, digest, data)
        _write_whole(original, data)
    return Photograph(digest, examined.suffix, examined.pixels_wide, examined.pixels_high)


def original(collection: Collection, photograph: Photograph) -> Path:
    """Return where the untouched original lies."""
    return original_in(collection.photographs, photograph.file, photograph.format)


def smaller(collection: Collection, photograph: Photograph, size: str, suffix: str) -> Path:
    """Return a smaller picture's file, made again where it is missing.

    Raises FileNotFoundError where the original is missing too, PhotographError where it is damaged.
    """
    file = _smaller(collection, photograph.file, size, suffix)
    if not file.exists():
        _make_smaller(collection, photograph.file, original(collection, photograph).read_bytes())
    return file


def digest_of(file: Path) -> str:
    """Return the SHA-256 of a file, read a piece at a time."""
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def original_in(photographs: Path, digest: str, suffix: str) -> Path:
    """Return where an original lies in a folder of photographs."""
    return photographs / "originals" / digest[:2] / f"{digest}.{suffix}"


def _smaller(collection: Collection, digest: str, size: str, suffix: str) -> Path:
    if size not in SIZES or suffix not in SUFFIX.values():
        raise FileNotFoundError(f"There is no picture of size “{size}” as {suffix}.")
    return collection.photographs / "smaller" / digest[:2] / f"{digest}-{size}.{suffix}"


def _make_smaller(collection: Collection, digest: str, data: bytes) -> None:
    for derivative in derive(data):
        file = _smaller(collection, digest, derivative.size, SUFFIX[derivative.format])
        _write_whole(file, derivative.data)


def _write_whole(file: Path, data: bytes) -> None:
    """Write a file so that it is there whole or not at all, also after a power cut."""
    file.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=file.parent, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as opened:
            opened.write(data)
            opened.flush()
            os.fsync(opened.fileno())
        Path(name).replace(file)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
