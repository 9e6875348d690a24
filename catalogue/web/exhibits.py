"""Exhibits: their pages, quilts, walls and plan, condition out and back, and light."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from datetime import date
from functools import partial

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required
from markupsafe import Markup

from catalogue.collection import photographs as kept
from catalogue.collection.exhibits.hanging import (
    checked,
    faults_of_walls,
    plan_of,
    proposed,
    unmeasured,
)
from catalogue.collection.exhibits.light import account_of, double_bookings
from catalogue.collection.exhibits.lists import hardware_lines
from catalogue.collection.exhibits.shows import all_exhibits
from catalogue.collection.photographs import keep
from catalogue.collection.records import Exhibit, ExhibitQuilt, Photograph, Quilt
from catalogue.collection.related import Related, related_to
from catalogue.collection.store import load_many, update
from catalogue.collection.summary import summarise
from catalogue.exhibits.cautions import cautions_for
from catalogue.exhibits.dose_chart import draw_dose_chart
from catalogue.exhibits.elevation import draw_elevation
from catalogue.exhibits.findings import Finding
from catalogue.exhibits.labels import advise
from catalogue.exhibits.walls import HangingPlan, PlanError, WallError
from catalogue.photographs.derivatives import PhotographError
from catalogue.web.editing import add_form, filled, name_lists, save_fields, save_form
from catalogue.web.forms.exhibits import ExhibitForm, PlacesForm, StatesForm, WallsForm
from catalogue.web.shared import (
    collection,
    database,
    is_member,
    quilts_in_view,
    record_or_404,
    register,
    signed_name,
)

pages = Blueprint("exhibits", __name__)


@pages.get("/exhibits")
def exhibit_list() -> str:
    """Show the exhibits that the person asking may see, the latest first."""
    shows = all_exhibits(database(), published_only=not is_member())
    return render_template("exhibits/list.html", exhibits=shows)


@pages.get("/exhibits/<int:id>")
def exhibit(id: int) -> str:
    """Show one exhibit with its quilts in their order."""
    show = _in_view(id)
    quilts, related = quilts_in_view(tuple(each.quilt for each in show.quilts))
    visible = [quilt for quilt in quilts if is_member() or quilt.published]
    texts = {each.quilt: each.label_text for each in show.quilts}
    return render_template(
        "exhibits/exhibit.html",
        exhibit=show,
        summaries=[summarise(quilt, related) for quilt in visible],
        advice={quilt: advise(text) for quilt, text in texts.items() if text},
        clashes=double_bookings(database(), show) if is_member() else (),
        cautions=cautions_for("exhibit") if is_member() else (),
    )


@pages.route("/exhibits/new", methods=["GET", "POST"])
@login_required
def new() -> ResponseReturnValue:
    """Begin an exhibit."""
    names = register()
    form = filled(ExhibitForm, None, names)
    if form.validate_on_submit():
        return redirect(url_for("exhibits.exhibit", id=add_form(Exhibit, form, names).id))
    return _form_page(form, None)


@pages.route("/exhibits/<int:id>/edit", methods=["GET", "POST"])
@login_required
def edit(id: int) -> ResponseReturnValue:
    """Change what an exhibit is and which quilts are in it."""
    show, names = record_or_404(Exhibit, id), register()
    form, conflict = filled(ExhibitForm, show, names), None
    if form.validate_on_submit():
        conflict = save_form(form, show, names).conflict
        if conflict is None:
            flash(f"{show.title}: saved.")
            return redirect(url_for("exhibits.exhibit", id=id))
    return _form_page(form, show, conflict)


@pages.route("/exhibits/<int:id>/walls", methods=["GET", "POST"])
@login_required
def walls(id: int) -> ResponseReturnValue:
    """Show and change the walls."""
    show, names = record_or_404(Exhibit, id), register()
    form, conflict = filled(WallsForm, show, names), None
    if form.validate_on_submit():
        changed = dataclasses.replace(show, walls=form.walls.to_records(names))
        faults = list(faults_of_walls(changed))
        for fault in faults:
            flash(fault, "error")
        if not faults:
            conflict = save_fields(form, show, {"walls": changed.walls}).conflict
            if conflict is None:
                flash("Walls: saved.")
                return redirect(url_for("exhibits.plan", id=id))
    page = render_template("exhibits/walls.html", exhibit=show, form=form, conflict=conflict)
    return page, 422 if form.is_submitted() else 200


@pages.route("/exhibits/<int:id>/plan", methods=["GET", "POST"])
@login_required
def plan(id: int) -> ResponseReturnValue:
    """Show the hanging plan drawn to scale, propose one, or keep places changed by hand."""
    show, names = record_or_404(Exhibit, id), register()
    form, conflict = filled(PlacesForm, show, names), None
    quilts, _ = _quilts(show)
    if "propose" in request.form:
        return _propose(show, form, quilts)
    if form.validate_on_submit():
        conflict = save_form(form, show, names).conflict
        if conflict is None:
            flash("Places: saved.")
            return redirect(url_for("exhibits.plan", id=id))
    standing, problem = _standing_plan(show, quilts)
    findings = checked(standing, "in") if standing is not None else ()
    page = render_template(
        "exhibits/plan.html",
        exhibit=show,
        form=form,
        conflict=conflict,
        quilts=quilts,
        problem=problem,
        findings=findings,
        elevations=list(_elevations(standing, findings)) if standing is not None else [],
        hardware=hardware_lines(show, quilts),
        unmeasured=unmeasured(show, quilts),
        cautions=cautions_for("hanging plan"),
    )
    return page, 422 if form.is_submitted() else 200


@pages.route("/exhibits/<int:id>/condition", methods=["GET", "POST"])
@login_required
def condition(id: int) -> ResponseReturnValue:
    """Show and change in what state each quilt went out and came back."""
    show, names = record_or_404(Exhibit, id), register()
    form, conflict = filled(StatesForm, show, names), None
    if form.validate_on_submit():
        conflict = save_form(form, show, names).conflict
        if conflict is None:
            flash("Condition: saved.")
            return redirect(url_for("exhibits.condition", id=id))
    page = render_template(
        "exhibits/condition.html",
        exhibit=show,
        form=form,
        conflict=conflict,
        quilts=_quilts(show)[0],
        cautions=cautions_for("condition report"),
    )
    return page, 422 if form.is_submitted() else 200


@pages.post("/exhibits/<int:id>/condition/<int:number>/photographs")
@login_required
def add_photographs(id: int, number: int) -> ResponseReturnValue:
    """Keep photographs of a quilt's state, going out or coming back."""
    record_or_404(Exhibit, id)
    moment = "damage" if "back" in request.form else "overall"
    for file in request.files.getlist("photographs"):
        try:
            photograph = keep(collection(), file.read())
        except PhotographError as error:
            flash(f"“{(file.filename or '')[:80]}” was not kept. {error}", "error")
            continue
        said = "on its return" if moment == "damage" else "before it left"
        taken = dataclasses.replace(photograph, view=moment, caption=f"State {said}")
        update(database(), Exhibit, id, partial(_with_picture, number, taken), by=signed_name())
    return redirect(url_for("exhibits.condition", id=id))


