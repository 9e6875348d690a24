"""Putting a record away, taking it out again, and the keeper's purging of what is put away."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.purging import purge as destroy
from catalogue.collection.putting_away import (
    NotPutAway,
    StillReferredTo,
    all_put_away,
    called,
    referrers,
)
from catalogue.collection.putting_away import put_away as hide
from catalogue.collection.putting_away import take_out as show_again
from catalogue.collection.store import Conflict, load
from catalogue.collection.tables import TABLE_OF
from catalogue.web.addresses import whole_number
from catalogue.web.shared import (
    collection,
    database,
    historian_only,
    keeper_only,
    record_or_404,
    refresh_index,
    signed_name,
)
from catalogue.web.subjects import NAMED, SUBJECTS, subject_or_404

pages = Blueprint("putting_away", __name__)


@pages.get("/put-away")
@login_required
def everything() -> str:
    """Show all that is put away, with the reasons."""
    hidden = [(NAMED[TABLE_OF[type(record)]], record) for record in all_put_away(database())]
    return render_template("putting_away/all.html", hidden=hidden, called=called, subjects=SUBJECTS)


@pages.route("/put-away/<kind>/<int:id>", methods=["GET", "POST"])
@login_required
def put_away(kind: str, id: int) -> Response | str | tuple[str, int]:
    """Ask why a record is to be put away, and hide it."""
    historian_only()
    subject = subject_or_404(kind)
    record = record_or_404(subject.record, id)
    if request.method == "GET":
        return _asking(kind, record)
    seen, reason = whole_number(request.form.get("seen")) or 0, request.form.get("reason", "")
    try:
        hide(database(), subject.record, id, reason, by=signed_name(), expecting=seen)
    except (StillReferredTo, ValueError) as error:
        return _asking(kind, record, str(error)), 422
    except Conflict as conflict:
        words = f"{conflict.change.by} changed this meanwhile: look at it once more."
        return _asking(kind, load(database(), subject.record, id), words), 409
    refresh_index()
    flash(f"{called(record)} is put away.")
    return redirect(url_for("putting_away.everything"))


def _asking(kind: str, record: Any, wrong: str = "") -> str:
    return render_template(
        "putting_away/ask.html",
        kind=kind,
        record=record,
        name=called(record),
        page=url_for(SUBJECTS[kind].page, id=record.id),
        referrers=[
            (each, url_for(SUBJECTS[NAMED[TABLE_OF[each.kind]]].page, id=each.id))
            for each in referrers(database(), type(record), record.id)
        ],
        reason=request.form.get("reason", ""),
        wrong=wrong,
    )


@pages.post("/put-away/<kind>/<int:id>/take-out")
@login_required
def take_out(kind: str, id: int) -> Response:
    """Let members find a record again."""
    historian_only()
    subject = subject_or_404(kind)
    record = record_or_404(subject.record, id)
    try:
        show_again(database(), subject.record, id, by=signed_name(), expecting=record.revision)
    except Conflict:  # somebody was quicker by a moment
        abort(409)
    refresh_index()
    flash(f"{called(record)} stands open again, for members.")
    return redirect(url_for(subject.page, id=id))


@pages.route("/put-away/<kind>/<int:id>/purge", methods=["GET", "POST"])
@login_required
def purge(kind: str, id: int) -> Response | str | tuple[str, int]:
    """Ask once more, and destroy a record that is put away."""
    keeper_only()
    subject = subject_or_404(kind)
    record = record_or_404(subject.record, id)
    if not record.put_away:
        abort(404)
    name, wrong = called(record), ""
    if request.method == "POST":
        wrong = _destroyed(subject.record, record, name)
        if not wrong:
            flash("It is destroyed, with its history.")
            return redirect(url_for("putting_away.everything"))
    page = render_template(
        "putting_away/purge.html", kind=kind, record=record, name=name, wrong=wrong
    )
    return (page, 422) if wrong else page


def _destroyed(kind: type[Any], record: Any, name: str) -> str:
    """Destroy the record if its name was typed, and return what is in the way, empty if nothing."""
    if " ".join(request.form.get("name", "").split()) != " ".join(name.split()):
        return f"Write “{name}” to destroy it; anything else leaves it where it is."
    try:
        destroy(collection(), kind, record.id, by=signed_name())
    except (StillReferredTo, NotPutAway) as error:
        return str(error)
    refresh_index()  # made anew: its words leave the files of the index too
    return ""
