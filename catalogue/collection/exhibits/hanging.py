"""The hanging plan of an exhibit: proposed, changed by hand, checked, and what it needs."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from fractions import Fraction

from catalogue.collection.layouts import chosen
from catalogue.collection.measuring import OverallSize, overall_size
from catalogue.collection.records import Exhibit, ExhibitQuilt, ExhibitWall, Quilt
from catalogue.exhibits.findings import Finding
from catalogue.exhibits.hanging import plan_hanging
from catalogue.exhibits.hanging_checks import check_plan, check_walls
from catalogue.exhibits.walls import (
    HangingPlan,
    Obstacle,
    Place,
    PlanError,
    QuiltToHang,
    Wall,
    WallError,
)
from catalogue.values.lengths import Unit


def size_to_hang(quilt: Quilt) -> OverallSize | None:
    """Return the size that the wall sees: adjusted where a layout is accepted, else as measured."""
    standing = chosen(quilt)
    if standing is not None and standing.accepted and not standing.out_of_date:
        adjusted = standing.layout.dimensions.overall
        return OverallSize(_eighths(adjusted.width), _eighths(adjusted.length))
    return overall_size(quilt)


def plan_of(exhibit: Exhibit, quilts: Mapping[int, Quilt]) -> HangingPlan:
    """Return the plan as it stands on record. Raises WallError and PlanError.

    Quilts that were not measured, and places on walls that are gone, are left out of it.
    """
    walls = tuple(_wall(wall) for wall in exhibit.walls)
    names = {wall.name for wall in walls}
    hung = _to_hang(exhibit, quilts)
    keys = {quilt.key for quilt in hung}
    places = tuple(
        Place(str(each.quilt), each.wall, each.x, each.bottom)
        for each in exhibit.quilts
        if each.wall in names and str(each.quilt) in keys
        if each.x is not None and each.bottom is not None
    )
    return HangingPlan(walls, hung, places=places)


def unmeasured(exhibit: Exhibit, quilts: Mapping[int, Quilt]) -> list[Quilt]:
    """Return the quilts that cannot be planned for, because nobody has measured them."""
    return [
        quilts[each.quilt]
        for each in exhibit.quilts
        if each.quilt in quilts and size_to_hang(quilts[each.quilt]) is None
    ]


def proposed(
    exhibit: Exhibit, quilts: Mapping[int, Quilt], unit: Unit
) -> tuple[tuple[ExhibitQuilt, ...], tuple[str, ...]]:
    """Return the exhibit's quilts in the places proposed for them, and what was not placed and why.

    Raises WallError and PlanError.
    """
    walls = [_wall(wall) for wall in exhibit.walls]
    plan = plan_hanging(walls, _to_hang(exhibit, quilts), unit=unit)
    places = {place.quilt: place for place in plan.places}
    placed = tuple(_placed(each, places.get(str(each.quilt))) for each in exhibit.quilts)
    return placed, (*(each.says for each in plan.unplaced), *plan.remarks)


def checked(plan: HangingPlan, unit: Unit) -> tuple[Finding, ...]:
    """Return everything in a plan that breaks its rules, and what stands out from the walls."""
    return (*check_plan(plan, unit), *check_walls(plan.walls, unit=unit))


def _placed(each: ExhibitQuilt, place: Place | None) -> ExhibitQuilt:
    if place is None:
        return dataclasses.replace(each, wall="", x=None, bottom=None)
    return dataclasses.replace(
        each, wall=place.wall, x=Fraction(place.x), bottom=Fraction(place.bottom)
    )


def _wall(wall: ExhibitWall) -> Wall:
    obstacles = tuple(
        Obstacle(
            each.kind,  # type: ignore[arg-type]
            each.x,
            each.y,
            each.width,
            each.height,
            each.name,
            may_be_covered=each.may_be_covered,
        )
        for each in wall.obstacles
    )
    return Wall(wall.name, wall.length, wall.height, obstacles)


def _to_hang(exhibit: Exhibit, quilts: Mapping[int, Quilt]) -> tuple[QuiltToHang, ...]:
    found = ((quilts[each.quilt], each) for each in exhibit.quilts if each.quilt in quilts)
    return tuple(
        QuiltToHang(str(quilt.id), quilt.title, size.width, size.length)
        for quilt, _ in found
        if (size := size_to_hang(quilt)) is not None
    )


def _eighths(inches: float) -> Fraction:
    return Fraction(round(inches * 8), 8)


def faults_of_walls(exhibit: Exhibit) -> Iterable[str]:
    """Yield what is wrong with the walls as they stand, before any plan can be made."""
    try:
        HangingPlan(tuple(_wall(wall) for wall in exhibit.walls), ())
    except (WallError, PlanError) as error:
        yield str(error)
