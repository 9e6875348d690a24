"""Markdown as blocks of runs, for print templates that set headings, lists and emphasis."""

from __future__ import annotations

from html.parser import HTMLParser
from typing import Any

import markdown
import nh3

_TAGS = {
    *("p", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "blockquote", "strong", "b"),
    *("em", "i", "a", "br", "pre", "code"),
}
_KIND = {"p": "paragraph", "pre": "paragraph"} | {f"h{n}": "heading" for n in range(1, 7)}
_STYLE = {"strong": "strong", "b": "strong", "em": "emphasis", "i": "emphasis"}

Block = dict[str, Any]


def blocks_of(text: str) -> list[Block]:
    """Return the blocks of a Markdown text: `kind` is paragraph, heading, item or numbered.

    Each has `depth`, counting the lists around it, `number`, its place in a numbered list, and
    `runs` of `text`, `strong` and `emphasis`.
    An address that its link does not show follows it in brackets.
    """
    made = markdown.markdown(text, extensions=["sane_lists", "smarty"])
    reader = _Reader()
    reader.feed(nh3.clean(made, tags=_TAGS, attributes={"a": {"href"}}, link_rel=None))
    reader.close()
    return [block for block in reader.blocks if block["runs"]]


class _Reader(HTMLParser):
    """Gathers blocks from HTML that has been cleaned."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.blocks: list[Block] = []
        self._lists: list[str] = []
        self._numbers: list[int] = []
        self._styles = {"strong": 0, "emphasis": 0}
        self._link = ""
        self._said = ""
        self._begin("paragraph")

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("ul", "ol"):
            self._lists.append("item" if tag == "ul" else "numbered")
            self._numbers.append(0)
        elif tag == "li":
            if self._numbers:
                self._numbers[-1] += 1
            self._begin(self._lists[-1] if self._lists else "item")
        elif tag in _KIND:
            # a paragraph within an item is the item's own text
            if self.blocks[-1]["runs"] or not self._lists:
                self._begin(_KIND[tag])
        elif tag in _STYLE:
            self._styles[_STYLE[tag]] += 1
        elif tag == "a":
            self._link, self._said = dict(attrs).get("href") or "", ""
        elif tag == "br":
            self._say("\n")

    def handle_endtag(self, tag: str) -> None:
        if tag in ("ul", "ol"):
            self._lists.pop()
            self._numbers.pop()
            self._begin("paragraph")
        elif tag in _STYLE:
            self._styles[_STYLE[tag]] -= 1
        elif tag == "a" and self._link:
            if self._link.removeprefix("mailto:") != self._said:
                self._say(f" ({self._link})")
            self._link = ""

    def handle_data(self, data: str) -> None:
        words = data.replace("\n", " ")
        if words.strip() or self.blocks[-1]["runs"]:
            self._said += words
            self._say(words)

    def _begin(self, kind: str) -> None:
        number = self._numbers[-1] if self._numbers else 0
        self.blocks.append({"kind": kind, "depth": len(self._lists), "number": number, "runs": []})

    def _say(self, words: str) -> None:
        styles = {style: count > 0 for style, count in self._styles.items()}
        self.blocks[-1]["runs"].append({"text": words, **styles})
