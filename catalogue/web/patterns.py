"""Patterns: the designs that quilts follow, their names, and where they were published."""

from __future__ import annotations

from flask import Blueprint, flash, redirect, render_template, url_for
from flask_login import login_required
from werkzeug.wrappers import Response
from wtforms.fields.choices import SelectChoice

from catalogue.collection.records import Pattern, Publication
from catalogue.collection.related_items import items_of
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.store import load_many
from catalogue.collection.summary import summarise
from catalogue.collection.used import patterns_in_use
from catalogue.patterns import thesaurus
from catalogue.web.editing import add_form, filled, name_lists, save_form
from catalogue.web.forms.register import PatternForm
from catalogue.web.shared import (
    database,
    index,
    is_member,
    quilts_in_view,
    reader,
    record_or_404,
    register,
)

pages = Blueprint("patterns", __name__)


@pages.get("/patterns")
def pattern_list() -> str:
    """Show every pattern; to visitors, those of published quilts."""
    uses = patterns_in_use(database(), published_only=not is_member())
    patterns = {each.id: each for each in load_many(database(), Pattern, [u.id for u in uses])}
    return render_template("patterns/list.html", uses=uses, patterns=patterns)


@pages.get("/patterns/<int:id>")
def pattern(id: int) -> str:
    """Show one pattern: its drawing, its names, its printings, its quilts."""
    record = record_or_404(Pattern, id)
    found = find(
        database(),
        index(),
        Wanted(pattern=(id,), sort="date"),
        reader=reader(),
    )
    quilts, related = quilts_in_view(found.ids)
    ids = sorted({printing.publication for printing in record.printings})
    return render_template(
        "patterns/pattern.html",
        pattern=record,
        design=thesaurus.design(record.design) if record.design else None,
        publications={each.id: each for each in load_many(database(), Publication, ids)},
        found=found,
        items=items_of(database(), "pattern", id, reader=reader()),
        summaries=[summarise(quilt, related) for quilt in quilts],
    )


@pages.route("/patterns/new", methods=["GET", "POST"])
@login_required
def new() -> Response | str | tuple[str, int]:
    """Add a pattern."""
    names = register()
    form = _with_designs(filled(PatternForm, None, names))
    if form.validate_on_submit():
        return redirect(url_for("patterns.pattern", id=add_form(Pattern, form, names).id))
    return _form_page(form, None)


@pages.route("/patterns/<int:id>/edit", methods=["GET", "POST"])
@login_required
def edit(id: int) -> Response | str | tuple[str, int]:
    """Change a pattern."""
    record, names = record_or_404(Pattern, id), register()
    form, conflict = _with_designs(filled(PatternForm, record, names)), None
    if form.validate_on_submit():
        conflict = save_form(form, record, names).conflict
        if conflict is None:
            flash(f"{record.name}: saved.")
            return redirect(url_for("patterns.pattern", id=id))
    return _form_page(form, record, conflict)


def _with_designs(form: PatternForm) -> PatternForm:
    """Offer the traditional designs that the thesaurus can draw."""
    designs = [SelectChoice(design.slug, design.name) for design in thesaurus.designs()]
    form.design.choices = [SelectChoice("", "none of these"), *designs]
    return form


def _form_page(
    form: PatternForm, record: Pattern | None, conflict: object = None
) -> str | tuple[str, int]:
    page = render_template(
        "patterns/edit.html",
        form=form,
        pattern=record,
        conflict=conflict,
        name_lists=name_lists(form, register()),
    )
    return (page, 422) if form.is_submitted() else page
