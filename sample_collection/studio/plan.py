"""What the studio knows of one quilt: the facts of its record and its true finished sizes."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt
from typing import Any

from catalogue.patterns import Draft, design

ROOT2 = sqrt(2)
SIDES = ("left", "right", "top", "bottom")


@dataclass(frozen=True)
class Border:
    """One border: its width, its sides, its cloth and that of its corner squares if it has any."""

    width: float
    sides: tuple[str, ...]
    fabric: str
    corners: str = ""


@dataclass(frozen=True)
class Plan:
    """All that the studio knows of one quilt: the record's facts and the true finished sizes."""

    setting: str
    columns: int
    rows: int
    drafts: tuple[Draft, ...]
    block: tuple[float, float]
    sash: float
    framed: bool
    cornerstones: bool
    borders: tuple[Border, ...]
    binding: float
    signatures: tuple[tuple[str, int, int], ...]
    drawing: dict[str, Any]

    @property
    def fabrics(self) -> dict[str, Any]:
        """The cloth by use: colour roles, sash, triangles, alternates, binding, back."""
        return self.drawing["fabrics"]

    def one(self, use: str, otherwise: str = "muslin") -> str:
        """The single cloth for a use that is not a colour role."""
        return self.fabrics.get(use, otherwise)

    @property
    def field_size(self) -> tuple[float, float]:
        """Width and length of the field inside all borders, in inches."""
        return FIELDS[self.setting](self)

    @property
    def size(self) -> tuple[float, float]:
        """Width and length of the finished quilt, in inches."""
        width, length = self.field_size
        for border in self.borders:
            width += border.width * sum(side in border.sides for side in ("left", "right"))
            length += border.width * sum(side in border.sides for side in ("top", "bottom"))
        edge = 2 * self.binding if not self.drawing.get("binding_within") else 0
        return width + edge, length + edge


def read_plan(record: dict[str, Any], designs: dict[str, str]) -> Plan:
    """The plan in a quilt's record; `designs` gives the drafting slug of each pattern key."""
    drawing = record["drawing"]
    slugs = [designs[kind["pattern"]] for kind in record.get("blocks", ()) if "pattern" in kind]
    widths = drawing.get("borders", [])
    cloth = drawing["fabrics"].get("borders", [])
    corners = drawing["fabrics"].get("border_corners", [])
    borders = tuple(
        Border(
            float(width),
            tuple(each for each in SIDES if not kind["sides"] or each in kind["sides"]),
            cloth[number],
            corners[number] if number < len(corners) else "",
        )
        for number, (kind, width) in enumerate(zip(record.get("borders", ()), widths, strict=True))
    )
    block = drawing.get("block", [0, 0])
    return Plan(
        setting=drawing.get("set", record["setting_seen"]),
        columns=record.get("counted_columns") or 1,
        rows=record.get("counted_rows") or 1,
        drafts=tuple(design(slug).draft for slug in slugs if slug),
        block=(float(block[0]), float(block[-1])),
        sash=float(drawing.get("sash", 0)),
        framed=bool(drawing.get("framed", False)),
        cornerstones=record.get("cornerstones") == "present",
        borders=borders,
        binding=float(drawing.get("binding", 0)),
        signatures=_signatures(record),
        drawing=drawing,
    )


def _signatures(record: dict[str, Any]) -> tuple[tuple[str, int, int], ...]:
    """Text, column and row of every inscription that the record places in a block."""
    placed = [each for each in record.get("inscriptions", ()) if each.get("block")]
    found = [(each["text"].strip(), re.findall(r"\d+", each["block"])) for each in placed]
    return tuple((text, int(column), int(row)) for text, (column, row) in found)


# --- sizes of the field --------------------------------------------------------------------------


def _straight_size(plan: Plan) -> tuple[float, float]:
    more = 1 if plan.framed else -1
    return (
        plan.columns * plan.block[0] + (plan.columns + more) * plan.sash,
        plan.rows * plan.block[1] + (plan.rows + more) * plan.sash,
    )


def _on_point_size(plan: Plan) -> tuple[float, float]:
    pitch = (plan.block[0] + plan.sash) * ROOT2
    return plan.columns * pitch, plan.rows * pitch


def _strippy_size(plan: Plan) -> tuple[float, float]:
    more = 1 if plan.framed else -1
    width = plan.columns * plan.block[0] + (plan.columns + more) * plan.sash
    return width, plan.rows * plan.block[1]


def _bars_size(plan: Plan) -> tuple[float, float]:
    return plan.columns * plan.block[0], plan.block[1]


def _zigzag_size(plan: Plan) -> tuple[float, float]:
    return plan.columns * plan.block[0] * ROOT2, plan.rows * plan.block[0] * ROOT2


def _hexagon_size(plan: Plan) -> tuple[float, float]:
    side = plan.block[0] / 2
    return plan.columns * side * sqrt(3), (1.5 * plan.rows + 0.5) * side


def _given_size(plan: Plan) -> tuple[float, float]:
    return tuple(plan.drawing["field"])  # type: ignore[return-value]


FIELDS: dict[str, Callable[[Plan], tuple[float, float]]] = {
    "straight": _straight_size,
    "on point": _on_point_size,
    "strippy": _strippy_size,
    "bars": _bars_size,
    "zigzag": _zigzag_size,
    "medallion": lambda plan: plan.block,
    "hexagon": _hexagon_size,
    "one-patch": _straight_size,
    "crazy": _given_size,
    "whole cloth": _given_size,
}
