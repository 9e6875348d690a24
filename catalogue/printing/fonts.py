"""Which letters the fonts of the print templates hold, so that a name that cannot print is said."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from fontTools.ttLib import TTFont

from catalogue import shipped


@lru_cache(maxsize=1)
def letters() -> frozenset[int]:
    """Return the code points that some font of the templates holds."""
    files = (shipped.folder("templates") / "print" / "fonts").glob("*.ttf")
    return frozenset(code for file in files for code in TTFont(file, lazy=True).getBestCmap())


def missing_letters(text: str) -> str:
    """Return the letters of a text that no font holds, each once; empty where all will print."""
    return "".join(
        dict.fromkeys(
            letter
            for letter in text
            if ord(letter) not in letters() and unicodedata.category(letter)[0] not in "CZ"
        )
    )
