"""The lists of an exhibit: putting up, sending home, insurance, press."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.collection.exhibits.hanging import plan_of, size_to_hang
from catalogue.collection.records import Exhibit, Quilt
from catalogue.collection.related import Related
from catalogue.collection.summary import headline_date, makers_line
from catalogue.exhibits.checklists import (
    QuiltOnShow,
    Step,
    installation_checklist,
    return_checklist,
)
from catalogue.exhibits.hardware import Hardware, hardware
from catalogue.exhibits.walls import PlanError, WallError, say
from catalogue.values.lengths import Unit, format_length


def steps_up(exhibit: Exhibit, quilts: Mapping[int, Quilt], related: Related) -> tuple[Step, ...]:
    """Return the steps of hanging, in the order of the exhibit."""
    return installation_checklist(_on_show(exhibit, quilts, related))


def steps_home(exhibit: Exhibit, quilts: Mapping[int, Quilt], related: Related) -> tuple[Step, ...]:
    """Return the steps of taking down and sending home."""
    return return_checklist(_on_show(exhibit, quilts, related))


def hardware_lines(exhibit: Exhibit, quilts: Mapping[int, Quilt]) -> tuple[Hardware, ...]:
    """Return sleeves, rods and heights of everything that has its place; nothing without a plan."""
    try:
        return hardware(plan_of(exhibit, quilts))
    except (WallError, PlanError):
        return ()


def insurance_rows(
    exhibit: Exhibit, quilts: Mapping[int, Quilt], related: Related
) -> list[list[str]]:
    """Return number, title, owner, size and value of each quilt; for historians alone."""
    rows = []
    for number, quilt in _numbered(exhibit, quilts):
        size = size_to_hang(quilt)
        measured = (
            f"{format_length(size.length)} x {format_length(size.width)}"
            if size is not None
            else ""
        )
        value = f"{quilt.insurance_value} {quilt.insurance_note}".strip() or "no value on record"
        owner = _lender(quilt, related) or "ours"
        rows.append([number, f"{quilt.title}\n{quilt.accession}", owner, measured, value])
    return rows


def press_rows(exhibit: Exhibit, quilts: Mapping[int, Quilt], related: Related) -> list[list[str]]:
    """Return what may be told of each quilt: title, makers, date, picture credit."""
    return [
        [
            number,
            quilt.title,
            makers_line(quilt, related),
            headline_date(quilt),
            "; ".join(dict.fromkeys(_credit(quilt))) or "no picture may be used yet",
        ]
        for number, quilt in _numbered(exhibit, quilts)
        if quilt.published
    ]


def _credit(quilt: Quilt) -> list[str]:
    return [
        f"{photo.photographer}, {photo.rights}".strip(", ")
        for photo in quilt.photographs
        if photo.rights and photo.view == "overall"
    ]


def _numbered(exhibit: Exhibit, quilts: Mapping[int, Quilt]) -> list[tuple[str, Quilt]]:
    shown = [each.quilt for each in exhibit.quilts]
    return [(str(n), quilts[id]) for n, id in enumerate(shown, start=1) if id in quilts]


def _on_show(
    exhibit: Exhibit, quilts: Mapping[int, Quilt], related: Related, unit: Unit = "in"
) -> list[QuiltOnShow]:
    marks = {line.quilt: line for line in hardware_lines(exhibit, quilts)}
    found = []
    for number, quilt in _numbered(exhibit, quilts):
        mark = marks.get(str(quilt.id))
        report = quilt.conditions[-1] if quilt.conditions else None
        lender = _lender(quilt, related)
        found.append(
            QuiltOnShow(
                str(quilt.id),
                quilt.title,
                number,
                quilt.accession,
                mark.wall if mark else "",
                say(mark.upper_edge, unit) if mark else "",
                say(mark.left_edge, unit) if mark else "",
                lender,
                report.hazard if report is not None and report.hazard != "not examined" else "",
                quilt.locations[-1].place if quilt.locations and not lender else "",
            )
        )
    return found


def _lender(quilt: Quilt, related: Related) -> str:
    """Return who lent the quilt, empty where it is the collection's own."""
    if quilt.came_by != "loan" or quilt.donor is None:
        return ""
    return related.parties[quilt.donor].name
