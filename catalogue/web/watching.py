"""The watch book for the keeper: who signed in or tried to, who changed what, what went out."""

from __future__ import annotations

from flask import Blueprint, render_template
from flask_login import login_required

from catalogue.collection.attempts import attempts
from catalogue.collection.happenings import happenings
from catalogue.collection.safekeeping.copies import copies_in
from catalogue.collection.safekeeping.standing import standing
from catalogue.collection.watching import changed_by_person, last_changes
from catalogue.web.shared import collection, database, keeper_only
from catalogue.web.subjects import NAMED

pages = Blueprint("watching", __name__)


@pages.get("/watch-book")
@login_required
def book() -> str:
    """Show what happened lately."""
    keeper_only()
    folder = collection().folder
    return render_template(
        "watch/book.html",
        signed_in=attempts(database(), succeeded=True),
        refused=attempts(database(), succeeded=False),
        people=changed_by_person(database()),
        changes=last_changes(database()),
        kinds=NAMED,
        happenings=happenings(database()),
        copies=copies_in(folder / "backups"),
        standing=standing(folder),
    )
