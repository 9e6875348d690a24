"""Error pages: what happened and what to do, in plain words."""

from __future__ import annotations

from flask import Flask, current_app, render_template
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, InternalServerError

from catalogue.collection.trouble import Kind, Trouble, trouble_in

_SAYS = {
    400: (
        "This could not be read",
        "What your browser sent was incomplete. Go back and try again.",
    ),
    403: ("Not for this account", "You are signed in, but this needs another role."),
    404: (
        "Nothing here",
        "There is no such page, or it is not published. The record may have another address now.",
    ),
    405: ("Not this way", "This address cannot be used like that. Go back and try again."),
    413: ("Too large", "What you sent is too large. Send fewer or smaller photographs at a time."),
    500: (
        "Something failed",
        "The fault is ours and has been noted. What was saved before is safe.",
    ),
}

_KEPT = (
    "Nothing of yours was saved just now, and everything that was confirmed before is safe."
    " Your text is still in the form: go back to it"
)
# What the disk or the database complained of: the code, the title, and what can be done.
_TROUBLE: dict[Kind, tuple[int, str, str]] = {
    "full": (507, "The disk is full", f"{_KEPT}, make room on the disk, and save again."),
    "protected": (
        507,
        "The collection cannot be written to",
        f"{_KEPT}, let the folder be written to again, and save once more.",
    ),
    "busy": (
        503,
        "Somebody else was saving for too long",
        f"{_KEPT} and save again.",
    ),
    "damaged": (
        500,
        "The database is damaged",
        "It is not shown, lest it be wrong. Let the keeper stop the catalogue, see with “catalogue"
        " check” how far it goes, and restore the newest copy into a new folder.",
    ),
    "failing": (
        500,
        "The disk reports a fault",
        f"{_KEPT}. Make a copy onto another disk before anything else.",
    ),
}


def prepare(app: Flask) -> None:
    """Register the error pages."""
    app.register_error_handler(CSRFError, _expired)
    app.register_error_handler(HTTPException, _failed)


def _expired(_: CSRFError) -> tuple[str, int]:
    says = "The page was open too long, or in another session. Go back, copy your text, reload."
    return render_template(
        "errors/error.html", code=400, title="Please send it again", says=says
    ), 400


def _failed(error: HTTPException) -> tuple[str, int]:
    if isinstance(error, InternalServerError):
        trouble = trouble_in(error.original_exception)
        if trouble is not None:
            return _troubled(trouble)
    code = error.code or 500
    return _page(code, *_SAYS.get(code, ("This did not work", str(error.description))))


def _troubled(trouble: Trouble) -> tuple[str, int]:
    """Say what is the matter under the program, and what can be done."""
    code, title, says = _TROUBLE[trouble.kind]
    if trouble.kind == "damaged":
        says = f"{trouble.says} {says}"
    return _page(code, title, says)


def _page(code: int, title: str, says: str) -> tuple[str, int]:
    """Return an error page; without the frame of the other pages if that fails as well."""
    telling = {"code": code, "title": title, "says": says}
    try:
        return render_template("errors/error.html", **telling), code
    except Exception:  # the frame reads the collection's name and the account from the database
        bare = current_app.jinja_env.get_template("errors/bare.html")
        return bare.render(**telling), code
