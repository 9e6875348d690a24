"""Where the folders lie that are shipped with the program: the templates and the sample collection.

In an installed package they lie inside it, in a working copy beside it.
"""

from __future__ import annotations

from pathlib import Path


def folder(name: str) -> Path:
    """Return a shipped folder. Raises FileNotFoundError, which means a broken installation."""
    package = Path(__file__).parent
    for candidate in (package / name, package.parent / name):
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"The folder “{name}” is missing from this installation.")
