"""A damaged database is said to be damaged; what is damaged is never served as the record.

Four kinds of harm at random places: a page of noise, a sector of noise, 64 bytes of noise, one bit.
SQLite's own check finds the first kind; the seals find the others.
"""

from __future__ import annotations

import random
import re
import shutil
import sqlite3
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from clients import signed_in
from commands import run
from flask.testing import FlaskClient

from catalogue.collection.checking import check
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.web import create_app

PAGE = 4096
# Pages of records, and lists that are counted in SQL without reading the records.
RECORDS = ("/", "/?as=table", *(f"/quilts/{n}" for n in range(1, 25)), "/people/1", "/patterns/1")
COUNTED = ("/people", "/patterns", "/publications", "/eras")
CHANGING = re.compile(r'<p class="notice" role="status">[^<]*</p>|<input[^>]*csrf_token[^>]*>')

Harm = Callable[[bytearray, random.Random], None]


def whole_page(data: bytearray, chance: random.Random) -> None:
    place = PAGE * chance.randrange(1, len(data) // PAGE)
    data[place : place + PAGE] = chance.randbytes(PAGE)


def sector(data: bytearray, chance: random.Random) -> None:
    place = 512 * chance.randrange(8, len(data) // 512)
    data[place : place + 512] = chance.randbytes(512)


def few_bytes(data: bytearray, chance: random.Random) -> None:
    place = chance.randrange(PAGE, len(data) - 64)
    data[place : place + 64] = chance.randbytes(64)


def one_bit(data: bytearray, chance: random.Random) -> None:
    data[chance.randrange(PAGE, len(data))] ^= 1 << chance.randrange(8)


HARMS: tuple[Harm, ...] = (whole_page, sector, few_bytes, one_bit)


class Damaged:
    """A collection that is served while its file is harmed, and what was served before."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._file = folder / "catalogue.db"
        self._collection = Collection.open(folder)
        self._keeper = self._signed_in()
        self._served = {path: self._page(path) for path in (*RECORDS, *COUNTED)}
        self._collection.database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        self._collection.close()
        self._whole = self._file.read_bytes()
        self._content = self._dump()

    def _signed_in(self) -> FlaskClient:
        app = create_app(self._collection)
        app.config.update(PROPAGATE_EXCEPTIONS=False)
        keeper = signed_in(app, name="Tess")
        keeper.get("/")
        return keeper

    def _page(self, path: str) -> str | None:
        """Return what is served, None where nothing is."""
        answer = self._keeper.get(path)
        return CHANGING.sub("", answer.text) if answer.status_code == 200 else None

    def _dump(self) -> str | None:
        try:
            with sqlite3.connect(f"file:{self._file}?mode=ro", uri=True) as database:
                return "\n".join(database.iterdump())
        except (sqlite3.Error, UnicodeDecodeError):
            return None

    def harm(self, harm: Harm, chance: random.Random) -> Counter[str]:
        """Harm the file once, and return what came of it."""
        data = bytearray(self._whole)
        harm(data, chance)
        self._file.write_bytes(data)
        for beside in ("catalogue.db-wal", "catalogue.db-shm"):
            (self.folder / beside).unlink(missing_ok=True)
        harmful = self._dump() != self._content
        try:
            said = bool(check(self.folder))
        except CollectionError:
            said = True
        counts = Counter(harmed=1, changing_something=harmful, changing_and_said=harmful and said)
        for name, paths in (("record", RECORDS), ("count", COUNTED)):
            changed = [p for p in paths if self._page(p) not in (None, self._served[p])]
            counts[f"with a changed {name} served"] += bool(changed)
        self._collection.close()
        return counts


@pytest.fixture(scope="module")
def damaged(sample: Collection, tmp_path_factory: pytest.TempPathFactory) -> Damaged:
    """The sample collection, copied, indexed and served."""
    folder = tmp_path_factory.mktemp("damaged") / "collection"
    sample.database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    shutil.copytree(sample.folder, folder)
    assert run("reindex", folder).returncode == 0
    return Damaged(folder)


def harm_often(
    damaged: Damaged, harm: Harm, times: int, figures: Callable[[str], None]
) -> Counter[str]:
    chance = random.Random(harm.__name__)
    counts: Counter[str] = Counter()
    for _ in range(times):
        counts.update(damaged.harm(harm, chance))
    told = ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in counts.items())
    figures(f"{harm.__name__.replace('_', ' ')}: {told}")
    return counts


def assert_never_served(counts: Counter[str]) -> None:
    assert counts["changing_and_said"] == counts["changing_something"]
    assert counts["with a changed record served"] == 0


@pytest.mark.parametrize("harm", HARMS)
def test_damage_is_said_and_not_served(
    damaged: Damaged, harm: Harm, figures: Callable[[str], None]
) -> None:
    assert_never_served(harm_often(damaged, harm, 3, figures))


@pytest.mark.long
@pytest.mark.parametrize("harm", HARMS)
def test_damage_in_fifty_places_is_said_and_not_served(
    damaged: Damaged, harm: Harm, figures: Callable[[str], None]
) -> None:
    assert_never_served(harm_often(damaged, harm, 50, figures))


def test_a_damaged_database_is_not_served_at_all_and_names_the_remedy(damaged: Damaged) -> None:
    file = damaged.folder / "catalogue.db"
    data = bytearray(file.read_bytes())
    for page in range(20, 60):
        data[page * PAGE : page * PAGE + 200] = b"\xff" * 200
    file.write_bytes(data)
    done = run("serve", damaged.folder, "--port", "0")
    assert done.returncode == 1
    (line,) = done.stderr.splitlines()
    assert "is damaged" in line
    assert "catalogue restore" in line
