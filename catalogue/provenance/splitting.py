"""Where one period ends and the next begins, and where the notes begin.

Source: the museum convention (American Alliance of Museums) as restated in the Art Tracks digital
provenance standard v0.2 (CC0): a semicolon for direct passage, a period otherwise.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import accumulate
from pathlib import Path

from catalogue.provenance.methods import leading_method
from catalogue.provenance.periods import Note

__all__ = [
    "Piece",
    "depths",
    "known_words",
    "matching_bracket",
    "split_notes",
    "split_periods",
    "split_top",
]

_HEADING = re.compile(
    r"(?<!\w)(?P<heading>notes?|footnotes?|authorit(?:y|ies)|citations?)\s*:(?=\s|\[|$)",
    re.IGNORECASE,
)
_ENTRY = re.compile(r"\[(?P<marker>[0-9]{1,3}|[a-z]{1,2})\](?P<point>\.?)(?=\s)")
_MARKERS_BEHIND = re.compile(r"\s*(?:\[(?:[0-9]{1,3}|[a-z]{1,2})\])+(?=\s|$)")
_NEARBY = 80  # signs around a point that decide what it is
_WORD_BEFORE = re.compile(r"[^\s,;()\[\]]+$")
_OPENS, _CLOSES = "([“", ")]”"


@dataclass(frozen=True)
class Piece:
    """The words of one period and the sign that closes it: ";", "." or ""."""

    text: str
    closing: str


@cache
def known_words(group: str) -> frozenset[str]:
    """Return one list of `words.toml`, such as its abbreviations."""
    with (Path(__file__).parent / "words.toml").open("rb") as file:
        table = tomllib.load(file)
    return frozenset(table[group]["words"].split())


def split_notes(text: str) -> tuple[str, tuple[Note, ...]]:
    """Return the paragraph of periods and the entries under Notes, Authorities and Citations."""
    headings = list(_HEADING.finditer(text))
    if not headings:
        return text, ()
    ends = [match.start() for match in headings[1:]] + [len(text)]
    notes: list[Note] = []
    for match, end in zip(headings, ends, strict=True):
        notes.extend(_entries(match["heading"], text[match.end() : end]))
    return text[: headings[0].start()], tuple(notes)


def _entries(heading: str, body: str) -> Iterator[Note]:
    """Yield the entries of one section; words before the first marker are kept a line each."""
    marks = list(_ENTRY.finditer(body + " "))
    if not body.strip():
        yield Note("", "", heading, pointed=False)
    before = body[: marks[0].start()] if marks else body
    for line in filter(None, (" ".join(line.split()) for line in before.splitlines())):
        yield Note("", line, heading, pointed=False)
    ends = [match.start() for match in marks[1:]] + [len(body)]
    for match, end in zip(marks, ends, strict=False):
        words = " ".join(body[match.end() : end].split())
        yield Note(match["marker"], words, heading, pointed=bool(match["point"]))


def split_periods(text: str) -> tuple[Piece, ...]:
    """Return the pieces between semicolons and separating periods, blank ones left out.

    A point that both closes a period and belongs to an abbreviation stays with the words, and
    footnote markers behind the sign belong to the period before it.
    """
    depth = depths(text)
    pieces: list[Piece] = []
    start = 0
    for place, sign in enumerate(text):
        if sign not in ";." or depth[place] or place < start:
            continue
        abbreviates = sign == "." and _after_abbreviation(text, place)
        if sign == "." and not _separates(text[place + 1 : place + _NEARBY], abbreviates):
            continue
        markers = _MARKERS_BEHIND.match(text, place + 1)
        behind = markers[0] if markers else ""
        words = " ".join(f"{text[start : place + abbreviates]} {behind}".split())
        start = place + 1 + len(behind)
        if words.strip(" ,.;"):
            pieces.append(Piece(words, sign))
    rest = " ".join(text[start:].split())
    return (*pieces, Piece(rest, "")) if rest.strip(" ,.;") else tuple(pieces)


def _separates(after: str, abbreviates: bool) -> bool:
    """Tell a closing period from one inside a number or after an abbreviation or an initial.

    After an abbreviation only a capital letter that opens a method or "Possibly" shows that a new
    period begins; at the very end an abbreviation keeps its point.
    """
    markers = _MARKERS_BEHIND.match(after)
    after = after[markers.end() :] if markers else after
    following = after.lstrip()
    if following and (following[0] == "[" or not after[0].isspace()):
        return False
    if not abbreviates:
        return True
    form = leading_method(following)
    opens = following.lower().startswith("possibly ") or " " in form  # "To" may be a surname
    return following[:1].isupper() and opens


def _after_abbreviation(text: str, place: int) -> bool:
    word = _WORD_BEFORE.search(text[max(0, place - _NEARBY) : place])
    return word is not None and _is_abbreviation(word[0].strip("\"'“”‘’"))


def _is_abbreviation(word: str) -> bool:
    last = re.split(r"[-–/&.]", word)[-1]
    return (
        word in known_words("abbreviations")
        or (len(last) == 1 and last.isalpha())
        or last in known_words("abbreviations")
    )


def depths(text: str) -> list[int]:
    """Return for each character how many brackets or quotation marks enclose it.

    Signs without a partner count for nothing, so that one forgotten bracket swallows no text.
    """
    changes = [0] * (len(text) + 1)
    for start, end in _enclosures(text):
        changes[start] += 1
        changes[end + 1] -= 1
    return list(accumulate(changes))[: len(text)]


def _enclosures(text: str) -> Iterator[tuple[int, int]]:
    """Yield the places of each opening sign and of the closing sign that is its partner."""
    opened: list[tuple[str, int]] = []
    for place, sign in enumerate(text):
        if sign == '"':
            sign = "”" if any(kind == "“" for kind, _ in opened) else "“"
        if sign in _OPENS:
            opened.append((sign, place))
        elif sign in _CLOSES:
            wanted = _OPENS[_CLOSES.index(sign)]
            partners = [index for index, (kind, _) in enumerate(opened) if kind == wanted]
            if partners:
                yield opened[partners[-1]][1], place
                del opened[partners[-1] :]


def matching_bracket(text: str) -> int | None:
    """Return the place of the sign that closes the first one, None if none does."""
    return next((end for start, end in _enclosures(text) if start == 0), None)


def split_top(text: str, sign: str = ",") -> list[str]:
    """Split at signs that stand in no bracket and no quotation."""
    depth = depths(text)
    cuts = [place for place, found in enumerate(text) if found == sign and not depth[place]]
    starts = [0, *(place + 1 for place in cuts)]
    return [text[start:end].strip() for start, end in zip(starts, [*cuts, len(text)], strict=True)]
