"""The lists of an exhibit on paper: putting up, sending home, insurance, press; and its walls."""

from __future__ import annotations

from flask import Blueprint, Response, abort, request
from flask_login import login_required

from catalogue.collection import settings
from catalogue.collection.exhibits.hanging import plan_of
from catalogue.collection.exhibits.lists import (
    hardware_lines,
    insurance_rows,
    press_rows,
    steps_home,
    steps_up,
)
from catalogue.collection.records import Exhibit, Quilt
from catalogue.collection.related import Related
from catalogue.exhibits.walls import PlanError, WallError
from catalogue.printing.kinds import PAPERS
from catalogue.printing.lists import Listing, print_list, print_walls
from catalogue.web.shared import database, historian_only, quilts_in_view, record_or_404

pages = Blueprint("exhibit_lists", __name__)


@pages.get("/exhibits/<int:id>/lists/<key>.pdf")
@login_required
def listing(id: int, key: str) -> Response:
    """Return one list of an exhibit as PDF; values are for historians and the keeper alone."""
    show = record_or_404(Exhibit, id)
    quilts, related = _quilts(show)
    if key == "installation":
        made = Listing.of_steps(
            "Installation", "installation checklist", steps_up(show, quilts, related)
        )
    elif key == "return":
        made = Listing.of_steps("Return", "return checklist", steps_home(show, quilts, related))
    elif key == "insurance":
        historian_only()
        made = Listing.of_values(insurance_rows(show, quilts, related))
    elif key == "press":
        made = Listing.of_press(press_rows(show, quilts, related))
    elif key == "hardware":
        made = Listing.of_hardware(hardware_lines(show, quilts))
    else:
        abort(404)
    return _pdf(print_list(made, show, settings.read(database()), _paper()))


@pages.get("/exhibits/<int:id>/walls.pdf")
@login_required
def walls(id: int) -> Response:
    """Return the elevations of all walls, drawn to scale, as PDF."""
    show = record_or_404(Exhibit, id)
    quilts, _ = _quilts(show)
    try:
        plan = plan_of(show, quilts)
    except (WallError, PlanError):
        abort(404)
    if not plan.walls:
        abort(404)
    return _pdf(print_walls(plan, show, settings.read(database()), _paper()))


def _quilts(show: Exhibit) -> tuple[dict[int, Quilt], Related]:
    """Return the quilts of an exhibit by id as the person asking may see them."""
    quilts, related = quilts_in_view(tuple(each.quilt for each in show.quilts))
    return {quilt.id: quilt for quilt in quilts if quilt.id is not None}, related


def _paper() -> str:
    paper = request.args.get("paper", "A4")
    return paper if paper in PAPERS else "A4"


def _pdf(made: bytes) -> Response:
    return Response(made, mimetype="application/pdf")
