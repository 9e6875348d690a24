"""Talks: planned, prepared, copied, and kept as they were given."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required

from catalogue.collection.records import Talk, TalkGiven
from catalogue.collection.store import NotFound
from catalogue.collection.talks.advice import advice_on
from catalogue.collection.talks.clock import on_the_clock, running_time
from catalogue.collection.talks.giving import copy_talk, keep_as_given
from catalogue.collection.talks.naming import names_to_offer
from catalogue.collection.talks.permission import credit_of, picture_to_show
from catalogue.collection.talks.programme import Programme, Turn, programme_of
from catalogue.collection.talks.shown import all_talks, open_talks, shown_at
from catalogue.exhibits.cautions import cautions_for
from catalogue.exhibits.findings import written
from catalogue.printing.kinds import PAPERS
from catalogue.web.editing import add_form, filled, save_form
from catalogue.web.forms.talks import GivenForm, TalkForm
from catalogue.web.shared import database, is_member, reader, record_or_404, register, signed_name

pages = Blueprint("talks", __name__)


@pages.app_context_processor
def _for_templates() -> dict[str, Any]:
    """Give every template what it needs to add to a talk and to say where a quilt was shown."""
    return {
        "open_talks": lambda: open_talks(database()) if is_member() else [],
        "shown_at": lambda quilt: shown_at(database(), quilt, published_only=not is_member()),
        "in_words": lambda day: written(date.fromisoformat(day)) if day else "",
        "on_the_clock": on_the_clock,
        "subject_address": subject_address,
        "picture_to_show": picture_to_show,
        "credit_of": credit_of,
    }


@pages.get("/talks")
def talk_list() -> str:
    """Show the talks that the person asking may see: those to be given, then the given."""
    return render_template(
        "talks/list.html", talks=all_talks(database(), published_only=not is_member())
    )


@pages.get("/talks/<int:id>")
def talk(id: int) -> str:
    """Show one talk: its items on the clock, and to members what helps."""
    programme = programme_in_view(id)
    return render_template(
        "talks/talk.html",
        talk=programme.talk,
        programme=programme,
        running=running_time(programme.talk),
        remarks=advice_on(database(), programme, date.today()) if is_member() else (),
        cautions=cautions_for("pull list") if is_member() and programme.quilts else (),
        papers=PAPERS,
        papers_of=papers_of(),
    )


@pages.route("/talks/new", methods=["GET", "POST"])
@login_required
def new() -> ResponseReturnValue:
    """Begin a talk."""
    names = register()
    form = filled(TalkForm, None, names)
    if form.validate_on_submit():
        return redirect(url_for("talks.talk", id=add_form(Talk, form, names).id))
    return _form_page(form, None)


@pages.route("/talks/<int:id>/edit", methods=["GET", "POST"])
@login_required
def edit(id: int) -> ResponseReturnValue:
    """Change what a talk is and what is in it."""
    found, names = record_or_404(Talk, id), register()
    form, conflict = filled(TalkForm, found, names), None
    if form.validate_on_submit():
        conflict = save_form(form, found, names).conflict
        if conflict is None:
            flash(f"{found.title}: saved.")
            return redirect(url_for("talks.talk", id=id))
    return _form_page(form, found, conflict)


@pages.post("/talks/<int:id>/copy")
@login_required
def copy(id: int) -> ResponseReturnValue:
    """Copy a talk, to be given elsewhere."""
    try:
        copied = copy_talk(database(), id, signed_name())
    except NotFound:
        abort(404)
    flash("This is the copy. Set its day and place.")
    return redirect(url_for("talks.edit", id=copied.id))


@pages.route("/talks/<int:id>/give", methods=["GET", "POST"])
@login_required
def give(id: int) -> ResponseReturnValue:
    """Keep the talk as it was given, so that it can be read unchanged in later years."""
    found = record_or_404(Talk, id)
    form = filled(GivenForm, found, register())
    if form.validate_on_submit():
        version = TalkGiven("", form.on.data, form.place.data, form.audience.data)
        kept = keep_as_given(database(), id, version, signed_name()).givings[-1]
        return redirect(url_for("talks.as_given", id=id, number=kept.id))
    page = render_template("talks/give.html", form=form, talk=found)
    return page, 422 if form.is_submitted() else 200


@pages.get("/talks/<int:id>/given/<int:number>")
@login_required
def as_given(id: int, number: int) -> str:
    """Show a talk as it was given."""
    found = record_or_404(Talk, id)
    version = next((each for each in found.givings if each.id == number), None) or abort(404)
    return render_template("talks/given.html", talk=found, given=version)


def programme_in_view(id: int) -> Programme:
    """Return a talk as the person asking may see it, or end the request with 404."""
    found = record_or_404(Talk, id)
    if not found.published and not is_member():
        abort(404)
    return programme_of(database(), found, reader())


def papers_of() -> tuple[str, ...]:
    """Return the keys of the papers of a talk that the person asking may print.

    The pull list says where things are kept, and is for those who see that of a quilt.
    """
    public = ("slides", "handout")
    if not is_member():
        return public
    return (*public, "speaker", *(["pull"] if reader().sees("Quilt", "locations") else []))


def subject_address(turn: Turn) -> str:
    """Return the address of the page of what an item is about, empty where it has none."""
    if turn.subject is None:
        return ""
    pages_of = {
        "quilt": "quilts.quilt_page",
        "pattern": "patterns.pattern",
        "publication": "publications.publication",
        "related material": "related.item",
        "person": "people.person",
    }
    return url_for(pages_of[turn.kind], id=turn.subject.id)


def _form_page(form: TalkForm, found: Talk | None, conflict: object = None) -> ResponseReturnValue:
    page = render_template(
        "talks/edit.html",
        form=form,
        talk=found,
        conflict=conflict,
        names=names_to_offer(register()),
    )
    return page, 422 if form.is_submitted() else 200
