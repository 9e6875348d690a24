"""Markdown as plain paragraphs, for paper that has no use for its signs."""

from __future__ import annotations

import html
import re

import markdown
import nh3

_BLOCK_END = re.compile(r"</(p|h[1-6]|li|blockquote|tr)>\s*", re.IGNORECASE)


def plain_paragraphs(text: str) -> str:
    """Return the text of Markdown, a paragraph a line."""
    made = markdown.markdown(text, extensions=["sane_lists", "smarty"])
    marked = _BLOCK_END.sub("\N{PILCROW SIGN}", made)
    bare = html.unescape(nh3.clean(marked, tags=set()))
    paragraphs = (" ".join(part.split()) for part in bare.split("\N{PILCROW SIGN}"))
    return "\n".join(part for part in paragraphs if part)
