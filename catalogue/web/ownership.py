"""Ownership as one text in the notation of provenance: read, looked at, and kept."""

from __future__ import annotations

import dataclasses

from flask import Blueprint, flash, redirect, render_template, request, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.ownership import printed, read_text
from catalogue.collection.records import OwnershipPeriod, Quilt
from catalogue.collection.register import Kind
from catalogue.web.editing import filled, save_fields
from catalogue.web.forms.sections import OwnershipTextForm
from catalogue.web.shared import record_or_404, register

pages = Blueprint("ownership", __name__)


@pages.route("/quilts/<int:id>/ownership-text", methods=["GET", "POST"])
@login_required
def as_text(id: int) -> Response | str | tuple[str, int]:
    """Show the periods as one text; read a changed text, show what was understood, and keep it."""
    quilt, names = record_or_404(Quilt, id), register()
    form = filled(OwnershipTextForm, quilt, names)
    if not form.is_submitted():
        form.text.data = printed(quilt.ownership)
    periods, cautions = read_text(form.text.data or "")
    conflict = None
    if form.validate_on_submit() and "keep" in request.form:
        kept = tuple(_linked(period) for period in periods) if form.text.data else ()
        conflict = save_fields(form, quilt, {"ownership": kept}).conflict
        if conflict is None:
            flash("Ownership: saved.")
            return redirect(url_for("quilts.quilt_page", id=id) + "#ownership")
    page = render_template(
        "quilts/ownership_text.html",
        quilt=quilt,
        form=form,
        conflict=conflict,
        periods=periods if form.text.data else (),
        cautions=cautions if form.text.data else (),
        printed=printed(periods) if form.text.data else "",
    )
    return (page, 422) if conflict or form.errors else page


def _linked(period: OwnershipPeriod) -> OwnershipPeriod:
    """Return the period with its owner linked to the record of that name, if there is one."""
    return dataclasses.replace(period, person=register().find(Kind.PARTY, period.party))
