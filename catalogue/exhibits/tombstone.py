"""Tombstone text: the facts of a quilt as a label sets them, line by line, in the usual order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from catalogue.exhibits.wording import (
    HOUSE_WORDING,
    HouseWording,
    Maker,
    maker_words,
    phase_words,
    sentence_case,
)
from catalogue.values.dates import HistoricDate
from catalogue.values.lengths import format_inches, format_length

LineKind = Literal[
    "title", "maker", "place and date", "materials", "size", "credit", "accession", "picture"
]


@dataclass(frozen=True)
class TombstoneFacts:
    """What the label says, as plain values; whatever is empty or None is left out.

    Lengths are inches. `lender` takes the place of the credit line; `lent_anonymously` hides who
    it is. `phases` are (what was done, when) where the quilt was made in more than one go, and
    then take the place of `date`.
    """

    title: str
    makers: tuple[Maker, ...] = ()
    places: tuple[str, ...] = ()
    date: HistoricDate | None = None
    phases: tuple[tuple[str, HistoricDate | None], ...] = ()
    materials: tuple[str, ...] = ()
    techniques: tuple[str, ...] = ()
    length: Fraction | None = None
    width: Fraction | None = None
    credit_line: str = ""
    lender: str = ""
    lent_anonymously: bool = False
    accession: str = ""
    picture_credit: str = ""


@dataclass(frozen=True, slots=True)
class TombstoneLine:
    """One line of the text and what it is, so that a label can set each in its own way."""

    kind: LineKind
    text: str


def tombstone(
    facts: TombstoneFacts, wording: HouseWording = HOUSE_WORDING
) -> tuple[TombstoneLine, ...]:
    """The lines in order: title, maker, place and date, materials and technique, size, credit line
    or lender, accession number, picture credit. Maker and date are always there, if only to say
    that they are not known.
    """
    lines: Sequence[tuple[LineKind, str]] = (
        ("title", facts.title),
        ("maker", maker_words(facts.makers, wording)),
        ("place and date", _place_and_date(facts, wording)),
        ("materials", _materials(facts)),
        ("size", size_words(facts.length, facts.width, wording)),
        ("credit", _credit(facts, wording)),
        ("accession", facts.accession),
        ("picture", _picture(facts.picture_credit, wording)),
    )
    return tuple(TombstoneLine(kind, text) for kind, text in lines if text)


def size_words(
    length: Fraction | None, width: Fraction | None, wording: HouseWording = HOUSE_WORDING
) -> str:
    """Length x width, as museums print it, both named, in inches and centimetres; "" if unknown."""
    parts = {}
    for name, value in (("length", length), ("width", width)):
        if value is not None:
            parts[name] = format_inches(value, nearest=4, typographic=True)
            parts[f"{name}_cm"] = format_length(value, "cm").removesuffix(" cm")
    if length is not None and width is not None:
        return wording("size", "both", **parts)
    if length is not None:
        return wording("size", "length", **parts)
    return wording("size", "width", **parts) if width is not None else ""


def _place_and_date(facts: TombstoneFacts, wording: HouseWording) -> str:
    there = "; ".join(dict.fromkeys(place for place in facts.places if place))
    phases = facts.phases or (("", facts.date),)
    dated = phase_words(phases, wording, opening=not there)
    return f"{there}, {dated}" if there else dated


def _materials(facts: TombstoneFacts) -> str:
    materials, techniques = ", ".join(facts.materials), ", ".join(facts.techniques)
    return sentence_case("; ".join(part for part in (materials, techniques) if part))


def _credit(facts: TombstoneFacts, wording: HouseWording) -> str:
    if facts.lent_anonymously:
        return wording("lent", "anonymous")
    return wording("lent", "named", name=facts.lender) if facts.lender else facts.credit_line


def _picture(name: str, wording: HouseWording) -> str:
    return wording("picture", "credit", name=name) if name else ""
