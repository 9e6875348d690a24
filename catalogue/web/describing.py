"""The written description: composed from the record, and kept or rewritten by a person."""

from __future__ import annotations

from flask import Blueprint, flash, redirect, render_template, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.describing import changed_since, composed
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.web.editing import filled, save_form
from catalogue.web.forms.sections import ParagraphForm
from catalogue.web.shared import database, record_or_404, register

pages = Blueprint("describing", __name__)


@pages.route("/quilts/<int:id>/paragraph", methods=["GET", "POST"])
@login_required
def paragraph(id: int) -> Response | str | tuple[str, int]:
    """Show the composed paragraph beside the kept one, and keep what is written."""
    quilt, names = record_or_404(Quilt, id), register()
    related = related_to(database(), [quilt])
    form, conflict = filled(ParagraphForm, quilt, names), None
    if form.validate_on_submit():
        kept = {"paragraph_revision": quilt.revision if form.paragraph.data else None}
        conflict = save_form(form, quilt, names, kept).conflict
        if conflict is None:
            flash("The paragraph is kept." if form.paragraph.data else "The paragraph is composed.")
            return redirect(url_for("quilts.quilt_page", id=id) + "#story")
    if not form.is_submitted() and not quilt.paragraph:
        form.paragraph.data = composed(quilt, related)
    page = render_template(
        "quilts/paragraph.html",
        quilt=quilt,
        form=form,
        conflict=conflict,
        composed=composed(quilt, related),
        moved_on=changed_since(quilt, related),
    )
    return (page, 422) if form.is_submitted() else page
