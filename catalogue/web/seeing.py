"""Who sees what: the table of fields that are not public, as the keeper has set it."""

from __future__ import annotations

from typing import cast

from flask import Blueprint, flash, redirect, render_template, request, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection import settings
from catalogue.collection.privacy import LEVELS, Level
from catalogue.web.shared import database, keeper_only

pages = Blueprint("seeing", __name__)


@pages.get("/who-sees-what")
@login_required
def table() -> str:
    """Show which fields members see, and which historians and the keeper alone."""
    keeper_only()
    return render_template("house/seeing.html", levels=settings.levels(database()))


@pages.post("/who-sees-what")
@login_required
def change() -> Response:
    """Keep who sees which field; nothing in the table becomes public."""
    keeper_only()
    chosen = {
        place: cast(Level, request.form.get(".".join(place), level))
        for place, level in LEVELS.items()
    }
    settings.keep_levels(database(), chosen)
    flash("Who sees what: saved.")
    return redirect(url_for("seeing.table"))
