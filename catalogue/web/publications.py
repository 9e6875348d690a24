"""Publications: the columns, magazines, catalogues and books in which patterns appeared."""

from __future__ import annotations

from flask import Blueprint, flash, redirect, render_template, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.publishing import printings_in
from catalogue.collection.records import Publication
from catalogue.collection.related_items import items_of
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.summary import summarise
from catalogue.collection.used import publications_in_use
from catalogue.web.editing import add_form, filled, save_form
from catalogue.web.forms.register import PublicationForm
from catalogue.web.shared import (
    database,
    index,
    is_member,
    quilts_in_view,
    reader,
    record_or_404,
    register,
)

pages = Blueprint("publications", __name__)


@pages.get("/publications")
def publication_list() -> str:
    """Show every publication; to visitors, those that published quilts' patterns come from."""
    publications = publications_in_use(database(), published_only=not is_member())
    return render_template("publications/list.html", publications=publications)


@pages.get("/publications/<int:id>")
def publication(id: int) -> str:
    """Show one publication, the patterns it printed, and the quilts made from them."""
    record = record_or_404(Publication, id)
    found = find(
        database(),
        index(),
        Wanted(publication=(id,), sort="date"),
        reader=reader(),
    )
    quilts, related = quilts_in_view(found.ids)
    return render_template(
        "publications/publication.html",
        publication=record,
        printings=printings_in(database(), id),
        found=found,
        items=items_of(database(), "publication", id, reader=reader()),
        summaries=[summarise(quilt, related) for quilt in quilts],
    )


@pages.route("/publications/new", methods=["GET", "POST"])
@login_required
def new() -> Response | str | tuple[str, int]:
    """Add a publication."""
    names = register()
    form = filled(PublicationForm, None, names)
    if form.validate_on_submit():
        added = add_form(Publication, form, names)
        return redirect(url_for("publications.publication", id=added.id))
    return _form_page(form, None)


@pages.route("/publications/<int:id>/edit", methods=["GET", "POST"])
@login_required
def edit(id: int) -> Response | str | tuple[str, int]:
    """Change a publication."""
    record, names = record_or_404(Publication, id), register()
    form, conflict = filled(PublicationForm, record, names), None
    if form.validate_on_submit():
        conflict = save_form(form, record, names).conflict
        if conflict is None:
            flash(f"{record.name}: saved.")
            return redirect(url_for("publications.publication", id=id))
    return _form_page(form, record, conflict)


def _form_page(
    form: PublicationForm, record: Publication | None, conflict: object = None
) -> str | tuple[str, int]:
    page = render_template(
        "publications/edit.html", form=form, publication=record, conflict=conflict
    )
    return (page, 422) if form.is_submitted() else page
