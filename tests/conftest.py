"""Collections to test with: an empty one, and the sample collection, in folders of their own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from clients import signed_in
from flask import Flask
from flask.testing import FlaskClient

from catalogue import shipped
from catalogue.collection.folder import Collection
from catalogue.exchange.sample import load_sample
from catalogue.web import create_app

pytest_plugins = ["figures"]


@pytest.fixture
def collection(tmp_path: Path) -> Iterator[Collection]:
    """A new, empty collection."""
    made = Collection.create(tmp_path / "collection")
    yield made
    made.close()


@pytest.fixture
def app(collection: Collection) -> Flask:
    """The application over an empty collection; forms need no token, faults are not hidden."""
    made = create_app(collection)
    made.config.update(TESTING=True, WTF_CSRF_ENABLED=False)
    return made


@pytest.fixture
def visitor(app: Flask) -> FlaskClient:
    """A browser in which nobody is signed in."""
    return app.test_client()


@pytest.fixture
def member(app: Flask) -> FlaskClient:
    """A browser in which the keeper is signed in."""
    return signed_in(app, name="Tess")


@pytest.fixture(scope="session")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Collection]:
    """The sample collection, made once; tests that write to it use `collection` instead."""
    made = Collection.create(tmp_path_factory.mktemp("sample") / "collection")
    load_sample(made, shipped.folder("sample_collection"), lambda _: None)
    yield made
    made.close()


@pytest.fixture(scope="session")
def sample_app(sample: Collection) -> Flask:
    """The application over the sample collection."""
    made = create_app(sample)
    made.config.update(TESTING=True, WTF_CSRF_ENABLED=False)
    return made
