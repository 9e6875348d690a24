"""Markdown reaches the paper as blocks and runs, and nothing else of it does."""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.printing.blocks import blocks_of

CASES: list[tuple[str, list[tuple[str, int, str]]]] = [
    ("One line.", [("paragraph", 0, "One line.")]),
    ("One\nline.\n\nAnother.", [("paragraph", 0, "One line."), ("paragraph", 0, "Another.")]),
    ("# Head\n\ntext", [("heading", 0, "Head"), ("paragraph", 0, "text")]),
    ("- one\n- two", [("item", 1, "one"), ("item", 1, "two")]),
    ("1. one\n2. two", [("numbered", 1, "one"), ("numbered", 1, "two")]),
    (
        "- one\n\n- two\n\nafter",
        [("item", 1, "one"), ("item", 1, "two"), ("paragraph", 0, "after")],
    ),
    ("- one\n    - inner", [("item", 1, "one"), ("item", 2, "inner")]),
    ("> said", [("paragraph", 0, "said")]),
    ("[here](https://example.org)", [("paragraph", 0, "here (https://example.org)")]),
    ("<https://example.org>", [("paragraph", 0, "https://example.org")]),
    ("a  \nb", [("paragraph", 0, "a\n b")]),
    ("AT&T < B", [("paragraph", 0, "AT&T < B")]),
    ("<script>alert(1)</script>text", [("paragraph", 0, "text")]),
    ("![alt](x.png)", []),
    ("", []),
]


def shape(text: str) -> list[tuple[str, int, str]]:
    return [
        (block["kind"], block["depth"], "".join(run["text"] for run in block["runs"]).strip())
        for block in blocks_of(text)
    ]


@pytest.mark.parametrize(("text", "blocks"), CASES)
def test_markdown_becomes_blocks(text: str, blocks: list[tuple[str, int, str]]) -> None:
    assert shape(text) == blocks


def test_a_numbered_list_counts_on_after_a_list_within_it() -> None:
    text = "1. one\n    - inner\n    - inner too\n2. two\n\nand\n\n1. anew"
    told = [(block["kind"], block["depth"], block["number"]) for block in blocks_of(text)]
    numbered = [(depth, number) for kind, depth, number in told if kind == "numbered"]
    assert numbered == [(1, 1), (1, 2), (1, 1)]


def styled(text: str, style: str) -> list[str]:
    runs: list[dict[str, Any]] = [run for block in blocks_of(text) for run in block["runs"]]
    return [run["text"] for run in runs if run[style]]


def test_stress_is_told_apart_and_may_stand_within_stress() -> None:
    text = "plain **strong *both* strong** *soft*"
    assert styled(text, "strong") == ["strong ", "both", " strong"]
    assert styled(text, "emphasis") == ["both", "soft"]
