"""Lists to carry: steps to tick, values, press, hardware; and walls drawn to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.collection.exhibits.shows import days_of
from catalogue.collection.records import Exhibit
from catalogue.collection.settings import Settings
from catalogue.exhibits.cautions import cautions_for
from catalogue.exhibits.checklists import Step
from catalogue.exhibits.elevation import draw_elevation
from catalogue.exhibits.elevation_words import describe_elevation
from catalogue.exhibits.hardware import Hardware
from catalogue.exhibits.walls import HangingPlan
from catalogue.printing.kinds import PAPERS
from catalogue.printing.typeset import typeset

TICK = "[ ]"


@dataclass(frozen=True)
class Listing:
    """A list: what it is called, its columns with their widths in inches (0: what is left)."""

    name: str
    heads: tuple[str, ...]
    widths: tuple[float, ...]
    rows: tuple[tuple[str, ...], ...]
    cautions: tuple[tuple[str, str], ...] = ()
    foot: str = ""

    @classmethod
    def of_steps(cls, name: str, place: str, steps: Sequence[Step]) -> Listing:
        """Return steps to tick, with the cautions of their place."""
        rows = tuple((TICK, str(step.number), step.says) for step in steps)
        return cls(name, ("done", "", "step"), (0.5, 0.4, 0), rows, cautions_on_paper(place))

    @classmethod
    def of_values(cls, rows: Sequence[Sequence[str]]) -> Listing:
        """Return the insurance list."""
        return cls(
            "Insurance list",
            ("no.", "quilt", "owner", "length x width", "value"),
            (0.4, 0, 1.2, 1.5, 1.6),
            tuple(tuple(row) for row in rows),
            cautions_on_paper("insurance list"),
            "Not legal or tax advice; values here are not appraisals.",
        )

    @classmethod
    def of_press(cls, rows: Sequence[Sequence[str]]) -> Listing:
        """Return what the press may be told."""
        return cls(
            "For the press",
            ("no.", "quilt", "maker", "date", "picture credit"),
            (0.4, 0, 1.6, 1.4, 1.6),
            tuple(tuple(row) for row in rows),
        )

    @classmethod
    def of_hardware(cls, lines: Sequence[Hardware]) -> Listing:
        """Return sleeves, rods and heights, wall by wall."""
        rows = tuple(
            (TICK, line.wall, f"{line.number}. {line.title}", "\n".join(line.says()))
            for line in lines
        )
        heads = ("", "wall", "quilt", "heights, sleeve and rod")
        return cls("Hardware", heads, (0.35, 1.0, 1.7, 0), rows, cautions_on_paper("hardware list"))


def print_list(listing: Listing, show: Exhibit, house: Settings, paper: str) -> bytes:
    """Return a list of an exhibit as PDF. Raises TypesettingError."""
    return print_listing(listing, show.title, _when(show), house, paper)


def print_listing(listing: Listing, of: str, subtitle: str, house: Settings, paper: str) -> bytes:
    """Return a list of whatever bears the title `of` as PDF. Raises TypesettingError."""
    width, height = PAPERS[paper]
    job = {
        "title": f"{listing.name}: {of}",
        "subtitle": subtitle,
        "house": house.name,
        "paper": {"width": width, "height": height},
        "heads": listing.heads,
        "widths": listing.widths,
        "rows": listing.rows,
        "cautions": [{"title": title, "says": says} for title, says in listing.cautions],
        "foot": listing.foot,
    }
    return typeset("list.typ", job, {}, "pdf")


def print_walls(plan: HangingPlan, show: Exhibit, house: Settings, paper: str) -> bytes:
    """Return the elevation of each wall on a page of its own, the paper laid on its side."""
    width, height = PAPERS[paper]
    pictures: dict[str, bytes] = {}
    walls: list[dict[str, Any]] = []
    for number, wall in enumerate(plan.walls):
        drawn = draw_elevation(wall.name, plan, prefix=f"wall{number}", plain_colours=True)
        pictures[f"wall-{number}.svg"] = drawn.encode()
        words = describe_elevation(wall.name, plan, "in")
        walls.append({"name": wall.name, "drawing": f"wall-{number}.svg", "words": words})
    job = {
        "title": f"Walls: {show.title}",
        "subtitle": _when(show),
        "house": house.name,
        "paper": {"width": height, "height": width},
        "walls": walls,
    }
    return typeset("walls.typ", job, pictures, "pdf")


def cautions_on_paper(place: str) -> tuple[tuple[str, str], ...]:
    """Return the cautions of a place, each as its title and everything it says."""
    return tuple((c.title, " ".join((c.says, *c.do))) for c in cautions_for(place))


def _when(show: Exhibit) -> str:
    return "\n".join(part for part in (show.venue, days_of(show)) if part)
