"""The items of a talk: added from the pages of what they are about, and put in order."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from functools import partial
from typing import Any

from flask import Blueprint, abort, flash, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required
from markupsafe import Markup

from catalogue.collection.records import Talk, TalkItem
from catalogue.collection.store import NotFound, add, update
from catalogue.collection.talks.order import moved, numbered
from catalogue.collection.talks.programme import SUBJECTS
from catalogue.web.addresses import own_page, whole_number
from catalogue.web.shared import database, record_or_404, signed_name

pages = Blueprint("talk_items", __name__)

_MOST_AT_ONCE = 100


@pages.post("/talks/add")
@login_required
def add_to_talk() -> ResponseReturnValue:
    """Add what is chosen to a talk, or to a new one, and go back to where it was chosen."""
    what = request.form.get("what", "")
    if what not in SUBJECTS:
        abort(400)
    chosen = [whole_number(each) for each in request.form.getlist("chosen")[:_MOST_AT_ONCE]]
    ids = list(dict.fromkeys(id for id in chosen if id is not None))
    if not ids:
        flash("Nothing is added: tick what the talk is to show.", "error")
        return redirect(_back())
    kind, _ = SUBJECTS[what]
    for id in ids:
        record_or_404(kind, id)
    talk = _talk_meant()
    items = tuple(_item(what, id) for id in ids)
    before = len(talk.items)
    assert talk.id is not None
    kept = update(database(), Talk, talk.id, partial(_with, items), by=signed_name())
    _say(kept, len(kept.items) - before, len(ids))
    return redirect(_back())


def _item(what: str, id: int) -> TalkItem:
    about: dict[str, Any] = {what: id}
    return TalkItem(**about)


def _talk_meant() -> Talk:
    """Return the talk that is named in the form, a new one where that is asked for."""
    named = request.form.get("talk", "")
    if named == "new":
        title = request.form.get("title", "").strip()[:200] or "A new talk"
        return add(database(), Talk(title), signed_name())
    id = whole_number(named)
    return record_or_404(Talk, id) if id is not None else abort(400)


def _with(items: tuple[TalkItem, ...], talk: Talk) -> Talk:
    """Return the talk with these items at its end, but for those that are in it."""
    there = {_about(item) for item in talk.items}
    fresh = tuple(item for item in items if _about(item) not in there)
    return dataclasses.replace(talk, items=talk.items + fresh)


def _about(item: TalkItem) -> tuple[int | str | None, ...]:
    return (item.words, *(getattr(item, name) for name in SUBJECTS))


def _say(talk: Talk, added: int, asked: int) -> None:
    """Say what was added, with the way to the talk."""
    words = "Added" if asked == 1 else f"{added} added"
    if not added:
        words = "In it already"
    link = Markup('{}: <a href="{}">{}</a>, {} {} now.').format(
        words,
        url_for("talks.talk", id=talk.id),
        talk.title,
        len(talk.items),
        "item" if len(talk.items) == 1 else "items",
    )
    flash(link)


def _back() -> str:
    """Return the page of this catalogue from which something was chosen."""
    return own_page(request.form.get("back", "")) or url_for("talks.talk_list")


@pages.post("/talks/<int:id>/order")
@login_required
def order(id: int) -> ResponseReturnValue:
    """Move one item by a step, or put all at the places written beside them."""
    step = request.form.get("move", "")
    edit = _step(step) if step else partial(numbered, wanted=_places(request.form))
    try:
        update(database(), Talk, id, edit, by=signed_name())
    except NotFound:
        abort(404)
    return redirect(url_for("talks.talk", id=id, _anchor="programme"))


def _step(written: str) -> partial[Talk]:
    """Return the move that a button means: the item's number, and up or down."""
    item, _, way = written.partition(" ")
    number = whole_number(item)
    if number is None or way not in ("up", "down"):
        abort(400)
    return partial(moved, item=number, steps=-1 if way == "up" else 1)


def _places(sent: Mapping[str, str]) -> dict[int, int]:
    """Return the places written, by item; what is no number leaves its item where it is."""
    places = {}
    for name, written in sent.items():
        item, place = whole_number(name.removeprefix("place-")), whole_number(written.strip())
        if name.startswith("place-") and item is not None and place is not None:
            places[item] = place
    return places
