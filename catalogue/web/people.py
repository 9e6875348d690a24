"""People, groups and organisations: makers, owners, donors."""

from __future__ import annotations

from flask import Blueprint, abort, flash, redirect, render_template, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.finding import Wanted, find
from catalogue.collection.privacy import party_for_visitors
from catalogue.collection.records import Party
from catalogue.collection.summary import summarise
from catalogue.collection.used import makers_in_use
from catalogue.web.editing import add_form, filled, save_form
from catalogue.web.forms.register import PartyForm
from catalogue.web.shared import (
    database,
    index,
    is_member,
    quilts_in_view,
    record_or_404,
    register,
)

pages = Blueprint("people", __name__)


@pages.get("/people")
def people_list() -> str:
    """Show everybody on record; to visitors, the makers of what is published."""
    makers = makers_in_use(database(), published_only=not is_member())
    return render_template("people/list.html", people=makers)


@pages.get("/people/<int:id>")
def person(id: int) -> str:
    """Show one party with the quilts they worked on."""
    party = record_or_404(Party, id)
    found = find(
        database(),
        index(),
        Wanted(maker=id, sort="date"),
        published_only=not is_member(),
    )
    if not is_member():
        if not found.total:
            abort(404)
        party = party_for_visitors(party)
    quilts, related = quilts_in_view(found.ids)
    return render_template(
        "people/person.html",
        party=party,
        found=found,
        summaries=[summarise(quilt, related) for quilt in quilts],
    )


@pages.route("/people/new", methods=["GET", "POST"])
@login_required
def new() -> Response | str | tuple[str, int]:
    """Add a party."""
    names = register()
    form = filled(PartyForm, None, names)
    if form.validate_on_submit():
        return redirect(url_for("people.person", id=add_form(Party, form, names).id))
    return _form_page(form, None)


@pages.route("/people/<int:id>/edit", methods=["GET", "POST"])
@login_required
def edit(id: int) -> Response | str | tuple[str, int]:
    """Change a party."""
    party, names = record_or_404(Party, id), register()
    form, conflict = filled(PartyForm, party, names), None
    if form.validate_on_submit():
        conflict = save_form(form, party, names).conflict
        if conflict is None:
            flash(f"{party.name}: saved.")
            return redirect(url_for("people.person", id=id))
    return _form_page(form, party, conflict)


def _form_page(
    form: PartyForm, party: Party | None, conflict: object = None
) -> str | tuple[str, int]:
    page = render_template("people/edit.html", form=form, party=party, conflict=conflict)
    return (page, 422) if form.is_submitted() else page
