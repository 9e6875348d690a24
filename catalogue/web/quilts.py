"""The collection as a list or as pictures, one quilt's page, and the history of its record."""

from __future__ import annotations

from dataclasses import replace

from flask import Blueprint, flash, redirect, render_template, request, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection import settings
from catalogue.collection.completeness import cdwa_of, object_id_of
from catalogue.collection.describing import changed_since, composed
from catalogue.collection.inscribed import Named, named_in
from catalogue.collection.ownership import findings
from catalogue.collection.pattern_notes import made_years, pattern_doubts, suggestions
from catalogue.collection.records import Quilt
from catalogue.collection.related import Related
from catalogue.collection.related_items import items_of
from catalogue.collection.safekeeping.held import is_copied
from catalogue.collection.search.alike import more_like_this
from catalogue.collection.search.finding import decades, find
from catalogue.collection.summary import Summary, headline_date, makers_line, summarise
from catalogue.dating.eras import Era, eras_within
from catalogue.description.asking import Completeness
from catalogue.web.addresses import wanted_from, whole_number
from catalogue.web.editing import add_form, filled
from catalogue.web.forms.sections import SECTIONS, IdentityForm
from catalogue.web.sections import number_is_free
from catalogue.web.shared import (
    collection,
    database,
    index,
    is_member,
    quilt_in_view,
    quilts_in_view,
    reader,
    register,
)

pages = Blueprint("quilts", __name__)

LOOKS = ("pictures", "table")


@pages.get("/")
def collection_list() -> str:
    """Show the collection, as pictures or as a table."""
    wanted = wanted_from(request.args, default_sort="number")
    found = find(
        database(),
        index(),
        wanted,
        reader=reader(),
        page=whole_number(request.args.get("page")) or 1,
        per_page=24,
    )
    quilts, related = quilts_in_view(found.ids)
    look = request.args.get("as", "pictures")
    return render_template(
        "quilts/collection.html",
        wanted=wanted,
        found=found,
        summaries=[summarise(quilt, related) for quilt in quilts],
        decades=decades(database(), index(), reader=reader()),
        look=look if look in LOOKS else "pictures",
    )


@pages.get("/quilts/<int:id>")
def quilt_page(id: int) -> str:
    """Show one quilt: everything on record that the person asking may see."""
    quilt, related = quilt_in_view(id)
    return render_template(
        "quilts/quilt.html",
        quilt=quilt,
        related=related,
        makers=makers_line(quilt, related),
        date=headline_date(quilt),
        standards=_standards(quilt, related) if is_member() else [],
        composed=composed(quilt, related),
        moved_on=changed_since(quilt, related),
        findings=findings(quilt, related, settings.read(database()).name),
        named_in=_named_in(quilt),
        eras=_eras(quilt),
        doubts=pattern_doubts(quilt, related),
        items=items_of(database(), "quilt", id, reader=reader()),
        suggestions=suggestions(quilt, related) if is_member() else (),
        alike=_alike(id),
        sections=SECTIONS,
    )


def _alike(id: int) -> list[tuple[Summary, tuple[str, ...]]]:
    """Return the quilts most like this one, and why."""
    found = more_like_this(database(), index(), id, reader=reader())
    quilts, related = quilts_in_view(tuple(each.quilt for each in found))
    reasons = {each.quilt: each.reasons for each in found}
    return [(summarise(quilt, related), reasons[quilt.id or 0]) for quilt in quilts]


def _eras(quilt: Quilt) -> tuple[Era, ...]:
    """Return the eras in which the quilt was made, where its years are known well enough."""
    first, last = made_years(quilt)
    if first is None or last is None or last - first > 40:
        return ()
    return eras_within(first, last)[:3]


def _named_in(quilt: Quilt) -> dict[int | None, Named]:
    """Return whom and which years the inscriptions name; to visitors, the years alone."""
    named = named_in(database(), quilt.inscriptions)
    if is_member():
        return named
    return {id: replace(each, people=()) for id, each in named.items()}


def _standards(quilt: Quilt, related: Related) -> list[tuple[str, Completeness]]:
    """Return how far the record answers each standard."""
    house = settings.read(database())
    return [
        (
            "Object ID, the international standard",
            object_id_of(quilt, related, house, second_copy=is_copied(collection(), quilt.id or 0)),
        ),
        ("CDWA, core categories", cdwa_of(quilt, related, house)),
    ]


@pages.route("/quilts/new", methods=["GET", "POST"])
@login_required
def new_quilt() -> Response | tuple[str, int]:
    """Begin the record of a quilt that has just been handed over."""
    names = register()
    form = filled(IdentityForm, None, names)
    if form.validate_on_submit() and number_is_free(form, None):
        quilt = add_form(Quilt, form, names)
        flash("The record is begun. Go on with whatever you know; every section saves on its own.")
        return redirect(url_for("quilts.quilt_page", id=quilt.id))
    return render_template("quilts/new.html", form=form), 422 if form.errors else 200
