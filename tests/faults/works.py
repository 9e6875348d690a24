"""Work to be killed in the middle: `python works.py KIND FOLDER`, a line for everything confirmed.

Each kind goes on until it is killed. A line is printed once the work it names is confirmed; what
was printed must therefore be found afterwards, whatever moment the kill came.
"""

from __future__ import annotations

import dataclasses
import io
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from PIL import Image

from catalogue.collection import database as opening
from catalogue.collection.database import connect, migrate
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import Phase, Photograph, Quilt
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import load, save, update
from catalogue.collection.whole_files import write_whole

ROWS = 3000  # of the table that migrations move about


def picture(number: int) -> bytes:
    """A photograph that no other number has."""
    buffer = io.BytesIO()
    colour = (number % 256, number // 256 % 256, 99)
    Image.new("RGB", (400, 300), colour).save(buffer, "PNG")
    return buffer.getvalue()


def saving(folder: Path) -> Iterator[int]:
    """Save title, history and eight phases of quilt 1 with one number; index now and then."""
    collection = Collection.open(folder)
    index = SearchIndex(collection)
    database = collection.database
    while True:
        quilt = load(database, Quilt, 1)
        number = int(quilt.title.removeprefix("title")) + 1
        fields = {
            "title": f"title{number}",
            "history": f"history{number}",
            "phases": tuple(Phase("pieced", note=f"note{number}") for _ in range(8)),
        }
        save(database, Quilt, 1, fields, by="Tess", expecting=quilt.revision)
        yield number
        if number % 3 == 0:
            index.catch_up()


def uploading(folder: Path) -> Iterator[str]:
    """Keep photographs and put them on the record of quilt 1; each is named by its hash."""
    collection = Collection.open(folder)
    number = len(load(collection.database, Quilt, 1).photographs)
    while True:
        number += 1
        photograph = keep(collection, picture(number))
        update(collection.database, Quilt, 1, _with(photograph), by="Tess")
        yield photograph.file


def _with(photograph: Photograph) -> Callable[[Quilt], Quilt]:
    def edit(quilt: Quilt) -> Quilt:
        return dataclasses.replace(quilt, photographs=(*quilt.photographs, photograph))

    return edit


def indexing(folder: Path) -> Iterator[int]:
    """Make the index anew, save, bring the index up to date, and so on."""
    collection = Collection.open(folder)
    index = SearchIndex(collection)
    while True:
        index.rebuild()
        for _ in range(3):
            quilt = load(collection.database, Quilt, 1)
            number = int(quilt.title.removeprefix("title")) + 1
            fields = {"title": f"title{number}", "history": f"history{number}"}
            save(collection.database, Quilt, 1, fields, by="Tess", expecting=quilt.revision)
            yield number
            index.catch_up()


def migrating(folder: Path) -> Iterator[int]:
    """Apply one migration after another, each of which moves every row of a table to another."""
    opening._SCHEMA = steps_in(folder)
    database = connect(folder / "catalogue.db")
    step = 1 + max(int(file.stem[:4]) for file in opening._SCHEMA.glob("*.sql"))
    while True:
        write_step(folder, step)
        migrate(database)
        yield step
        step += 1


def steps_in(folder: Path) -> Path:
    """Return the folder of the schema with the further steps, beside the collection."""
    return folder.with_name(f"{folder.name}_schema")


def write_step(folder: Path, step: int) -> None:
    """Write a migration, whole or not at all."""
    sql = f"""
CREATE TABLE moved_{step} (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;
INSERT INTO moved_{step} SELECT id, text FROM moved_{step - 1};
DROP TABLE moved_{step - 1};
"""
    write_whole(steps_in(folder) / f"{step:04}_step.sql", sql.encode())


def prepare_migrating(folder: Path) -> None:
    """Give a collection a table whose rows are to be moved, as the last step of its schema."""
    steps = steps_in(folder)
    steps.mkdir()
    for file in opening._SCHEMA.glob("*.sql"):
        (steps / file.name).write_bytes(file.read_bytes())
    (steps / "9000_step.sql").write_text(
        f"""
CREATE TABLE moved_9000 (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;
INSERT INTO moved_9000
  WITH RECURSIVE counted(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM counted WHERE n < {ROWS})
  SELECT n, 'row ' || n FROM counted;
"""
    )


def backing_up(folder: Path) -> Iterator[str]:
    """Make one copy after another, with a save and a photograph in between."""
    for _ in uploading(folder):
        yield make_copy(folder, folder / "backups", lambda done, total: None).folder.name


WORKS: dict[str, Callable[[Path], Iterator[object]]] = {
    "saving": saving,
    "uploading": uploading,
    "indexing": indexing,
    "migrating": migrating,
    "backing up": backing_up,
}

if __name__ == "__main__":
    for confirmed in WORKS[sys.argv[1]](Path(sys.argv[2])):
        print(confirmed, flush=True)
