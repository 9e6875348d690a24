"""A collection to attack, with forms that ask for their tokens, and people of every role."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient
from markup import HOSTILE
from planting import plant

from catalogue.collection.folder import Collection
from catalogue.collection.search.indexing import SearchIndex
from catalogue.web import create_app

ROLES = ("volunteer", "historian", "keeper")


@pytest.fixture(scope="session")
def hostile_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A collection in which every text of every record is an attack; copied by whoever writes."""
    folder = tmp_path_factory.mktemp("hostile") / "collection"
    made = Collection.create(folder)
    plant(made, lambda kind, name: HOSTILE)
    plant(made, lambda kind, name: f"quiet {kind} {name}", published=False)
    index = SearchIndex(made)
    index.catch_up()
    index.close()
    made.database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    made.close()
    return folder


@pytest.fixture
def hostile(hostile_folder: Path, tmp_path: Path) -> Iterator[Collection]:
    """A copy of the hostile collection."""
    shutil.copytree(hostile_folder, tmp_path / "hostile")
    opened = Collection.open(tmp_path / "hostile")
    yield opened
    opened.close()


@pytest.fixture
def attacked(hostile: Collection) -> Flask:
    """The application over the hostile collection, with every guard up; a fault is an answer."""
    made = create_app(hostile)
    made.config.update(TESTING=False)
    return made


@pytest.fixture
def client_of(attacked: Flask) -> Callable[[str], FlaskClient]:
    """Makes a browser in which somebody of a role is signed in; "visitor" is nobody."""

    return partial(signed_in, attacked)


@pytest.fixture
def told(hostile: Collection) -> Callable[[], str]:
    """Tells everything the database holds, but for who signed in, tried to, or exported."""

    def dumped() -> str:
        of_sessions = ('INSERT INTO "visit"', 'INSERT INTO "sign_in_')
        database = hostile.database
        return "\n".join(
            line
            for line in database.conn.iterdump()
            if not line.startswith(of_sessions) and "'exported'" not in line
        )

    return dumped


@pytest.fixture(scope="session")
def unchanged(hostile_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """One application for all attacks that only read, so that each need not make its own."""
    folder = tmp_path_factory.mktemp("unchanged") / "collection"
    shutil.copytree(hostile_folder, folder)
    opened = Collection.open(folder)
    yield create_app(opened)
    opened.close()


@pytest.fixture(scope="session")
def reader_of(unchanged: Flask) -> Callable[[str], FlaskClient]:
    """Returns the browser of somebody of a role, over what is never changed."""
    known: dict[str, FlaskClient] = {}

    def browser(role: str) -> FlaskClient:
        if role not in known:
            known[role] = signed_in(unchanged, role)
        return known[role]

    return browser