@pages.get("/exhibits/<int:id>/condition/<int:number>/photographs/<int:photo>.webp")
@login_required
def picture(id: int, number: int, photo: int) -> ResponseReturnValue:
    """Return a photograph of a quilt's state, as a page shows it."""
    show = record_or_404(Exhibit, id)
    taken = {(each.id, p.id): p for each in show.quilts for p in each.photographs}
    photograph = taken.get((number, photo)) or abort(404)
    try:
        return send_file(kept.smaller(collection(), photograph, "page", "webp"))
    except (FileNotFoundError, PhotographError):
        abort(404)


@pages.get("/exhibits/<int:id>/light")
@login_required
def light(id: int) -> str:
    """Show what the exhibit adds to the light each of its quilts has had."""
    show = record_or_404(Exhibit, id)
    quilts, _ = _quilts(show)
    accounts = [
        (quilts[each.quilt], *account_of(database(), each.quilt, date.today(), planned=id))
        for each in show.quilts
        if each.quilt in quilts
    ]
    charts = {
        quilt.id: Markup(draw_dose_chart(account.years, account.limit, prefix=f"light{quilt.id}"))
        for quilt, account, _ in accounts
    }
    return render_template(
        "exhibits/light.html",
        exhibit=show,
        accounts=accounts,
        charts=charts,
        cautions=cautions_for("light account"),
    )


