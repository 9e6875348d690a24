"""The measuring page: readings in, layouts out, and a person's decision about them."""

from __future__ import annotations

import dataclasses
from datetime import date

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask_login import login_required
from markupsafe import Markup
from werkzeug.wrappers import Response

from catalogue.collection.layouts import chosen, decide, inferred
from catalogue.collection.measured import MEASURED, with_measurements
from catalogue.collection.records import Quilt
from catalogue.collection.store import update
from catalogue.collection.vocabulary import DECISIONS
from catalogue.measurement.drawing_sheet import EXAMPLE, draw_measuring_sheet, measuring_places
from catalogue.measurement.layouts import Inference
from catalogue.measurement.readings import ReadingError
from catalogue.web.addresses import whole_number
from catalogue.web.editing import filled, save_form
from catalogue.web.forms.measuring import SeenForm
from catalogue.web.forms.rows import read_fields
from catalogue.web.forms.sheet import Sheet
from catalogue.web.shared import (
    database,
    historian_only,
    record_or_404,
    refresh_index,
    register,
    signed_name,
)

pages = Blueprint("measuring", __name__)


@pages.route("/quilts/<int:id>/measurements", methods=["GET", "POST"])
@login_required
def measurements(id: int) -> Response | str | tuple[str, int]:
    """Show the measuring sheet with what it means; save it, or only work it out."""
    quilt, names = record_or_404(Quilt, id), register()
    form, sheet = filled(SeenForm, quilt, names), Sheet(quilt)
    conflict, measured = None, quilt
    if form.is_submitted():
        sheet.fill(request.form, signed_name(), date.today().isoformat())
        if form.validate() and not sheet.errors:
            measured = _measured(quilt, form, sheet)
            if "only" not in request.form:
                more = {name: getattr(measured, name) for name in MEASURED}
                conflict = save_form(form, quilt, names, more).conflict
                if conflict is None:
                    flash("Measurements: saved.")
                    return redirect(url_for("measuring.measurements", id=id))
    failed = bool(form.errors or sheet.errors or conflict)
    inference, problem = _infer(measured)
    page = render_template(
        "measuring/sheet.html",
        quilt=quilt,
        measured=measured,
        form=form,
        sheet=sheet,
        conflict=conflict,
        inference=inference,
        problem=problem,
    )
    return (page, 422) if failed else page


@pages.post("/quilts/<int:id>/measurements/preview")
@login_required
def preview(id: int) -> str | tuple[str, int]:
    """Return what the readings on the sheet mean, as the part of the page that shows it."""
    quilt = record_or_404(Quilt, id)
    form, sheet = filled(SeenForm, quilt, register()), Sheet(quilt)
    sheet.fill(request.form, signed_name(), date.today().isoformat())
    form.validate()
    measured = _measured(quilt, form, sheet) if not form.errors else quilt
    inference, problem = _infer(measured)
    return render_template(
        "measuring/result.html",
        quilt=quilt,
        measured=measured,
        inference=inference,
        problem=problem,
    )


@pages.get("/quilts/<int:id>/measuring-sheet")
@login_required
def sheet_to_print(id: int) -> str:
    """Show a sheet to print and take to the quilt: where to hold the tape, and room to write."""
    quilt = record_or_404(Quilt, id)
    standing = chosen(quilt)
    layout = standing.layout if standing is not None else EXAMPLE
    return render_template(
        "measuring/print.html",
        quilt=quilt,
        drawing=Markup(draw_measuring_sheet(layout)),
        places=measuring_places(layout),
    )


@pages.post("/quilts/<int:id>/measurements/decision")
@login_required
def decision(id: int) -> Response:
    """Keep what a historian decides about one of the layouts that the saved readings allow."""
    historian_only()
    quilt = record_or_404(Quilt, id)
    number = whole_number(request.form.get("layout"))
    verdict = request.form.get("decision", "")
    inference, _ = _infer(quilt)
    layouts = inference.layouts if inference is not None else ()
    if number is None or number >= len(layouts) or verdict not in DECISIONS:
        abort(400)
    if request.form.get("revision") != str(quilt.revision):
        flash("The record has changed meanwhile: look at the layouts once more.")
        return redirect(url_for("measuring.measurements", id=id))
    made = decide(quilt, layouts[number], verdict, signed_name())
    update(
        database(),
        Quilt,
        id,
        lambda now: dataclasses.replace(now, decisions=(*now.decisions, made)),
        by=signed_name(),
    )
    refresh_index()
    flash(f"Layout: {verdict}.")
    return redirect(url_for("measuring.measurements", id=id) + "#layouts")


def _measured(quilt: Quilt, form: SeenForm, sheet: Sheet) -> Quilt:
    """Return the quilt as the page describes it; a reading of a part says that it is there."""
    seen = read_fields(form.own_fields, register())
    return with_measurements(quilt, seen, sheet.readings())


def _infer(quilt: Quilt) -> tuple[Inference | None, str]:
    """Return what the readings mean, or one sentence on why they mean nothing."""
    try:
        return inferred(quilt), ""
    except ReadingError as error:
        return None, str(error)
