"""Collections to test with: an empty one, and the sample collection, each in a folder of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from catalogue.collection.folder import Collection


@pytest.fixture
def collection(tmp_path: Path) -> Iterator[Collection]:
    """A new, empty collection."""
    made = Collection.create(tmp_path / "collection")
    yield made
    made.close()
