"""The house itself: what it is called, and how it reads dates."""

from __future__ import annotations

from flask import Blueprint, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required

from catalogue.collection import settings
from catalogue.values.date_policy import POLICY_TABLE, DatePolicyError
from catalogue.values.dates import DateError, read_date
from catalogue.web.forms.house import HouseForm
from catalogue.web.shared import database, date_policy, keeper_only

pages = Blueprint("house", __name__)


@pages.route("/house", methods=["GET", "POST"])
@login_required
def house() -> ResponseReturnValue:
    """Show and change what the collection says of itself; for the keeper."""
    keeper_only()
    standing = settings.read(database())
    form = HouseForm(obj=standing)
    if form.validate_on_submit():
        settings.write(
            database(),
            settings.Settings(
                form.name.data,
                form.place.data,
                form.about.data,
                form.base_address.data,
                form.light_limit.data,
                form.rest_norm.data,
            ),
        )
        flash("The house: saved.")
        return redirect(url_for("house.house"))
    return render_template("house/house.html", form=form), 422 if form.is_submitted() else 200


@pages.get("/how-dates-are-read")
def dates() -> str:
    """Show what vague words of time mean here."""
    return _dates_page("")


@pages.post("/how-dates-are-read")
@login_required
def change_dates() -> ResponseReturnValue:
    """Change what vague words of time mean; for the keeper."""
    keeper_only()
    asked = {row.key: request.form.get(row.key, "").strip() for row in POLICY_TABLE}
    try:
        settings.keep_date_policy(database(), date_policy().changed(asked))
    except DatePolicyError as error:
        return _dates_page(str(error)), 422
    flash("How dates are read: saved. Dates on record stay as they were understood.")
    return redirect(url_for("house.dates"))


def _dates_page(problem: str) -> str:
    return render_template(
        "house/dates.html",
        rows=POLICY_TABLE,
        policy=date_policy(),
        sent=request.form,
        problem=problem,
    )


@pages.get("/read-date")
@login_required
def read_one_date() -> dict[str, str]:
    """Return how one text is read as a date, in words and as EDTF; the words say what is wrong."""
    try:
        date = read_date(request.args.get("text", ""), date_policy())
    except DateError as error:
        return {"says": str(error), "edtf": ""}
    return {"says": f"Read as {date.says}.", "edtf": date.edtf}
