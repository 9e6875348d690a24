"""Photographs on disk: each original once, under its hash, with the smaller pictures beside it."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from catalogue.collection.folder import Collection
from catalogue.collection.records import Photograph
from catalogue.collection.whole_files import write_whole
from catalogue.photographs.derivatives import SIZES, PhotographError, derive, examine

SUFFIX = {"WEBP": "webp", "JPEG": "jpg"}


def keep(collection: Collection, data: bytes) -> Photograph:
    """Keep an original and its smaller pictures, and return the photograph to add to a record.

    A file that is already there is not kept twice; a damaged one is replaced. The original is
    written last, so that one that exists is whole and has its smaller pictures. Raises
    PhotographError; nothing is kept then.
    """
    examined = examine(data)
    digest = hashlib.sha256(data).hexdigest()
    original = original_in(collection.photographs, digest, examined.suffix)
    if not original.exists() or digest_of(original) != digest:
        try:
            _make_smaller(collection, digest, data)
            write_whole(original, data)
        except OSError:  # no room: what was made of it takes none either
            _remove_smaller(collection, digest)
            raise
    return Photograph(digest, examined.suffix, examined.pixels_wide, examined.pixels_high)


def original(collection: Collection, photograph: Photograph) -> Path:
    """Return where the untouched original lies."""
    return original_in(collection.photographs, photograph.file, photograph.format)


def whole_original(collection: Collection, photograph: Photograph) -> Path:
    """Return where the original lies, having compared it with its hash.

    Raises FileNotFoundError where it is missing, PhotographError where it is not what was kept.
    """
    file = original(collection, photograph)
    if digest_of(file) != photograph.file:
        raise PhotographError("The original has been altered or damaged since it was kept.")
    return file


def smaller(collection: Collection, photograph: Photograph, size: str, suffix: str) -> Path:
    """Return a smaller picture's file, made again where it is missing or cut short.

    Raises FileNotFoundError where the original is missing too, PhotographError where it is damaged.
    """
    file = _smaller(collection, photograph.file, size, suffix)
    if not is_whole(file):
        whole = whole_original(collection, photograph)
        _make_smaller(collection, photograph.file, whole.read_bytes())
    return file


def is_whole(file: Path) -> bool:
    """Whether a picture made here is there from its beginning to its end.

    Kills leave none half-made; a damaged disk or a careless copy may.
    """
    if not file.exists():
        return False
    with file.open("rb") as opened:
        head, size = opened.read(12), opened.seek(0, os.SEEK_END)
        opened.seek(max(0, size - 2))
        end = opened.read()
    if file.suffix == ".webp":  # RIFF tells the length of what follows (RFC 9649, from memory)
        return head[:4] == b"RIFF" and int.from_bytes(head[4:8], "little") + 8 == size
    return head[:2] == b"\xff\xd8" and end == b"\xff\xd9"  # ISO/IEC 10918-1, from memory


def forget(collection: Collection, digest: str) -> None:
    """Destroy an original, whatever its format, and its smaller pictures."""
    for file in original_in(collection.photographs, digest, "").parent.glob(f"{digest}.*"):
        file.unlink()
    _remove_smaller(collection, digest)


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


def _remove_smaller(collection: Collection, digest: str) -> None:
    """Remove everything made from an original: smaller pictures, squared-up ones, readings."""
    for file in (collection.photographs / "smaller" / digest[:2]).glob(f"{digest}-*"):
        file.unlink(missing_ok=True)


def _make_smaller(collection: Collection, digest: str, data: bytes) -> None:
    for derivative in derive(data):
        file = _smaller(collection, digest, derivative.size, SUFFIX[derivative.format])
        write_whole(file, derivative.data)
