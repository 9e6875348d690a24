"""One process at a time works on a folder; a claim ends with its process, however that ends."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from catalogue.collection.database import CollectionError
from catalogue.collection.safekeeping.claims import claimed

CLAIMING = """
import sys, time
from pathlib import Path
from catalogue.collection.safekeeping.claims import claimed
with claimed(Path(sys.argv[1]), "it is served at http://127.0.0.1:8765/"):
    print("claimed", flush=True)
    time.sleep(60)
"""


def claiming(folder: Path) -> subprocess.Popen[str]:
    process = subprocess.Popen(
        [sys.executable, "-c", CLAIMING, str(folder)], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "claimed\n"
    return process


def test_a_second_claim_is_refused_with_what_the_first_is_doing(tmp_path: Path) -> None:
    process = claiming(tmp_path)
    try:
        with (
            pytest.raises(CollectionError, match=r"in use: it is served at http.* \(process \d+\)"),
            claimed(tmp_path, "another server"),
        ):
            pass
    finally:
        process.kill()
        process.wait()


def test_a_killed_process_leaves_no_claim_behind(tmp_path: Path) -> None:
    process = claiming(tmp_path)
    process.send_signal(signal.SIGKILL)
    process.wait()
    with claimed(tmp_path, "the next"):
        assert "the next" in (tmp_path / "in_use").read_text()


def test_a_claim_ends_with_its_block(tmp_path: Path) -> None:
    for _ in range(2):
        with claimed(tmp_path, "one after the other"):
            pass
