"""Designs are found in a question by their whole names."""

from __future__ import annotations

import pytest

from catalogue.patterns.asked import designs_asked_for

ASKED = [
    ("variable star", ["Ohio Star"]),
    ("quilts in Ohio Star", ["Ohio Star"]),
    ("jacob's ladder and ohio star", ["Jacob's Ladder", "Ohio Star"]),
    ("star", []),
    ("", []),
]


@pytest.mark.parametrize(("asked", "names"), ASKED)
def test_designs_are_found_by_whole_names(asked: str, names: list[str]) -> None:
    found = [design.name for design in designs_asked_for(asked.split())]
    assert [name for name in names if name in found] == names
    assert bool(found) == bool(names)
