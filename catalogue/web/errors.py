"""Error pages: what happened and what to do, in plain words."""

from __future__ import annotations

from flask import Flask, render_template
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException

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
    code = error.code or 500
    title, says = _SAYS.get(code, ("This did not work", str(error.description)))
    return render_template("errors/error.html", code=code, title=title, says=says), code
