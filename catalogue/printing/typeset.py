"""Typesetting by typst in a process of its own: template, data as JSON and pictures in, paper out.

The records reach the template as data and are never template source, so nothing in them is markup.
A process of its own gives its memory back and cannot take the server down.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from catalogue import shipped

Format = Literal["pdf", "png"]
_SECONDS = 120


class TypesettingError(RuntimeError):
    """The typesetter failed; the message is its own."""


def typeset(
    template: str,
    data: Mapping[str, Any],
    pictures: Mapping[str, bytes],
    format: Format,
    page: int = 1,
) -> bytes:
    """Return the document that a print template makes of the data.

    `template` names a file of `templates/print`, `pictures` are files by the names by which the
    data refers to them. PDF is tagged and declares PDF/UA-1; PNG is one page at 150 dots an inch,
    the last where there are fewer. Raises TypesettingError.
    """
    with tempfile.TemporaryDirectory(prefix="print-") as name:
        folder = Path(name)
        for source in (shipped.folder("templates") / "print").glob("*.typ"):
            shutil.copy(source, folder)
        (folder / "data.json").write_text(json.dumps(data, ensure_ascii=False), "utf-8")
        for file, content in pictures.items():
            (folder / file).write_bytes(content)
        output = folder / f"out.{format}"
        command = [sys.executable, "-m", __name__, str(folder), template, format, str(page)]
        done = subprocess.run(command, capture_output=True, timeout=_SECONDS, check=False)
        if done.returncode != 0 or not output.exists():
            raise TypesettingError(done.stderr.decode("utf-8", "replace").strip()[-2000:])
        return output.read_bytes()


def _compile(folder: Path, template: str, format: str, page: int) -> None:
    """Compile in this process; only what lies in the folder can be read, nothing is downloaded."""
    import typst

    options: dict[str, Any] = (
        {"pdf_standards": ["ua-1"]} if format == "pdf" else {"format": "png", "ppi": 150.0}
    )
    made = typst.compile(
        folder / template,
        root=folder,
        font_paths=[shipped.folder("templates") / "print" / "fonts"],
        ignore_system_fonts=True,
        **options,
    )
    pages = made if isinstance(made, list) else [made]
    (folder / f"out.{format}").write_bytes(pages[min(page, len(pages)) - 1])


if __name__ == "__main__":
    _compile(Path(sys.argv[1]), sys.argv[2], sys.argv[3], int(sys.argv[4]))
