"""Every change of a record, field by field, and putting back what a field held before."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask_login import login_required
from werkzeug.wrappers import Response

from catalogue.collection.putting_away import called
from catalogue.collection.register import Kind, Register
from catalogue.collection.store import Change, Conflict, Gone, history
from catalogue.collection.store import put_back as restore
from catalogue.web.addresses import whole_number
from catalogue.web.shared import (
    database,
    may,
    reader,
    record_or_404,
    refresh_index,
    register,
    signed_name,
)
from catalogue.web.subjects import subject_or_404

pages = Blueprint("changes", __name__)


# What the ids in a record are ids of.
_REFERENCES = {
    **dict.fromkeys(("party", "donor", "person", "relative", "merged_into"), Kind.PARTY),
    **{"pattern": Kind.PATTERN, "publication": Kind.PUBLICATION, "quilt": Kind.QUILT},
    "related_item": Kind.RELATED_ITEM,
}


@pages.get("/changes/<kind>/<int:id>")
@login_required
def changes(kind: str, id: int) -> str:
    """Show every change of a record that the person asking may see, the newest first."""
    subject = subject_or_404(kind)
    record = record_or_404(subject.record, id)
    hidden, names = reader().hidden_fields(record), register()
    return render_template(
        "changes/changes.html",
        kind=kind,
        record=record,
        title=called(record),
        page=url_for(subject.page, id=id),
        changes=[
            (change, [field for field in change.after if field not in hidden])
            for change in history(database(), subject.record, id)
        ],
        told=lambda key, value: _told(names, key, value),
        may_put_back=lambda field: _may_put_back(record, field),
    )


@pages.post("/changes/<kind>/<int:id>")
@login_required
def put_back(kind: str, id: int) -> Response:
    """Make one field what it was before a change; that is a change too, and can be put back."""
    subject = subject_or_404(kind)
    record = record_or_404(subject.record, id)
    change, field = _asked(subject.record, id)
    if field in reader().hidden_fields(record) or not _may_put_back(record, field):
        abort(403)
    seen = whole_number(request.form.get("seen")) or 0
    try:
        restore(database(), subject.record, id, change, field, by=signed_name(), expecting=seen)
    except Conflict as conflict:
        flash(f"{conflict.change.by} changed this meanwhile: look at it once more.", "error")
    except Gone as gone:
        flash(str(gone), "error")
    else:
        refresh_index()
        flash(f"Put back, as it was before revision {change.revision}: {_words(field)}.")
    return redirect(url_for("changes.changes", kind=kind, id=id))


def _asked(kind: type[Any], id: int) -> tuple[Change, str]:
    """Return the change and the field that the request names, or end it with 404."""
    revision, field = whole_number(request.form.get("revision")), request.form.get("field", "")
    known = {change.revision: change for change in history(database(), kind, id)}
    change = known.get(revision or 0)
    if change is None or field not in change.before:
        abort(404)
    return change, field


def _may_put_back(record: Any, field: str) -> bool:
    """Publishing and deciding are for historians, backwards too; taking out has its page."""
    if field == "put_away" or (field == "published" and record.put_away):
        return False
    return field not in ("published", "decisions", "merged_into") or may("historian")


def _told(names: Register, key: str, value: Any) -> Any:
    """Return the name of what an id refers to, and any other value as it is."""
    if key not in _REFERENCES or not isinstance(value, int) or isinstance(value, bool):
        return value
    try:
        return names.label_of(_REFERENCES[key], value)
    except LookupError:
        return f"number {value}, no longer on record"


def _words(field: str) -> str:
    return field.replace("_", " ")
