"""Texts that tell of several phases of making at once: "top 1935; quilted 1972"."""

from __future__ import annotations

import re

MOST_PIECES = 10
"""Pieces between commas, semicolons and "and" that are tried; longer texts are stories."""

_WORD = (
    r"(?:(?:hand|machine)[ -])?(?:(?:quilt )?tops?|fronts?|blocks?|centre|center|fabrics?|designed"
    r"|cut|pieced|piecing|patchwork|sewn|sewing|stitched|appliqu(?:e|é)d?|embroider(?:ed|y)"
    r"|set|assembled|joined|border(?:s|ed)?|layered|basted|tied|tying|quilted|quilting|batting"
    r"|back(?:ed|ing)?|lined|lining|bound|binding|begun|began|started|finished|completed|made"
    r"|label(?:led|ed)?|signed|inscribed|repaired|repairs?|restored|rebound|re-?quilted)"
)
_LABEL = rf"{_WORD}(?:(?:,? and|,| &|/) ?{_WORD})*"
_WHEN = r"(?:.*(?:[0-9]|century|undated|n\.d).*)"
_LABEL_FIRST = re.compile(
    rf"(?:the )?(?P<label>{_LABEL})(?: (?:was|were))?(?::| -|,)? ?(?P<date>{_WHEN})",
    re.IGNORECASE,
)
_LABEL_LAST = re.compile(
    rf"(?P<date>.*(?:[0-9]|century|undated|n\.d)[^ ]*?)[:,]? (?P<label>{_LABEL})", re.IGNORECASE
)
_BREAK = re.compile(r"(?: ?[;,/] ?(?:and |then )?| and | then )", re.IGNORECASE)


def phase_texts(text: str) -> tuple[tuple[str, str], ...]:
    """What was done and when it is said to have been done, phase by phase; empty if not so told."""
    text = text.replace("(", "").replace(")", "")
    breaks = list(_BREAK.finditer(text))
    if len(breaks) >= MOST_PIECES:
        return ()
    starts = [0, *(found.end() for found in breaks)]
    ends = [*(found.start() for found in breaks), len(text)]
    return _phases(text, starts, ends)


def _phases(text: str, starts: list[int], ends: list[int]) -> tuple[tuple[str, str], ...]:
    for i, end in enumerate(ends):
        phase = _phase(text[starts[0] : end].strip(" ."))
        if phase is None:
            continue
        if i + 1 == len(ends):
            return (phase,)
        others = _phases(text, starts[i + 1 :], ends[i + 1 :])
        if others:
            return (phase, *others)
    return ()


def _phase(text: str) -> tuple[str, str] | None:
    found = _LABEL_FIRST.fullmatch(text) or _LABEL_LAST.fullmatch(text)
    if found is None or _BREAK_BEFORE_LABEL.search(found["date"]):
        return None
    return found["label"].lower(), found["date"].strip()


_BREAK_BEFORE_LABEL = re.compile(rf"\b{_WORD}\b", re.IGNORECASE)
