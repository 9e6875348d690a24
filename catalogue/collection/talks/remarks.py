"""What a page says to whoever prepares a talk: one sentence, its grounds, and what would help."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Kind = Literal["time", "eras", "makers", "alike", "travel", "pictures", "handling", "cloth"]


@dataclass(frozen=True)
class Offer:
    """A quilt of the collection that would help, by id and title."""

    quilt: int
    title: str


@dataclass(frozen=True)
class Remark:
    """One thing to know about a talk; `serious` is what cannot be done as it is planned."""

    kind: Kind
    says: str
    grounds: str = ""
    serious: bool = False
    offers: tuple[Offer, ...] = ()


def named(titles: Iterable[str]) -> str:
    """Return titles in quotation marks: “Bars”, “Stars” and “Wheels”."""
    *most, last = [f"“{title}”" for title in titles]
    return f"{', '.join(most)} and {last}" if most else last
