"""Figures that tests count, printed when all have run: what held, and how often it was tried."""

from __future__ import annotations

from collections.abc import Callable

import pytest

_FIGURES: list[str] = []


@pytest.fixture
def figures() -> Callable[[str], None]:
    """Takes a line to be printed at the end of the run."""
    return _FIGURES.append


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the figures."""
    if _FIGURES:
        terminalreporter.section("figures")
        for line in _FIGURES:
            terminalreporter.write_line(line)
