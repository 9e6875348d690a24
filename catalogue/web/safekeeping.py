"""Safekeeping: the copies of the collection, making one now, how many stay; for the keeper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import cast

from flask import Blueprint, abort, current_app, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection import settings
from catalogue.collection.database import CollectionError
from catalogue.collection.safekeeping.background import Background
from catalogue.collection.safekeeping.copies import Copy, copies_in, verify
from catalogue.collection.safekeeping.copying import make_copy
from catalogue.collection.safekeeping.rotation import KeepPolicy, KeepPolicyError
from catalogue.collection.safekeeping.standing import standing
from catalogue.web.shared import collection, database, keeper_only

pages = Blueprint("safekeeping", __name__)

_PATIENCE = 3.0  # seconds; a small collection is copied before the next page is shown


@pages.get("/safekeeping")
@login_required
def copies() -> ResponseReturnValue:
    """Show the copies that are there, what is being done, and the room that is left."""
    keeper_only()
    return _page("")


@pages.post("/safekeeping/copies")
@login_required
def make() -> Response:
    """Make a copy while people go on working."""
    keeper_only()
    folder = collection().folder
    return _begin("A copy is being made", lambda: _made(folder))


@pages.post("/safekeeping/copies/<int:number>/verify")
@login_required
def verify_again(number: int) -> Response:
    """Read a copy once more, from the first byte to the last."""
    keeper_only()
    copy = next((each for each in _copies() if each.number == number), None) or abort(404)
    return _begin(f"Copy {copy.number} is being read", lambda: _verified(copy))


@pages.post("/safekeeping/policy")
@login_required
def change_policy() -> ResponseReturnValue:
    """Change how many copies are kept."""
    keeper_only()
    asked = {name: request.form.get(name, "").strip() for name in ("last", "weeks", "months")}
    try:
        settings.set_keep_policy(database(), KeepPolicy.from_texts(asked))
    except KeepPolicyError as error:
        return _page(str(error)), 422
    flash("How many copies are kept: saved.")
    return redirect(url_for("safekeeping.copies"))


def background() -> Background:
    """What is being done beside the pages."""
    return cast(Background, current_app.extensions["background"])


def _page(problem: str) -> str:
    return render_template(
        "safekeeping/copies.html",
        copies=_copies(),
        policy=settings.keep_policy(database()),
        sent=request.form,
        problem=problem,
        background=background(),
        standing=standing(collection().folder),
    )


def _copies() -> list[Copy]:
    return copies_in(_place(collection().folder))


def _place(folder: Path) -> Path:
    return folder / "backups"


def _begin(doing: str, task: Callable[[], str]) -> Response:
    if background().start(doing, task):
        background().wait(_PATIENCE)
    else:
        flash(f"{background().doing}: please wait until that is done.", "error")
    return redirect(url_for("safekeeping.copies"))


def _made(folder: Path) -> str:
    copy = make_copy(folder, _place(folder), _untold)
    return f"Copy {copy.number} was made and verified."


def _verified(copy: Copy) -> str:
    verdict = verify(copy.folder, _untold)
    if verdict.faults:
        raise CollectionError(f"Copy {copy.number} is damaged. {verdict.faults[0]}")
    return f"Copy {copy.number} is whole: every byte is as it was made."


def _untold(done: int, total: int) -> None:
    del done, total
