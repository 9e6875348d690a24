"""BagIt bags: a folder that says of itself what it holds, file by file, with checksums.

RFC 8493, "The BagIt File Packaging Format (V1.0)", with SHA-256. A writer of our own, because the
hash of every photograph is known before it is packed; that others read what it writes is tested.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from catalogue.collection.database import CollectionError
from catalogue.collection.photographs import digest_of
from catalogue.collection.whole_files import settle, write_whole

PAYLOAD = "data"
DECLARATION = "bagit.txt"
INFO = "bag-info.txt"
MANIFEST = "manifest-sha256.txt"
TAG_MANIFEST = "tagmanifest-sha256.txt"

Info = Sequence[tuple[str, str]]
Progress = Callable[[int, int], None]

_DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
_HASH = re.compile(r"[0-9a-f]{64}")
_LINE = re.compile(r"([0-9a-fA-F]{64})[ \t]+\*?(.+)")


class BagError(CollectionError):
    """A folder that is no bag, or whose manifest cannot be read; the message is one sentence."""


@dataclass(frozen=True)
class Fault:
    """One file of a bag that is not as its manifest says: its path, and one sentence."""

    path: str
    says: str


def finish_bag(bag: Path, digests: Mapping[str, str], info: Info) -> None:
    """Write the tag files round a payload that lies in the bag's `data/` already.

    `digests` gives the SHA-256 of every payload file by its path below `data/`.
    """
    payload = [bag / PAYLOAD / path for path in digests]
    octets = sum(file.stat().st_size for file in payload)
    lines = [*info, ("Payload-Oxum", f"{octets}.{len(payload)}")]
    tags = {
        DECLARATION: _DECLARED,
        INFO: "".join(f"{label}: {' '.join(value.split())}\n" for label, value in lines),
        MANIFEST: _listed({f"{PAYLOAD}/{path}": digest for path, digest in digests.items()}),
    }
    tags[TAG_MANIFEST] = _listed(
        {name: hashlib.sha256(text.encode()).hexdigest() for name, text in tags.items()}
    )
    for name, text in tags.items():
        write_whole(bag / name, text.encode())
    settle(bag)


def _listed(digests: Mapping[str, str]) -> str:
    return "".join(f"{digests[path]}  {path}\n" for path in sorted(digests))


def read_info(bag: Path) -> list[tuple[str, str]]:
    """Return the labels and values of `bag-info.txt`. Raises BagError."""
    lines: list[tuple[str, str]] = []
    for line in _text(bag, INFO).splitlines():
        label, colon, value = line.partition(":")
        if line[:1].isspace() and lines:  # a value that goes on
            lines[-1] = (lines[-1][0], f"{lines[-1][1]} {line.strip()}")
        elif colon:
            lines.append((label.strip(), value.strip()))
    return lines


def read_manifest(bag: Path, name: str = MANIFEST) -> dict[str, str]:
    """Return the digests that a manifest lists, by path within the bag. Raises BagError."""
    digests: dict[str, str] = {}
    for line in _text(bag, name).splitlines():
        found = _LINE.fullmatch(line)
        if found is None or not _stays_inside(found.group(2)):
            raise BagError(f"“{name}” of “{bag}” holds a line that is not clear: “{line[:80]}”.")
        digests[found.group(2)] = found.group(1).lower()
    return digests


def _text(bag: Path, name: str) -> str:
    try:
        return (bag / name).read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BagError(f"“{bag}” is not a whole copy: its “{name}” cannot be read.") from error


def _stays_inside(path: str) -> bool:
    parts = PurePosixPath(path).parts
    return not (path.startswith("/") or ".." in parts or "\\" in path or ":" in path)


def bag_faults(bag: Path, progress: Progress) -> Iterator[Fault]:
    """Yield every file that is missing, altered or not listed, having read them all.

    Raises BagError where the folder is no bag.
    """
    if not _text(bag, DECLARATION).startswith("BagIt-Version: "):
        raise BagError(f"“{bag}” is not a copy made by the catalogue.")
    tags, payload = read_manifest(bag, TAG_MANIFEST), read_manifest(bag)
    yield from (Fault(path, f"“{_short(path)}” is not listed.") for path in _unlisted(bag, payload))
    listed = tags | payload
    for done, (path, digest) in enumerate(sorted(listed.items()), 1):
        file = bag / path
        if not file.is_file() or file.is_symlink():
            yield Fault(path, f"“{_short(path)}” is missing.")
        elif digest_of(file) != digest:
            yield Fault(path, f"“{_short(path)}” has been altered or damaged.")
        progress(done, len(listed))


def _short(path: str) -> str:
    """Return a path with the hashes in it cut to what tells them apart."""
    return _HASH.sub(lambda found: f"{found[0][:12]}…", path)


def _unlisted(bag: Path, listed: Mapping[str, str]) -> list[str]:
    found = (file for file in (bag / PAYLOAD).rglob("*") if file.is_symlink() or file.is_file())
    paths = (file.relative_to(bag).as_posix() for file in found)
    return sorted(path for path in paths if path not in listed)
