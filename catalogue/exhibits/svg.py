"""Markup of the exhibit's drawings: numbers, escaped text, and colours by custom property."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape
from typing import Final

PALETTE: Final = {
    "ink": "#3a302b",
    "soft": "#6b5f56",
    "paper": "#fffdf8",
    "wall": "#f6efe2",
    "floor": "#d9c9ae",
    "line": "#a3483c",
    "quilt": "#34557c",
    "quilt-light": "#5f7fa3",
    "on-quilt": "#fdf8ef",
    "figure": "#d8cbb8",
    "grid": "#e4dacd",
    "received": "#34557c",
    "booked": "#8aa5c4",
    "proposed": "#dcae5c",
    "limit": "#a3483c",
}
"""Colours by name; each stands as the custom property --drawing-NAME with this as its fallback."""

_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_PREFIX = re.compile(r"[A-Za-z][A-Za-z0-9_-]{0,63}")
LETTER: Final = 0.56  # average width of a letter of the drawing's type, as a part of its height


class DrawingError(ValueError):
    """The drawing cannot be made; the message says what to change."""


@dataclass(frozen=True, slots=True)
class Pen:
    """The prefix of a drawing's ids, and whether its colours are written without properties."""

    prefix: str
    plain_colours: bool = False

    def __post_init__(self) -> None:
        if not _PREFIX.fullmatch(self.prefix):
            raise DrawingError(
                f"A prefix of ids is a letter, then letters, digits, - or _, not {self.prefix!r}."
            )

    def colour(self, name: str) -> str:
        """The colour as an attribute value."""
        fallback = PALETTE[name]
        return fallback if self.plain_colours else f"var(--drawing-{name},{fallback})"

    def id(self, name: str) -> str:
        """An id that no other drawing on the page has."""
        return f"{self.prefix}-{name}"

    def rect(
        self, x: float, y: float, width: float, height: float, fill: str, more: str = ""
    ) -> str:
        """An upright rectangle in one of the palette's colours."""
        return (
            f'<rect x="{number(x)}" y="{number(y)}" width="{number(width)}"'
            f' height="{number(height)}" fill="{self.colour(fill)}"{_spaced(more)}/>'
        )

    def line(
        self, x1: float, y1: float, x2: float, y2: float, stroke: str, width: float, more: str = ""
    ) -> str:
        """A straight line in one of the palette's colours."""
        return (
            f'<path d="M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}" fill="none"'
            f' stroke="{self.colour(stroke)}" stroke-width="{number(width)}"{_spaced(more)}/>'
        )

    def text(
        self, x: float, y: float, words: str, size: float, fill: str = "ink", more: str = ""
    ) -> str:
        """A line of text, its middle at `x` unless `more` anchors it otherwise."""
        anchor = "" if "text-anchor" in more else ' text-anchor="middle"'
        return (
            f'<text x="{number(x)}" y="{number(y)}" font-size="{number(size)}"{anchor}'
            f' fill="{self.colour(fill)}"{_spaced(more)}>{text_safe(words)}</text>'
        )

    def document(self, title: str, description: str, view: str, body: str) -> str:
        """The whole drawing: an image that screen readers name by its title and description."""
        heads = "".join(
            f'<{tag} id="{self.id(tag)}">{text_safe(text)}</{tag}>'
            for tag, text in (("title", title), ("desc", description))
        )
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="{view}" role="img"'
            f' aria-labelledby="{self.id("title")} {self.id("desc")}"'
            f' font-family="system-ui, sans-serif">{heads}{body}</svg>'
        )


def text_safe(text: str) -> str:
    """The text with markup escaped and characters that XML forbids left out."""
    return escape(_NOT_IN_XML.sub("", text))


def number(value: float) -> str:
    """A coordinate to a hundredth, as short as it can be written."""
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def wrapped(words: str, letters: int, lines: int) -> list[str]:
    """The words in at most so many lines of so many letters; what is left over ends in "…"."""
    found = [""]
    for word in words.split():
        longer = f"{found[-1]} {word}".strip()
        if len(longer) <= letters:
            found[-1] = longer
        elif found[-1]:
            found.append(word)
        else:
            found[-1] = word
    kept = [_shortened(line, letters) for line in found[:lines]]
    if len(found) > lines and not kept[-1].endswith("…"):
        kept[-1] = _shortened(f"{kept[-1]} {' ' * letters}", letters)
    return kept


def _shortened(line: str, letters: int) -> str:
    return line if len(line) <= letters else f"{line[: max(letters - 1, 1)].rstrip()}…"


def _spaced(more: str) -> str:
    return f" {more}" if more else ""
