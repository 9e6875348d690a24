"""People, groups and organisations: makers, owners, donors."""

from __future__ import annotations

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.privacy import party_for
from catalogue.collection.records import FamilyTie, Party
from catalogue.collection.related_items import items_of
from catalogue.collection.same_person import (
    MergeError,
    likely_duplicates,
    merge,
    merges_into,
    part,
    tell_apart,
)
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.store import NotFound, load_many
from catalogue.collection.summary import summarise
from catalogue.collection.used import makers_in_use
from catalogue.web.addresses import whole_number
from catalogue.web.editing import add_form, filled, name_lists, save_form
from catalogue.web.forms.register import PartyForm
from catalogue.web.shared import (
    database,
    historian_only,
    index,
    is_member,
    quilts_in_view,
    reader,
    record_or_404,
    refresh_index,
    register,
    signed_name,
)

pages = Blueprint("people", __name__)


@pages.get("/people")
def people_list() -> str:
    """Show everybody on record; to visitors, the makers of what is published."""
    makers = makers_in_use(database(), published_only=not is_member())
    return render_template("people/list.html", people=makers)


@pages.get("/people/<int:id>")
def person(id: int) -> ResponseReturnValue:
    """Show one party with the quilts they worked on; a merged record leads to the other."""
    party = record_or_404(Party, id)
    if party.merged_into is not None:
        return redirect(url_for("people.person", id=party.merged_into))
    found = find(
        database(),
        index(),
        Wanted(maker=(id,), sort="date"),
        reader=reader(),
    )
    if not is_member() and not found.total:
        abort(404)
    party = party_for(reader(), party)
    quilts, related = quilts_in_view(found.ids)
    return render_template(
        "people/person.html",
        party=party,
        relatives=_relatives(party),
        merges=merges_into(database(), id) if is_member() else [],
        found=found,
        items=items_of(database(), "party", id, reader=reader()),
        summaries=[summarise(quilt, related) for quilt in quilts],
    )


def _relatives(party: Party) -> list[tuple[FamilyTie, Party]]:
    """Return the ties of a party that the person asking may see, with the relatives."""
    relatives = load_many(database(), Party, [tie.relative for tie in party.ties])
    seen = reader()
    living_are_seen = seen.sees("Party of the living", "ties")
    by_id = {each.id: each for each in relatives if living_are_seen or not each.living}
    return [(tie, by_id[tie.relative]) for tie in party.ties if tie.relative in by_id]


@pages.get("/people/alike")
@login_required
def alike() -> str:
    """Show people who may be on record twice, with the grounds."""
    historian_only()
    return render_template("people/alike.html", likely=likely_duplicates(database()))


@pages.post("/people/alike")
@login_required
def decide_alike() -> ResponseReturnValue:
    """Make two records one, or remember that they are two people."""
    historian_only()
    kept, other = (whole_number(request.form.get(name)) for name in ("kept", "other"))
    if kept is None or other is None:
        abort(400)
    try:
        if "apart" in request.form:
            tell_apart(database(), kept, other, signed_name())
            flash("They are told apart, and not proposed again.")
            return redirect(url_for("people.alike"))
        merge(database(), kept, other, signed_name())
    except NotFound:
        abort(404)
    except MergeError as error:
        flash(str(error), "error")
        return redirect(url_for("people.alike"))
    refresh_index()
    flash("The two records are one now. It can be undone below.")
    return redirect(url_for("people.person", id=kept))


@pages.post("/people/parted")
@login_required
def undo_merge() -> ResponseReturnValue:
    """Undo a merging."""
    historian_only()
    number = whole_number(request.form.get("merge"))
    if number is None:
        abort(400)
    try:
        parted = part(database(), number, signed_name())
    except NotFound:
        abort(404)
    except MergeError as error:
        flash(str(error), "error")
        return redirect(url_for("people.people_list"))
    refresh_index()
    flash("The two records are two again.")
    return redirect(url_for("people.person", id=parted))


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
    page = render_template(
        "people/edit.html",
        form=form,
        party=party,
        conflict=conflict,
        name_lists=name_lists(form, register()),
    )
    return (page, 422) if form.is_submitted() else page
