"""Related material: what belongs to a quilt's story without being a quilt."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from functools import partial

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required

from catalogue.collection import photographs as kept
from catalogue.collection.photographs import keep
from catalogue.collection.privacy import item_for
from catalogue.collection.records import Photograph, Quilt, RelatedItem
from catalogue.collection.register import Kind
from catalogue.collection.related_items import TARGETS, all_items
from catalogue.collection.store import update
from catalogue.photographs.derivatives import PhotographError
from catalogue.web.editing import add_form, filled, save_form
from catalogue.web.forms.related import RelatedItemForm
from catalogue.web.shared import (
    collection,
    database,
    is_member,
    reader,
    record_or_404,
    register,
    signed_name,
)

pages = Blueprint("related", __name__)


@pages.get("/related")
def item_list() -> str:
    """Show all related material that the person asking may see."""
    items = all_items(database(), reader=reader())
    return render_template("related/list.html", items=items)


@pages.get("/related/<int:id>")
def item(id: int) -> str:
    """Show one piece of related material and what it belongs to."""
    found = _in_view(id)
    return render_template("related/item.html", item=found, links=list(_links(found)))


def _links(found: RelatedItem) -> Iterator[tuple[Kind, int, str, str]]:
    """Yield what the item belongs to, as far as the person asking may see it."""
    names = register()
    for link in found.links:
        for kind in map(Kind, TARGETS):
            id = getattr(link, kind.value)
            if id is not None and (is_member() or _is_public(kind, id)):
                yield kind, id, names.label_of(kind, id), link.note


def _is_public(kind: Kind, id: int) -> bool:
    """True for what visitors may see: published quilts and what patterns were printed in."""
    if kind is Kind.QUILT:
        return record_or_404(Quilt, id).published
    return kind in (Kind.PATTERN, Kind.PUBLICATION)


@pages.get("/related/<int:id>/photographs/<int:number>/<size>.<suffix>")
def picture(id: int, number: int, size: str, suffix: str) -> ResponseReturnValue:
    """Return one of the smaller pictures, to whoever may see the item."""
    photograph = next((each for each in _in_view(id).photographs if each.id == number), None)
    if photograph is None:
        abort(404)
    try:
        return send_file(kept.smaller(collection(), photograph, size, suffix), max_age=86_400)
    except (FileNotFoundError, PhotographError):
        abort(404)


@pages.route("/related/new", methods=["GET", "POST"])
@login_required
def new() -> ResponseReturnValue:
    """Add a piece of related material."""
    names = register()
    form = filled(RelatedItemForm, None, names)
    if form.validate_on_submit():
        return redirect(url_for("related.item", id=add_form(RelatedItem, form, names).id))
    return _form_page(form, None)


@pages.route("/related/<int:id>/edit", methods=["GET", "POST"])
@login_required
def edit(id: int) -> ResponseReturnValue:
    """Change a piece of related material."""
    found, names = record_or_404(RelatedItem, id), register()
    form, conflict = filled(RelatedItemForm, found, names), None
    if form.validate_on_submit():
        conflict = save_form(form, found, names).conflict
        if conflict is None:
            flash(f"{found.title}: saved.")
            return redirect(url_for("related.item", id=id))
    return _form_page(form, found, conflict)


@pages.post("/related/<int:id>/photographs/add")
@login_required
def upload(id: int) -> ResponseReturnValue:
    """Keep a picture of the item."""
    record_or_404(RelatedItem, id)
    for file in request.files.getlist("photographs"):
        try:
            photograph = keep(collection(), file.read())
        except PhotographError as error:
            flash(f"“{(file.filename or '')[:80]}” was not kept. {error}", "error")
            continue
        update(database(), RelatedItem, id, partial(_with, photograph), by=signed_name())
    return redirect(url_for("related.item", id=id))


def _with(photograph: Photograph, found: RelatedItem) -> RelatedItem:
    if any(each.file == photograph.file for each in found.photographs):
        return found
    return dataclasses.replace(found, photographs=(*found.photographs, photograph))


def _in_view(id: int) -> RelatedItem:
    """Return an item as the person asking may see it, or end the request with 404."""
    found = record_or_404(RelatedItem, id)
    if not found.published and not is_member():
        abort(404)
    return item_for(reader(), found)


def _form_page(
    form: RelatedItemForm, found: RelatedItem | None, conflict: object = None
) -> ResponseReturnValue:
    page = render_template("related/edit.html", form=form, item=found, conflict=conflict)
    return page, 422 if form.is_submitted() else 200
