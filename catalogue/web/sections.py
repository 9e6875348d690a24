"""The sections of a quilt's record as forms, each saved on its own."""

from __future__ import annotations

from itertools import starmap

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask_login import login_required
from werkzeug.wrappers import Response
from wtforms.fields.choices import SelectChoice

from catalogue.collection.measured import renumbered
from catalogue.collection.numbers import taken_by
from catalogue.collection.publishing import printing_choices
from catalogue.collection.records import Quilt
from catalogue.collection.register import Register
from catalogue.web.editing import filled, name_lists, save_form
from catalogue.web.forms.sections import SECTIONS, BlocksForm, Section, SectionForm
from catalogue.web.forms.splitting import split_rows
from catalogue.web.shared import database, date_policy, record_or_404, register

pages = Blueprint("sections", __name__)


@pages.route("/quilts/<int:id>/edit/<key>", methods=["GET", "POST"])
@login_required
def edit(id: int, key: str) -> Response | str | tuple[str, int]:
    """Show a section's form, or save it and come back to the quilt."""
    section = SECTIONS.get(key) or abort(404)
    quilt = record_or_404(Quilt, id)
    names = register()
    form = _form(section, quilt, names)
    conflict = None
    if "split" in request.form:
        form.validate()  # shown once more, with the phases in rows of their own
    elif form.validate_on_submit() and number_is_free(form, quilt):
        conflict = save_form(form, quilt, names, _moved_readings(form, quilt, names)).conflict
        if conflict is None:
            flash(f"{section.heading}: saved.")
            return redirect(_next_address(id, key))
    page = render_template(
        "quilts/section.html",
        quilt=quilt,
        section=section,
        sections=SECTIONS,
        form=form,
        conflict=conflict,
        name_lists=name_lists(form, names),
    )
    return (page, 422) if form.is_submitted() else page


def number_is_free(form: SectionForm, quilt: Quilt | None) -> bool:
    """Say whether no other quilt has the accession number typed; if one has, at the field."""
    if "accession" not in form or not form.accession.data:
        return True
    other = taken_by(database(), form.accession.data, quilt.id if quilt is not None else None)
    if other is None:
        return True
    form.accession.errors = [f"{form.accession.data} is the number of “{other.title}” already."]
    return False


def _next_address(id: int, key: str) -> str:
    """Return where to go after saving: on with the same section where more rows are wanted."""
    if "more" in request.form:
        return url_for("sections.edit", id=id, key=key) + "#rows-end"
    return url_for("quilts.quilt_page", id=id) + f"#{key}"


def _form(section: Section, quilt: Quilt, names: Register) -> SectionForm:
    sent = None
    if "split" in request.form:
        sent = split_rows(request.form, request.form["split"], date_policy())
    form = filled(section.form, quilt, names, sent=sent)
    if isinstance(form, BlocksForm):
        printings = starmap(SelectChoice, printing_choices(database()))
        choices = [SelectChoice("", "not known"), *printings]
        for row in form.blocks:
            row.form.printing.choices = choices
    return form


def _moved_readings(form: SectionForm, quilt: Quilt, names: Register) -> dict[str, object]:
    """Return the readings of the blocks as numbered after kinds of block were moved or removed."""
    if not isinstance(form, BlocksForm) or not quilt.blocks:
        return {}
    after = form.blocks.to_records(names)
    return {"readings": renumbered(quilt.readings, "block", quilt.blocks, after)}
