"""The three laws of the house, read from the imports of every module.

1. Subjects import the standard library, `catalogue.values` and their own general-purpose library.
2. `collection` knows no web, and nothing but `collection` opens SQLite, Whoosh or writes SQL.
3. The direction is: web, commands -> printing, exchange -> collection -> subjects -> values.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "catalogue"

SUBJECTS = (
    "measurement",
    "dating",
    "provenance",
    "description",
    "photographs",
    "patterns",
    "exhibits",
)
# What each folder may import of the catalogue, besides itself, and of general-purpose libraries.
MAY_IMPORT: dict[str, tuple[set[str], set[str]]] = {
    "values": (set(), {"edtf"}),
    **{subject: ({"values"}, set()) for subject in SUBJECTS},
    "photographs": ({"values"}, {"PIL", "numpy", "pi_heif"}),
    "collection": (
        {"values", *SUBJECTS},
        {"sqlite_utils", "whoosh", "numpy", "argon2", "zxcvbn"},
    ),
    "printing": (
        {"values", *SUBJECTS, "collection", "shipped"},
        {"typst", "segno", "fontTools", "markdown", "nh3"},
    ),
    "exchange": ({"values", *SUBJECTS, "collection", "shipped"}, set()),
    "web": (
        {"values", *SUBJECTS, "collection", "printing", "exchange", "shipped"},
        {
            *("flask", "flask_login", "flask_wtf", "werkzeug", "wtforms", "markupsafe"),
            *("itsdangerous", "markdown", "nh3"),
            "sqlite_utils",  # the type Database alone
        },
    ),
}
# The modules beside the folders: the commands and what they start.
TOP = {"cli", "serving", "demonstration", "shipped", "__init__"}


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def name_of(path: Path) -> str:
    return str(path.relative_to(PACKAGE))


def imports(path: Path) -> Iterator[str]:
    """Yield the dotted name of everything a module imports, also inside functions."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name_of(path)}: relative imports hide the direction"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def test_every_folder_of_the_package_is_known_to_the_laws() -> None:
    folders = {path.name for path in PACKAGE.iterdir() if (path / "__init__.py").exists()}
    assert folders <= MAY_IMPORT.keys()
    assert {path.stem for path in PACKAGE.glob("*.py")} == TOP


@pytest.mark.parametrize("path", modules(), ids=name_of)
def test_a_module_imports_only_what_its_folder_may(path: Path) -> None:
    folder = path.relative_to(PACKAGE).parts[0]
    if folder.removesuffix(".py") in TOP:
        return  # the commands may import everything
    of_catalogue, libraries = MAY_IMPORT[folder]
    for name in imports(path):
        top, *rest = name.split(".")
        if top == "catalogue":
            assert rest, "the bare package holds nothing"
            assert rest[0] == folder or rest[0] in of_catalogue, f"{folder} imports {name}"
        elif top not in sys.stdlib_module_names:
            assert top in libraries, f"{folder} imports {name}"


_SQL = re.compile(
    r"\bSELECT\b.+\bFROM\b|\bINSERT\s+(OR\s+\w+\s+)?INTO\b|\bUPDATE\s+\"?\w+\"?\s+SET\b|\bDELETE\s+FROM\b",
    re.DOTALL,
)


@pytest.mark.parametrize("path", modules(), ids=name_of)
def test_only_the_collection_speaks_to_sqlite_and_whoosh(path: Path) -> None:
    if path.relative_to(PACKAGE).parts[0] == "collection":
        return
    source = path.read_text("utf-8")
    assert not _SQL.search(source), "SQL is written in collection/ alone"
    for name in imports(path):
        assert name.split(".")[0] not in ("sqlite3", "whoosh"), name
        if name.startswith("sqlite_utils"):
            assert name == "sqlite_utils.Database"


def test_whoosh_is_touched_in_one_module() -> None:
    touching = [name_of(p) for p in modules() if any(n.startswith("whoosh") for n in imports(p))]
    assert touching == ["collection/search/fulltext.py"]


def test_the_edtf_library_stands_behind_one_module() -> None:
    touching = [name_of(p) for p in modules() if any(n.split(".")[0] == "edtf" for n in imports(p))]
    assert touching == ["values/edtf_guard.py"]


_REACHING_OUT = {"os", "shutil", "tempfile", "subprocess", "socket", "urllib", "http", "sqlite3"}
_WRITING = {"write_text", "write_bytes", "mkdir", "unlink", "rename", "replace_file", "touch"}


@pytest.mark.parametrize(
    "path",
    [p for p in modules() if p.relative_to(PACKAGE).parts[0] in (*SUBJECTS, "values")],
    ids=name_of,
)
def test_a_subject_touches_nothing_but_its_packaged_data(path: Path) -> None:
    """Files are opened only by paths that begin at the module's own `__file__`."""
    assert not {name.split(".")[0] for name in imports(path)} & _REACHING_OUT
    source = path.read_text("utf-8")
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call):
            assert not (isinstance(node.func, ast.Name) and node.func.id == "open")
            if isinstance(node.func, ast.Attribute):
                assert node.func.attr not in _WRITING
                if node.func.attr in ("read_text", "read_bytes", "open", "glob"):
                    assert (
                        "__file__" in source or "importlib.resources" in source or "Image" in source
                    )
