"""What a searcher types, taken apart: words, phrases, words to leave out, fields, years and eras.

Any text is a question; what means nothing is passed over, so nothing typed can be an error.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field

from catalogue.collection.search.searchable import FIELDS, MEMBERS_FIELDS
from catalogue.collection.search.spans import Span, combined, span_at
from catalogue.values.date_policy import DEFAULT_POLICY, DatePolicy

# Other plain names of the fields.
OTHER_NAMES = {
    **{"accession": "number", "quilter": "maker", "block": "pattern", "design": "pattern"},
    **{"publication": "source", "made": "date", "year": "date", "era": "date"},
    **{"material": "cloth", "fabric": "cloth", "fibre": "cloth", "fiber": "cloth"},
    **{"color": "colour", "setting": "technique", "quilting": "technique"},
    **{"inscription": "label", "signature": "label", "provenance": "ownership"},
    **{"owner": "ownership", "kept": "location"},
}
_NAMES = "|".join((*FIELDS, *MEMBERS_FIELDS, *OTHER_NAMES))

_PIECE = re.compile(
    r"(?P<minus>(?<!\S)-)?"
    rf"(?:(?P<field>{_NAMES}):)?"
    r"(?:[\"“”](?P<phrase>[^\"“”]*)[\"“”]?|(?P<word>[^\s\"“”]+))",
    re.IGNORECASE,
)
_LETTER = re.compile(r"[^\W_]")
_MOST_PIECES = 60

# Passed over where more is asked for: nearly every text holds them.
_SMALL_WORDS = frozenset(
    (
        *("a", "an", "and", "are", "as", "at", "by", "for", "from", "in", "is", "made", "of", "on"),
        *("or", "quilts", "that", "the", "their", "to", "was", "were", "with"),
    )
)


@dataclass(frozen=True)
class Part:
    """One thing to look for: a word, or several words in a row; where it was typed."""

    text: str
    field: str | None = None
    excluded: bool = False
    beginning: bool = False
    start: int = dataclass_field(default=0, compare=False)


@dataclass(frozen=True)
class Question:
    """Everything asked for at once: all parts, and any of the spans."""

    parts: tuple[Part, ...] = ()
    spans: tuple[Span, ...] = ()
    passed_over: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.parts or self.spans)

    @property
    def wanted(self) -> tuple[Part, ...]:
        """The parts that a quilt must have."""
        return tuple(part for part in self.parts if not part.excluded)


@dataclass(frozen=True)
class _Piece:
    text: str
    start: int
    field: str | None
    phrase: bool
    excluded: bool

    @property
    def plain(self) -> bool:
        """True where it is a word as in a sentence, so that it may be part of a date."""
        return self.field is None and not self.phrase


def read_question(typed: str, policy: DatePolicy = DEFAULT_POLICY) -> Question:
    """Return what the typed text asks for; `policy` says what vague words of time mean."""
    pieces = list(_pieces(typed))
    parts: list[Part] = []
    spans: list[Span] = []
    place = 0
    while place < len(pieces):
        found = _span(pieces, place, policy)
        if found is not None:
            spans.append(found[0])
            place += found[1]
            continue
        part = _part(pieces[place])
        if part is not None:
            parts.append(part)
        place += 1
    return _without_small_words(tuple(parts), spans)


def _pieces(typed: str) -> Iterator[_Piece]:
    for count, match in enumerate(_PIECE.finditer(typed)):
        if count == _MOST_PIECES:
            return
        phrase = match["phrase"] is not None
        text = match["phrase"] if phrase else match["word"]
        name = match["field"].casefold() if match["field"] else None
        yield _Piece(
            text,
            match.start("phrase" if phrase else "word"),
            OTHER_NAMES.get(name, name) if name else None,
            phrase,
            match["minus"] is not None,
        )


def _span(pieces: list[_Piece], place: int, policy: DatePolicy) -> tuple[Span, int] | None:
    """Return the years that are asked for from this piece on, and how many pieces say so."""
    first = pieces[place]
    if first.field == "date":
        found = span_at(first.text.split(), 0, policy)
        if found is None or found[1] < len(first.text.split()):
            return None
        return replace(found[0], words="", excluded=first.excluded), 1
    if not first.plain:
        return None
    run = [first.text]
    for piece in pieces[place + 1 :]:
        if not piece.plain or piece.excluded:
            break
        run.append(piece.text)
    found = span_at(run, 0, policy)
    return (replace(found[0], excluded=first.excluded), found[1]) if found is not None else None


def _part(piece: _Piece) -> Part | None:
    if not _LETTER.search(piece.text):
        return None
    text = piece.text.rstrip("*")
    beginning = not piece.phrase and piece.text.endswith("*") and len(text) > 1
    return Part(text, piece.field, piece.excluded, beginning, piece.start)


def _without_small_words(parts: tuple[Part, ...], spans: list[Span]) -> Question:
    small = [p for p in parts if p == Part(p.text) and p.text.casefold() in _SMALL_WORDS]
    kept = tuple(part for part in parts if part not in small)
    if not spans and not any(not part.excluded for part in kept):
        kept, small = parts, []
    return Question(kept, combined(spans), tuple(part.text for part in small))
