"""What the documents promise is there: every folder, every command, nothing of this machine."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from catalogue.cli import main, read

ROOT = Path(__file__).parents[2]
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
README = (ROOT / "README.md").read_text("utf-8")


def test_the_tree_in_the_documents_is_the_tree_on_disk() -> None:
    told = set(re.findall(r"^\| `((?:catalogue/)?\w+)/` \|", DEVELOPERS, re.MULTILINE))
    there = {f"catalogue/{p.parent.name}" for p in (ROOT / "catalogue").glob("*/__init__.py")}
    assert told == there | {"templates", "tests", "sample_collection"}


def test_every_command_is_in_the_readme() -> None:
    commands = [f"catalogue {name}" for name in main.commands if name != "read"]
    commands += [f"catalogue read {name}" for name in read.commands]
    for command in commands:
        assert f"`{command}" in README, command


def test_the_test_command_of_the_readme_is_the_one_that_is_checked_continuously() -> None:
    command = "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/pytest"
    assert command in README
    checked = " && ".join((ROOT / ".ci" / "run").read_text("utf-8").splitlines())
    for part in command.split(" && "):
        assert part in checked


def tracked() -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    ).stdout.split()
    files = (ROOT / name for name in listed)
    return [file for file in files if file.exists() and file.suffix not in (".jpg", ".csv")]


@pytest.mark.skipif(not (ROOT / ".git").exists(), reason="not a working copy")
def test_no_file_names_a_path_of_somebodys_machine() -> None:
    for path in tracked():
        text = path.read_text("utf-8", "replace")
        assert not re.search(r"/home/\w+|/wor[k]/|C:\\Users", text), path
