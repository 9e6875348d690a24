"""What a photograph tells: its layout beside the tape's, turned blocks, colours, the block."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required

from catalogue.collection import photographs
from catalogue.collection.photograph_readings import block_picture, kept_reading, squared_picture
from catalogue.collection.photograph_witness import (
    decided,
    decision_on,
    feature_in_words,
    layout_in_words,
    witnesses,
)
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.squaring import READABLE, lies
from catalogue.collection.store import update
from catalogue.collection.vocabulary import DIMENSIONS, TURNED_DECISIONS
from catalogue.patterns import design
from catalogue.photographs.opening import PhotographError
from catalogue.photographs.reading import TurnedBlock
from catalogue.web.addresses import whole_number
from catalogue.web.forms.places import RulerForm
from catalogue.web.shared import (
    collection,
    database,
    historian_only,
    refresh_index,
    signed_name,
)
from catalogue.web.squaring import in_words, photograph_of, to_scale

pages = Blueprint("photo_reading", __name__)

_BASE = "/quilts/<int:id>/photographs/<int:number>"


@pages.get(f"{_BASE}/read")
@login_required
def read(id: int, number: int) -> ResponseReturnValue:
    """Show the squared-up picture and everything that was read from it."""
    quilt, photo = photograph_of(id, number)
    if not photo.corners:
        return redirect(url_for("squaring.corners", id=id, number=number))
    try:
        kept = kept_reading(collection(), quilt, photo)
    except (FileNotFoundError, PhotographError):
        abort(404)
    how, shape = to_scale(quilt, photo), lies(quilt, photo)
    ruler = RulerForm(how.width, how.length, request.args) if how is not None else None
    points = None
    if ruler is not None:
        points, _ = ruler.points(), ruler.number()  # either says what is wrong with what was typed
    return render_template(
        "photographs/read.html",
        quilt=quilt,
        photo=photo,
        shape=shape,
        ruler=ruler,
        distance=in_words(how.distance(*points)) if how is not None and points else "",
        seen=kept.reading,
        seen_in_words=layout_in_words(kept.reading),
        witnesses=witnesses(quilt, kept.reading),
        turned=[(b, decision_on(photo, b), feature_in_words(b)) for b in kept.reading.turned],
        draftings=[(design(fit.key), fit) for fit in kept.draftings],
        parts=READABLE,
        dimensions=DIMENSIONS,
        chosen=(request.args.get("part"), request.args.get("dimension")),
    )


@pages.get(f"{_BASE}/squared.webp")
@login_required
def squared(id: int, number: int) -> ResponseReturnValue:
    """Return the squared-up picture."""
    quilt, photo = _squared_up(id, number)
    return _sent(partial(squared_picture, collection(), quilt, photo))


@pages.get(f"{_BASE}/block.webp")
@login_required
def block(id: int, number: int) -> ResponseReturnValue:
    """Return the picture of one block, or of what all have in common."""
    quilt, photo = _squared_up(id, number)
    wanted = request.args.get("block")
    which = whole_number(wanted)
    if wanted is not None and which is None:
        abort(404)
    return _sent(partial(block_picture, collection(), quilt, photo, which))


def _sent(made: Callable[[], Path]) -> ResponseReturnValue:
    """Send the picture that is made, or end the request with 404 where it cannot be."""
    try:
        return send_file(made(), max_age=0)
    except (FileNotFoundError, PhotographError):
        abort(404)


@pages.post(f"{_BASE}/block")
@login_required
def keep_block(id: int, number: int) -> ResponseReturnValue:
    """Keep the picture of the block among the quilt's photographs, for cards and labels."""
    quilt, photo = _squared_up(id, number)
    try:
        made = photographs.keep(
            collection(), block_picture(collection(), quilt, photo, None).read_bytes()
        )
    except (FileNotFoundError, PhotographError):
        abort(404)
    described = replace(
        made,
        view="block",
        caption="What the blocks have in common, worked out from a photograph of the whole",
        alternative_text=f"One block of “{quilt.title}”, squared up.",
        photographer=photo.photographer,
        rights=photo.rights,
    )
    update(database(), Quilt, id, partial(_with_photograph, described), by=signed_name())
    refresh_index()
    flash("The block's picture is among the photographs now.")
    return redirect(url_for("photographs.album", id=id))


def _with_photograph(made: Photograph, quilt: Quilt) -> Quilt:
    if any(photo.file == made.file for photo in quilt.photographs):
        return quilt
    return replace(quilt, photographs=(*quilt.photographs, made))


@pages.post(f"{_BASE}/turned")
@login_required
def turned(id: int, number: int) -> ResponseReturnValue:
    """Keep what a historian decides about a block that seems turned."""
    historian_only()
    quilt, photo = _squared_up(id, number)
    column, row = (whole_number(request.form.get(place)) for place in ("column", "row"))
    turn, verdict = request.form.get("turn", ""), request.form.get("decision", "")
    if column is None or row is None or not turn or verdict not in TURNED_DECISIONS:
        abort(400)
    # The reading may have been made anew since the page was shown: the block counts, not its place.
    block = _told(quilt, photo, column, row, turn)
    if block is None:
        flash("The photograph no longer tells that of this block: look again.", "error")
        return redirect(url_for("photo_reading.read", id=id, number=number) + "#turned")
    by = signed_name()

    def edit(now: Quilt) -> Quilt:
        current = next((p for p in now.photographs if p.id == number), None)
        return decided(now, current, block, verdict, by) if current is not None else now

    update(database(), Quilt, id, edit, by=by)
    refresh_index()
    ending = ", and stands among the distinguishing features" if verdict == "confirmed" else ""
    flash(f"Turned block: {verdict}{ending}.")
    return redirect(url_for("photo_reading.read", id=id, number=number) + "#turned")


def _told(quilt: Quilt, photo: Photograph, column: int, row: int, turn: str) -> TurnedBlock | None:
    """Return what the photograph tells of this block, None where it tells nothing of the kind."""
    try:
        turned = kept_reading(collection(), quilt, photo).reading.turned
    except (FileNotFoundError, PhotographError):
        abort(404)
    named = column, row, turn
    return next((each for each in turned if (each.column, each.row, each.turn) == named), None)


def _squared_up(id: int, number: int) -> tuple[Quilt, Photograph]:
    """Return a quilt and a photograph whose corners are set, or end the request with 404."""
    quilt, photo = photograph_of(id, number)
    if not photo.corners:
        abort(404)
    return quilt, photo
