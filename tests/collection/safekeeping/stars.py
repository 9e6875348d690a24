"""What the tests of copies share: pictures, their places, and progress told to nobody."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image


def picture(colour: str = "indigo") -> bytes:
    """A small photograph of one colour."""
    buffer = io.BytesIO()
    Image.new("RGB", (64, 64), colour).save(buffer, "PNG")
    return buffer.getvalue()


def untold(done: int, total: int) -> None:
    """Tell nobody how far the work has come."""


def originals(folder: Path) -> list[Path]:
    """The original photographs of a collection or of a copy."""
    return sorted(folder.rglob("originals/*/*.png"))
