"""What a searcher types, taken apart: words, quoted phrases, words to leave out, fields by name.

Any text is a question; what means nothing is passed over, so nothing typed can be an error.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from catalogue.collection.search.searchable import FIELDS

_PIECE = re.compile(
    r"(?P<minus>(?<!\S)-)?"
    rf"(?:(?P<field>{'|'.join(FIELDS)}):)?"
    r"(?:[\"“”](?P<phrase>[^\"“”]*)[\"“”]?|(?P<word>[^\s\"“”]+))",
    re.IGNORECASE,
)
_LETTER = re.compile(r"[^\W_]")


@dataclass(frozen=True)
class Part:
    """One thing to look for: a word, or several words in a row."""

    text: str
    field: str | None = None
    excluded: bool = False
    beginning: bool = False


@dataclass(frozen=True)
class Question:
    """Everything asked for at once."""

    parts: tuple[Part, ...] = ()


def read_question(typed: str) -> Question:
    """Return what the typed text asks for; `-word` leaves out, `quil*` asks for beginnings."""
    return Question(tuple(part for match in _PIECE.finditer(typed) if (part := _part(match))))


def _part(match: re.Match[str]) -> Part | None:
    text = match["phrase"] if match["phrase"] is not None else match["word"]
    if not _LETTER.search(text):
        return None
    field = match["field"].casefold() if match["field"] else None
    beginning = match["phrase"] is None and text.endswith("*") and len(text.rstrip("*")) > 1
    return Part(text.rstrip("*"), field, match["minus"] is not None, beginning)
