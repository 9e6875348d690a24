"""The archive copy: a bag for keeping elsewhere, that can be read without this program too.

Besides the database and the photographs it holds every record as a line of JSON. What only this
house's running needs, who may sign in, is left out of it.
"""

from __future__ import annotations

import json
from pathlib import Path

from sqlite_utils import Database

from catalogue.collection.database import CollectionError, is_current
from catalogue.collection.folder import DATABASE
from catalogue.collection.plain import to_plain
from catalogue.collection.safekeeping import packing
from catalogue.collection.safekeeping.bags import PAYLOAD, Progress
from catalogue.collection.store import load_many
from catalogue.collection.tables import KINDS, TABLE_OF
from catalogue.collection.trouble import explained
from catalogue.collection.whole_files import make_folder, settle, whole_folder, write_whole

_BATCH = 500
_READ_ME = """\
This bag holds the whole record of a quilt collection, packed by BagIt (RFC 8493).

catalogue.db            the record, as an SQLite 3 database (sqlite.org/fileformat.html)
photographs/originals/  the photographs as they were kept, each named by its SHA-256
records/                every record once more as UTF-8 text, one JSON object a line;
                        change.jsonl is the history: who changed what, when, before and after

Lengths are inches, as whole numbers and fractions. A date has the words that were written, its
EDTF (Library of Congress, 2019), and its earliest and latest day. The names of the files of
photographs stand in quilt.jsonl under "photographs", as "file" and "format".

The record names donors, addresses and living people: keep the bag where only those read it who may.
"""


def archive(folder: Path, bag: Path, progress: Progress) -> None:
    """Make an archive copy of a collection in a new folder. Raises CollectionError."""
    if bag.exists():
        raise CollectionError(f"“{bag}” is there already: name a folder that is new.")
    with explained(f"No archive copy was made in “{bag}”"), whole_folder(bag) as making:
        _fill(folder, making, progress)


def _fill(folder: Path, making: Path, progress: Progress) -> None:
    file = making / PAYLOAD / DATABASE
    packing.snapshot(folder, file)
    with packing.opened(file) as database:
        held = packing.contents(database, folder)
        if not is_current(database):
            raise CollectionError("Open the collection once with this version of the catalogue.")
        _write_records(database, making / PAYLOAD / "records")
        _leave_out_accounts(database)
    settle(file)
    write_whole(making / PAYLOAD / "READ_ME.txt", _READ_ME.encode())
    lacking = packing.place_photographs(folder, making, held.originals)
    faults = packing.close(making, held, lacking, progress)
    if faults:
        raise CollectionError(f"No archive copy was made. {faults[0]}")


def _write_records(database: Database, folder: Path) -> None:
    """Write every record as it stands, and the history, as lines of JSON."""
    make_folder(folder)
    for kind in KINDS:
        ids = [r["id"] for r in database.query(f'SELECT id FROM "{TABLE_OF[kind]}" ORDER BY id')]
        with (folder / f"{TABLE_OF[kind]}.jsonl").open("w", encoding="utf-8") as lines:
            for start in range(0, len(ids), _BATCH):
                for record in load_many(database, kind, ids[start : start + _BATCH]):
                    lines.write(_line(to_plain(record)))
    with (folder / "change.jsonl").open("w", encoding="utf-8") as lines:
        for row in database.query("SELECT * FROM change ORDER BY id"):
            both = {name: json.loads(row[name]) for name in ("before", "after")}
            lines.write(_line(row | both))
    for file in folder.iterdir():
        settle(file)


def _line(value: object) -> str:
    return json.dumps(value, ensure_ascii=False) + "\n"


def _leave_out_accounts(database: Database) -> None:
    """Empty the tables of accounts, of who signed in and from where; nothing stays in the file."""
    hanging = [
        name
        for name in database.table_names()
        if any(key.other_table == "account" for key in database.table(name).foreign_keys)
    ]
    for name in (*hanging, "sign_in_attempt", "happening", "account"):
        database.execute(f'DELETE FROM "{name}"')
    database.execute("VACUUM")
