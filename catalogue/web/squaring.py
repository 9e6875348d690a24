"""Squaring up: the corners of the quilt, the picture to scale, and distances read from it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required

from catalogue.collection.measuring import overall_size
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.squaring import (
    READABLE,
    corners_from_text,
    lies,
    proposed,
    reading_of,
    scale_of,
    with_corners,
)
from catalogue.collection.store import update
from catalogue.collection.vocabulary import DIMENSIONS
from catalogue.photographs.opening import PhotographError
from catalogue.photographs.squaring import Distance, Squared
from catalogue.values.lengths import format_inches
from catalogue.web.forms.places import REACH, CornersForm, RulerForm
from catalogue.web.shared import (
    collection,
    database,
    record_or_404,
    refresh_index,
    signed_name,
)

pages = Blueprint("squaring", __name__)

_MEANWHILE = (
    "Somebody else has kept other corners meanwhile. Keep yours once more if they are the better."
)


@pages.route("/quilts/<int:id>/photographs/<int:number>/corners", methods=["GET", "POST"])
@login_required
def corners(id: int, number: int) -> ResponseReturnValue:
    """Show where the corners are, or may be; keep where a person says they are."""
    quilt, photo = photograph_of(id, number)
    form, grounds = _corners_form(photo)
    if request.method == "POST":
        form.fill(request.form)
        found, card = form.corners(), form.grey_card()
        if request.form.get("before", photo.corners) != photo.corners:
            form.error = _MEANWHILE
        elif found is not None and card is not None:
            try:
                _keep_corners(id, with_corners(collection(), photo, found, card))
            except (FileNotFoundError, PhotographError):
                abort(404)
            flash("The corners are kept, and the colours between them.")
            return redirect(url_for("photo_reading.read", id=id, number=number))
    page = render_template(
        "photographs/corners.html",
        quilt=quilt,
        photo=photo,
        form=form,
        grounds=grounds,
        size=overall_size(quilt),
        reach=REACH,
    )
    return page, 422 if request.method == "POST" else 200


def _corners_form(photo: Photograph) -> tuple[CornersForm, str]:
    """Return the form with what is on record, or else with a proposal and its grounds."""
    pixels = photo.pixels_wide, photo.pixels_high
    known = corners_from_text(photo.corners)
    if known is not None and "propose" not in request.args:
        return CornersForm(pixels, known, photo.grey_card), ""
    try:
        proposal = proposed(collection(), photo)
    except (FileNotFoundError, PhotographError):
        abort(404)
    return CornersForm(pixels, proposal.corners, photo.grey_card), proposal.grounds


def _keep_corners(id: int, photo: Photograph) -> None:
    def edit(quilt: Quilt) -> Quilt:
        kept = tuple(
            replace(each, corners=photo.corners, grey_card=photo.grey_card, colours=photo.colours)
            if each.id == photo.id
            else each
            for each in quilt.photographs
        )
        return replace(quilt, photographs=kept)

    update(database(), Quilt, id, edit, by=signed_name())
    refresh_index()


@pages.get("/quilts/<int:id>/photographs/<int:number>/distance")
@login_required
def distance(id: int, number: int) -> ResponseReturnValue:
    """Say how far apart two places are, while they are moved."""
    quilt, photo = photograph_of(id, number)
    how = to_scale(quilt, photo)
    if how is None:
        abort(404)
    ruler = RulerForm(how.width, how.length, request.args)
    points = ruler.points()
    if points is None:
        return {"says": " ".join(place.error for place in ruler.ends if place.error)}
    return {"says": in_words(how.distance(*points))}


@pages.post("/quilts/<int:id>/photographs/<int:number>/distance")
@login_required
def keep_distance(id: int, number: int) -> ResponseReturnValue:
    """Keep a distance on the photograph as a reading of a part of the quilt."""
    quilt, photo = photograph_of(id, number)
    how = to_scale(quilt, photo)
    part, dimension = request.form.get("part", ""), request.form.get("dimension", "")
    if how is None or part not in READABLE or dimension not in DIMENSIONS:
        abort(400)
    ruler = RulerForm(how.width, how.length, request.form)
    points, which = ruler.points(), ruler.number()
    if points is None or which is None or how.distance(*points).inches < 0.1:
        flash("Nothing was kept: the two places have to lie on the quilt, and apart.", "error")
        typed: dict[str, Any] = {**ruler.typed(), "part": part, "dimension": dimension}
        return redirect(url_for("photo_reading.read", id=id, number=number, **typed) + "#ruler")
    read = how.distance(*points)
    today = date.today().isoformat()
    kept = reading_of(read, part, which, dimension, signed_name(), today)
    update(
        database(),
        Quilt,
        id,
        lambda now: replace(now, readings=(*now.readings, kept)),
        by=signed_name(),
    )
    refresh_index()
    flash(f"Kept as a reading of the {part}, marked “from photograph”: {in_words(read)}.")
    return redirect(url_for("photo_reading.read", id=id, number=number) + "#ruler")


def photograph_of(id: int, number: int) -> tuple[Quilt, Photograph]:
    """Return a quilt and one of its photographs, or end the request with 404."""
    quilt = record_or_404(Quilt, id)
    photo = next((each for each in quilt.photographs if each.id == number), None)
    return quilt, photo or abort(404)


def to_scale(quilt: Quilt, photo: Photograph) -> Squared | None:
    """Return how the quilt lies in the photograph, None where there are no inches to it."""
    return lies(quilt, photo) if scale_of(quilt, photo) is not None else None


def in_words(distance: Distance) -> str:
    """Return a distance as a person would write it, with its ±."""
    error = max(distance.error, 1 / 16)
    return f"{format_inches(distance.inches, 8)} in ± {format_inches(error, 16)} in"
