"""Checklists of hanging a show and of sending it home, composed from plain values, in order."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from pathlib import Path
from string import Formatter
from typing import Literal

_STEPS: dict[str, dict[str, list[str]]] = tomllib.loads(
    Path(__file__).with_name("checklists.toml").read_text("utf-8")
)


@dataclass(frozen=True)
class QuiltOnShow:
    """What a checklist says of one quilt, as text; a step whose part is empty is left out.

    `number` is its place in the exhibit's order; `hazard` is the record's own word (suspected,
    tested, cleared), never one inferred here; `store` is its place at home, empty for loans.
    """

    key: str
    title: str
    number: str
    accession: str = ""
    wall: str = ""
    upper_edge: str = ""
    left_edge: str = ""
    lender: str = ""
    hazard: str = ""
    store: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One line to tick; `quilt` is the key of the quilt it is about, "" where it is about all."""

    number: int
    says: str
    quilt: str = ""


def installation_checklist(quilts: Sequence[QuiltOnShow]) -> tuple[Step, ...]:
    """The steps of hanging, the quilts in the order given: that of the walls."""
    return _numbered("installation", quilts)


def return_checklist(quilts: Sequence[QuiltOnShow]) -> tuple[Step, ...]:
    """The steps of taking down and sending home: loans first, lender by lender, then our own.

    Within a lender the order given is kept.
    """
    lenders = list(dict.fromkeys(quilt.lender for quilt in quilts if quilt.lender))
    ordered = sorted(
        quilts, key=lambda quilt: lenders.index(quilt.lender) if quilt.lender else len(lenders)
    )
    return _numbered("return", ordered)


def _numbered(
    which: Literal["installation", "return"], quilts: Sequence[QuiltOnShow]
) -> tuple[Step, ...]:
    lines = [("", step) for step in _STEPS[which]["before"]]
    for quilt in quilts:
        lines += [(quilt.key, step) for step in _filled(_STEPS[which]["quilt"], quilt)]
    lines += [("", step) for step in _STEPS[which]["after"]]
    return tuple(Step(number, step, key) for number, (key, step) in enumerate(lines, 1))


def _filled(steps: Sequence[str], quilt: QuiltOnShow) -> Iterator[str]:
    parts = {field.name: getattr(quilt, field.name) for field in fields(quilt)}
    parts["title"] = f"“{quilt.title}”" if quilt.title else quilt.key
    for step in steps:
        wanted = [name for _, name, _, _ in Formatter().parse(step) if name]
        if all(parts[name] for name in wanted if name != "accession"):
            yield step.format(**parts).replace(" ()", "")