@pages.get("/quilts/<int:id>/light")
@login_required
def quilt_light(id: int) -> str:
    """Show the light one quilt has had, year by year."""
    quilt = record_or_404(Quilt, id)
    account, rest = account_of(database(), id, date.today())
    return render_template(
        "exhibits/quilt_light.html",
        quilt=quilt,
        account=account,
        rest=rest,
        chart=Markup(draw_dose_chart(account.years, account.limit)),
        cautions=cautions_for("light account"),
    )


def _in_view(id: int) -> Exhibit:
    """Return an exhibit as the person asking may see it, or end the request with 404."""
    show = record_or_404(Exhibit, id)
    return show if show.published or is_member() else abort(404)


def _quilts(show: Exhibit) -> tuple[dict[int, Quilt], Related]:
    """Return the quilts of an exhibit by id, and what they refer to."""
    quilts = load_many(database(), Quilt, [each.quilt for each in show.quilts])
    by_id = {quilt.id: quilt for quilt in quilts if quilt.id is not None}
    return by_id, related_to(database(), quilts)


def _standing_plan(show: Exhibit, quilts: dict[int, Quilt]) -> tuple[HangingPlan | None, str]:
    """Return the plan on record, or one sentence on why there can be none."""
    if not show.walls:
        return None, "No wall is measured yet."
    try:
        return plan_of(show, quilts), ""
    except (WallError, PlanError) as error:
        return None, str(error)


def _propose(show: Exhibit, form: PlacesForm, quilts: dict[int, Quilt]) -> ResponseReturnValue:
    """Keep the places proposed, and say what was not placed."""
    assert show.id is not None
    try:
        placed, remarks = proposed(show, quilts, "in")
    except (WallError, PlanError) as error:
        flash(str(error), "error")
        return redirect(url_for("exhibits.plan", id=show.id))
    if save_fields(form, show, {"quilts": placed}).conflict is not None:
        flash("The exhibit has changed meanwhile: propose it once more.", "error")
    for remark in remarks:
        flash(remark)
    return redirect(url_for("exhibits.plan", id=show.id))


def _elevations(plan: HangingPlan, findings: tuple[Finding, ...]) -> Iterable[tuple[str, Markup]]:
    marked = {key for finding in findings for key in finding.about}
    for number, wall in enumerate(plan.walls):
        drawn = draw_elevation(wall.name, plan, prefix=f"wall{number}", marked=marked)
        yield wall.name, Markup(drawn)


def _with_picture(number: int, photograph: Photograph, show: Exhibit) -> Exhibit:
    """Return the exhibit with one photograph more of the quilt of that row."""
    return dataclasses.replace(
        show,
        quilts=tuple(
            dataclasses.replace(each, photographs=(*each.photographs, photograph))
            if _takes(each, number, photograph)
            else each
            for each in show.quilts
        ),
    )


def _takes(each: ExhibitQuilt, number: int, photograph: Photograph) -> bool:
    return each.id == number and all(p.file != photograph.file for p in each.photographs)


def _form_page(
    form: ExhibitForm, show: Exhibit | None, conflict: object = None
) -> ResponseReturnValue:
    page = render_template(
        "exhibits/edit.html",
        form=form,
        exhibit=show,
        conflict=conflict,
        name_lists=name_lists(form, register()),
    )
    return page, 422 if form.is_submitted() else 200
