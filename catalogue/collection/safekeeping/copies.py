"""Copies that are there: what each holds, and whether it is whole.

A copy is a BagIt bag with `catalogue.db` and the original photographs, and without the search
index, the smaller pictures (both can be made again) and the key that signs sessions.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from catalogue.collection.damage import damage
from catalogue.collection.database import CollectionError, connect_to_read
from catalogue.collection.folder import DATABASE
from catalogue.collection.photographs import original_in
from catalogue.collection.safekeeping.bags import (
    DECLARATION,
    PAYLOAD,
    BagError,
    Progress,
    bag_faults,
    read_info,
)
from catalogue.collection.safekeeping.rotation import Dated
from catalogue.collection.store import now
from catalogue.collection.whole_files import write_whole

GOING = ".going"  # behind the name of a copy that is being removed
ORIGINALS = "photographs/originals"
LACKS = "Lacks-Photograph"
FINDING = "Finding"
QUILTS = "Quilts"

_VERIFIED = "verified.json"  # beside the bag's own files, which never change
_NAME = re.compile(r"(\d{4,})_(\d{4}-\d\d-\d\dT\d{6}Z)")
_STAMP = "%Y-%m-%dT%H%M%SZ"


@dataclass(frozen=True)
class Verdict:
    """What the last verifying of a copy found: when it was, and every fault in a sentence."""

    at: str
    faults: tuple[str, ...]


@dataclass(frozen=True)
class Copy:
    """One finished copy.

    `findings` are what was amiss in the collection itself when the copy was made: photographs that
    were missing, records that were not as saved. `verdict` is None where nobody has looked yet.
    """

    folder: Path
    number: int
    made: datetime
    quilts: int
    photographs: int
    size: int
    findings: tuple[str, ...]
    verdict: Verdict | None

    @property
    def is_whole(self) -> bool:
        """True where the copy was verified and every byte of it was as it was made."""
        return self.verdict is not None and not self.verdict.faults

    @property
    def dated(self) -> Dated:
        """The copy as the policy of keeping sees it."""
        return Dated(self.number, self.made)


def name_of(number: int, made: datetime) -> str:
    """Return the name of a copy's folder."""
    return f"{number:04}_{made.strftime(_STAMP)}"


def copies_in(folder: Path) -> list[Copy]:
    """Return the finished copies of a folder of copies, the newest first."""
    if not folder.is_dir():
        return []
    found = [copy for path in folder.iterdir() if (copy := copy_at(path)) is not None]
    return sorted(found, key=lambda copy: -copy.number)


def next_number(folder: Path) -> int:
    """Return a number above every copy's, finished or not."""
    names = (path.name for path in folder.iterdir())
    return 1 + max((int(found[1]) for name in names if (found := _NAME.match(name))), default=0)


def copy_at(path: Path) -> Copy | None:
    """Return the copy that a folder holds, None where its name is not that of a finished copy."""
    name = _NAME.fullmatch(path.name)
    if name is None:
        return None
    made = datetime.strptime(name[2], _STAMP).replace(tzinfo=UTC)
    try:
        info = read_info(path)
        told = dict(info)
        size, files = (int(part) for part in told["Payload-Oxum"].split("."))
        quilts = int(told[QUILTS])
    except (BagError, KeyError, ValueError):
        broken = Verdict("", ("What the copy says of itself cannot be read.",))
        return Copy(path, int(name[1]), made, 0, 0, 0, (), broken)
    findings = tuple(value for label, value in info if label == FINDING)
    return Copy(path, int(name[1]), made, quilts, files - 1, size, findings, read_verdict(path))


# --- verifying ---------------------------------------------------------------------------------


def is_copy(path: Path) -> bool:
    """Say whether a folder is a copy or an archive copy, whole or not."""
    return (path / DECLARATION).is_file()


def verify(copy: Path, progress: Progress) -> Verdict:
    """Read a whole copy anew, open its database, and keep beside it what was found."""
    try:
        faults = tuple(faults_in(copy, progress))
    except BagError as error:
        faults = (str(error),)
    return keep_verdict(copy, faults)


def keep_verdict(copy: Path, faults: tuple[str, ...]) -> Verdict:
    """Write beside a copy what a verifying found just now, and return it."""
    verdict = Verdict(now(), faults)
    told = {"at": verdict.at, "faults": list(verdict.faults[:20])}
    write_whole(copy / _VERIFIED, json.dumps(told, ensure_ascii=False, indent=1).encode())
    return verdict


def faults_in(copy: Path, progress: Progress) -> Iterator[str]:
    """Yield everything in a copy that is not as it was made. Raises BagError where it is none."""
    found = False
    for fault in bag_faults(copy, progress):
        found = True
        yield fault.says
    if not found:
        yield from _faults_of_database(copy)


def _faults_of_database(copy: Path) -> Iterator[str]:
    """What is amiss in a copy whose files are all as listed: its database, what it refers to."""
    try:
        database = connect_to_read(copy / PAYLOAD / DATABASE)
    except CollectionError as error:
        yield str(error)
        return
    try:
        found = damage(database)
        yield from found
        if found:
            return
        lacking = {value for label, value in read_info(copy) if label == LACKS}
        for row in database.query("SELECT DISTINCT file, format FROM photograph ORDER BY file"):
            file = original_in(copy / PAYLOAD / "photographs", row["file"], row["format"])
            if file.name not in lacking and not file.is_file():
                yield f"The photograph {row['file'][:12]} is missing."
    finally:
        database.close()


def read_verdict(copy: Path) -> Verdict | None:
    """Return what the last verifying found, None where there is nothing to be read."""
    try:
        told = json.loads((copy / _VERIFIED).read_text("utf-8"))
        return Verdict(told["at"], tuple(told["faults"]))
    except (OSError, ValueError, KeyError, TypeError):
        return None
