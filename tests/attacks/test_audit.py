"""The audit of dependencies fails for a known fault, and says so where nothing could be audited."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path
from types import ModuleType

import pytest

SOUND = {"name": "flask", "version": "3.1.3", "vulns": []}
FAULT = {"id": "PYSEC-0000-1", "fix_versions": ["2.0"], "aliases": [], "description": ""}
FAULTY = {"name": "invented", "version": "1.0", "vulns": [FAULT]}
SKIPPED = {"name": "invented", "skip_reason": "Dependency not found on PyPI"}


@pytest.fixture(scope="module")
def audit() -> ModuleType:
    """The script that the continuous check runs."""
    file = Path(__file__).parents[2] / ".ci" / "audit.py"
    made = importlib.util.spec_from_file_location("audit", file)
    assert made is not None
    assert made.loader is not None
    module = importlib.util.module_from_spec(made)
    made.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("out", "code", "says"),
    [
        (json.dumps({"dependencies": [SOUND]}), 0, "1 packages, no advisory"),
        (json.dumps({"dependencies": [SOUND, SKIPPED]}), 0, "1 unknown to the service"),
        (json.dumps({"dependencies": [SOUND, FAULTY]}), 1, "PYSEC-0000-1, mended in 2.0"),
        (json.dumps({"dependencies": [FAULTY, SKIPPED]}), 1, "invented 1.0"),
        (json.dumps({"dependencies": [SKIPPED]}), 0, "nothing was audited"),
        (json.dumps({"dependencies": []}), 0, "nothing was audited"),
        ("", 0, "nothing was audited"),
        ("ConnectionError: no route to host", 0, "nothing was audited"),
    ],
)
def test_an_audit_is_judged_by_what_it_found(
    audit: ModuleType, out: str, code: int, says: str
) -> None:
    lines, ends = audit.judged(1, out)
    assert ends == code
    assert says in "\n".join(lines)
