"""The entry that is printed in most of these tests."""

from __future__ import annotations

import pytest
from paper import full_entry

from catalogue.collection.folder import Collection
from catalogue.printing.entries import Entry


@pytest.fixture
def entry(collection: Collection) -> Entry:
    """A quilt with something to say in every line."""
    return full_entry(collection)
