"""Dating evidence: the clues of one phase of making, and the date that they allow."""

from __future__ import annotations

import dataclasses

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required

from catalogue.collection.evidence import estimated, with_date
from catalogue.collection.records import Phase, Quilt
from catalogue.collection.store import save
from catalogue.dating.clues import clue_table
from catalogue.web.addresses import whole_number
from catalogue.web.editing import filled, save_fields
from catalogue.web.forms.evidence import EvidenceForm
from catalogue.web.shared import (
    database,
    date_policy,
    historian_only,
    record_or_404,
    refresh_index,
    register,
    signed_name,
)

pages = Blueprint("evidence", __name__)


@pages.route("/quilts/<int:id>/phases/<int:number>/evidence", methods=["GET", "POST"])
@login_required
def evidence(id: int, number: int) -> ResponseReturnValue:
    """Show a phase's clues with the estimate they allow, and save them."""
    quilt, names = record_or_404(Quilt, id), register()
    phase = _phase(quilt, number)
    form, conflict = filled(EvidenceForm, phase, names, quilt.revision), None
    _offer_inscription(form)
    if form.validate_on_submit():
        clues = form.clues.to_records(names)
        phases = tuple(
            dataclasses.replace(each, clues=clues) if each.id == number else each
            for each in quilt.phases
        )
        conflict = save_fields(form, quilt, {"phases": phases}).conflict
        if conflict is None:
            flash("Evidence: saved.")
            return redirect(url_for("evidence.evidence", id=id, number=number))
    page = render_template(
        "evidence/evidence.html",
        quilt=quilt,
        phase=phase,
        form=form,
        conflict=conflict,
        estimate=estimated(phase, quilt, date_policy()),
        clues=clue_table(),
    )
    return page, 422 if form.is_submitted() else 200


@pages.post("/quilts/<int:id>/phases/<int:number>/date")
@login_required
def accept_date(id: int, number: int) -> ResponseReturnValue:
    """Date a phase as its clues propose; what a person wrote before is kept in the history."""
    historian_only()
    quilt = record_or_404(Quilt, id)
    estimate = estimated(_phase(quilt, number), quilt, date_policy())
    if estimate is None or estimate.half is None:
        abort(400)
    if request.form.get("revision") != str(quilt.revision):
        flash("The record has changed meanwhile: look at the estimate once more.")
        return redirect(url_for("evidence.evidence", id=id, number=number))
    phases = with_date(quilt, number, estimate.proposed)
    save(
        database(),
        Quilt,
        id,
        {"phases": phases},
        by=signed_name(),
        expecting=quilt.revision,
    )
    refresh_index()
    flash(f"The phase is dated {estimate.proposed.says}.")
    return redirect(url_for("quilts.quilt_page", id=id) + "#making")


def _offer_inscription(form: EvidenceForm) -> None:
    """Fill a blank row with a year that an inscription names, where the address brings one."""
    year = whole_number(request.args.get("inscription"), 2100)
    blank = next((row.form for row in form.clues if row.form.is_blank), None)
    if year is not None and blank is not None and not form.is_submitted():
        blank.clue.data, blank.first_year.data = "inscription", year


def _phase(quilt: Quilt, number: int) -> Phase:
    """Return the quilt's phase with this id, or end the request with 404."""
    return next((phase for phase in quilt.phases if phase.id == number), None) or abort(404)
