"""Photographs: uploading, describing, and the pictures themselves."""

from __future__ import annotations

import dataclasses
from functools import partial

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required
from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from catalogue.collection import photographs as kept
from catalogue.collection.alternative_text import proposed_text
from catalogue.collection.photographs import keep
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.related import related_to
from catalogue.collection.store import update
from catalogue.photographs.derivatives import PhotographError
from catalogue.web.editing import filled, save_form
from catalogue.web.forms.photographs import PhotographsForm
from catalogue.web.shared import (
    collection,
    database,
    quilt_in_view,
    record_or_404,
    refresh_index,
    register,
    signed_name,
)

pages = Blueprint("photographs", __name__)


@pages.get("/quilts/<int:id>/photographs/<int:number>/<size>.<suffix>")
def picture(id: int, number: int, size: str, suffix: str) -> Response:
    """Return one of the smaller pictures, to whoever may see the quilt."""
    photograph = _photograph(quilt_in_view(id)[0], number)
    try:
        file = kept.smaller(collection(), photograph, size, suffix)
    except (FileNotFoundError, PhotographError):
        abort(404)
    answer = send_file(file, max_age=86_400, conditional=True)
    answer.headers["Cache-Control"] = "private, max-age=86400"
    return answer


@pages.get("/quilts/<int:id>/photographs/<int:number>/original")
@login_required
def original(id: int, number: int) -> Response:
    """Return the untouched original, to members; it may hold where and with what it was taken."""
    photograph = _photograph(record_or_404(Quilt, id), number)
    try:
        file = kept.whole_original(collection(), photograph)
    except FileNotFoundError:
        abort(404)
    except PhotographError as error:
        abort(410, str(error))
    return send_file(file, as_attachment=True, download_name=f"{id}-{number}.{photograph.format}")


def _photograph(quilt: Quilt, number: int) -> Photograph:
    """Return the quilt's photograph with this id, or end the request with 404."""
    return next((photo for photo in quilt.photographs if photo.id == number), None) or abort(404)


@pages.route("/quilts/<int:id>/photographs", methods=["GET", "POST"])
@login_required
def album(id: int) -> Response | str | tuple[str, int]:
    """Show the photographs with what is written about them, and save it."""
    quilt, names = record_or_404(Quilt, id), register()
    form = filled(PhotographsForm, quilt, names)
    conflict = None
    if form.validate_on_submit():
        conflict = save_form(form, quilt, names).conflict
        if conflict is None:
            flash("Photographs: saved.")
            return redirect(url_for("photographs.album", id=id))
    page = render_template(
        "photographs/album.html",
        quilt=quilt,
        form=form,
        conflict=conflict,
        proposals=_proposals(quilt),
    )
    return (page, 422) if form.is_submitted() else page


def _proposals(quilt: Quilt) -> dict[int | None, str]:
    """Return what the record proposes for those who cannot see each photograph."""
    related = related_to(database(), [quilt])
    return {photo.id: proposed_text(quilt, related, photo.view) for photo in quilt.photographs}


@pages.get("/quilts/<int:id>/photographs/kept")
@login_required
def kept_already(id: int) -> ResponseReturnValue:
    """Say whether the quilt has a photograph of this SHA-256, which then need not be sent."""
    quilt, wanted = record_or_404(Quilt, id), request.args.get("sha256", "")
    return {"kept": any(photo.file == wanted for photo in quilt.photographs)}


@pages.post("/quilts/<int:id>/photographs/add")
@login_required
def upload(id: int) -> ResponseReturnValue:
    """Keep every photograph sent, and say of each that cannot be kept what is wrong with it.

    They come onto the record together, once all are on the disk: a photograph is there whole or
    not at all, whenever the work is cut off. A page that sends them one by one asks for JSON.
    """
    quilt = record_or_404(Quilt, id)
    sent = [file for file in request.files.getlist("photographs") if file.filename]
    added, refused = _keep_all(sent)
    if added:
        update(database(), Quilt, id, partial(_with, added), by=signed_name())
        refresh_index()
    new = len({photo.file for photo in added} - {photo.file for photo in quilt.photographs})
    again = len(added) - new
    if request.accept_mimetypes.best == "application/json":
        return {"kept": new, "again": again, "refused": refused}
    for sentence in refused:
        flash(sentence, "error")
    _tell(len(sent), new, again)
    return redirect(url_for("photographs.album", id=id))


def _keep_all(sent: list[FileStorage]) -> tuple[list[Photograph], list[str]]:
    """Keep what can be kept, and return it with a sentence on each of the others."""
    added, refused = [], []
    for file in sent:
        try:
            added.append(keep(collection(), file.read()))
        except PhotographError as error:
            refused.append(f"“{(file.filename or '')[:80]}” was not kept. {error}")
    return added, refused


def _tell(sent: int, new: int, again: int) -> None:
    if new:
        flash(f"{new} photograph{'s' * (new != 1)} kept. Say below what each one shows.")
    if again:
        flash(f"{again} of them {'was' if again == 1 else 'were'} here already.")
    if not sent:
        flash("Choose at least one photograph to keep.", "error")


def _with(added: list[Photograph], quilt: Quilt) -> Quilt:
    """Return the quilt with these photographs, each once; its very first is the overall view.

    What there is to be seen is proposed from the record, for a person to put right.
    """
    photographs = list(quilt.photographs)
    for photograph in added:
        if all(photo.file != photograph.file for photo in photographs):
            view = "detail" if photographs else "overall"
            text = proposed_text(quilt, related_to(database(), [quilt]), view)
            new = dataclasses.replace(photograph, view=view, alternative_text=text)
            photographs.append(new)
    return dataclasses.replace(quilt, photographs=tuple(photographs))
