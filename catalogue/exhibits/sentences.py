"""The sentences and words of a label text, with its abbreviations, initials and quotations."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

_LISTS: dict[str, list[str]] = tomllib.loads(
    Path(__file__).with_name("abbreviations.toml").read_text("utf-8")
)
_GOES_ON, _MAY_END, _UNITS, _OPENERS = (
    frozenset(_LISTS[name]) for name in ("goes_on", "may_end", "units", "openers")
)
_ENDING = re.compile(r"(?<![.!?…])([.!?…]+)([\"'”’)\]»]*)(\s+|$)")
_PARAGRAPHS = re.compile(r"\n\s*\n|\n(?=\s*[-*•])")
_LAST_WORD = re.compile(r"([^\s\"'“”‘’()\[\]—–-]+)$")
_INITIALS = re.compile(r"(?:[A-Za-z]\.)*[A-Z]")
_AFTER_FIGURE = re.compile(r"[0-9¼½¾⅛⅜⅝⅞] ?[a-z]+$")
_DASHES = re.compile(r"[—–]|--")


def sentences(text: str) -> tuple[str, ...]:
    """The text's sentences in order, each with its punctuation and its white space tidied.

    A blank line ends a sentence; so does a bullet. Abbreviations, initials and decimals do not,
    nor does a question or an exclamation inside a quotation that the sentence goes on after.
    """
    found: list[str] = []
    for paragraph in _PARAGRAPHS.split(text):
        begins = 0
        for match in _ENDING.finditer(paragraph):
            if _ends(paragraph[begins : match.start()], match, paragraph[match.end() :]):
                found.append(paragraph[begins : match.end()])
                begins = match.end()
        found.append(paragraph[begins:])
    tidied = (" ".join(sentence.split()) for sentence in found)
    return tuple(sentence for sentence in tidied if words(sentence))


def words(text: str) -> tuple[str, ...]:
    """The text's words: what stands between spaces or dashes and has a letter or a digit.

    "Hand-quilted", "1935–40" and "83½" are one word each, "&" is none.
    """
    pieces = (piece for part in text.split() for piece in _split_at_dashes(part))
    return tuple(piece for piece in pieces if any(sign.isalnum() for sign in piece))


def _split_at_dashes(part: str) -> list[str]:
    """A dash parts words, but not the years or figures of a span."""
    pieces = _DASHES.split(part)
    if len(pieces) > 1 and all(piece[-1:].isdigit() or piece[:1].isdigit() for piece in pieces):
        return [part]
    return pieces


def _ends(before: str, match: re.Match[str], after: str) -> bool:
    """True where the mark ends its sentence."""
    mark, closing, _ = match.groups()
    following = after.lstrip("\"'“‘([«—–- ")
    if not following:
        return True
    if following[0].islower():
        return False
    if mark != ".":
        return True
    return closing != "" or _may_end_after(before, following)


def _may_end_after(before: str, following: str) -> bool:
    """True where a sentence may end with these words and a point, before what follows."""
    word = _last_word(before)
    plain = word.lower()
    if plain in _GOES_ON:
        return False
    unit = plain in _UNITS and _AFTER_FIGURE.search(before)
    if unit or plain in _MAY_END or _INITIALS.fullmatch(word):
        opener = re.match(r"[^\W\d_]+", following)
        return opener is not None and opener[0].lower() in _OPENERS
    return True


def _last_word(before: str) -> str:
    match = _LAST_WORD.search(before)
    return match[1] if match else ""
