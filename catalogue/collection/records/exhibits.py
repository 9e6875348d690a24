"""A show: its walls, its quilts, their labels, places and papers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from catalogue.collection.records.photographs import Photograph


@dataclass(frozen=True)
class WallObstacle:
    """Something on a wall that quilts keep clear of; inches from its left end and the floor."""

    kind: str
    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    name: str = ""
    may_be_covered: bool = False
    id: int | None = None


@dataclass(frozen=True)
class ExhibitWall:
    """One stretch of wall between two corners, in inches."""

    name: str
    length: Fraction
    height: Fraction
    obstacles: tuple[WallObstacle, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class ExhibitQuilt:
    """A quilt in an exhibit: its label's text, where it hangs, its papers, its state out and back.

    `x` is its left edge along the wall, `bottom` its lower edge above the floor, in inches; both
    are None where it has no place yet.
    """

    quilt: int
    label_text: str = ""
    wall: str = ""
    x: Fraction | None = None
    bottom: Fraction | None = None
    loan_papers: str = ""
    out_on: str = ""
    out_by: str = ""
    out_grade: str = ""
    out_text: str = ""
    back_on: str = ""
    back_by: str = ""
    back_grade: str = ""
    back_text: str = ""
    photographs: tuple[Photograph, ...] = ()
    id: int | None = None


@dataclass(frozen=True)
class Exhibit:
    """A show: where, when, in what light, on which walls, with which quilts in which order.

    `dark_days` are the weekdays without light, Monday is 0, separated by commas.
    """

    title: str
    text: str = ""
    venue: str = ""
    begins: str = ""
    ends: str = ""
    hours_a_day: float | None = None
    lux: float | None = None
    ultraviolet: float | None = None
    dark_days: str = ""
    published: bool = False
    walls: tuple[ExhibitWall, ...] = ()
    quilts: tuple[ExhibitQuilt, ...] = ()
    put_away: str = ""
    id: int | None = None
    revision: int = 0
