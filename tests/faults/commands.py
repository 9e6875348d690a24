"""The installed commands, run as people run them."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

CATALOGUE = [sys.executable, "-c", "from catalogue.cli import main; main()"]


def run(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Run a command to its end."""
    command = [*CATALOGUE, *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)


@contextmanager
def served(folder: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Serve a collection in a process of its own; yield the process and its address."""
    process = subprocess.Popen(
        [*CATALOGUE, "serve", str(folder), "--port", "0"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env=os.environ | {"PYTHONUNBUFFERED": "1"},
    )
    assert process.stdout is not None
    try:
        line = next(line for line in process.stdout if "Serving at" in line)
        yield process, line.split()[2].rstrip("/")
    finally:
        process.kill()
        process.wait()
