"""The application factory: one collection, its pages, and the headers every answer carries."""

from __future__ import annotations

from datetime import timedelta

from flask import Flask, Response, request
from flask_wtf import CSRFProtect

from catalogue import shipped
from catalogue.collection import settings
from catalogue.collection.folder import Collection
from catalogue.collection.safekeeping.background import Background
from catalogue.collection.search.indexing import SearchIndex
from catalogue.web import (
    accounts,
    asking,
    cards,
    changes,
    describing,
    eras,
    errors,
    evidence,
    exhibit_lists,
    exhibits,
    finding,
    house,
    measuring,
    ownership,
    paper,
    patterns,
    people,
    photo_reading,
    photographs,
    presentation,
    publications,
    putting_away,
    quilts,
    related,
    safekeeping,
    sections,
    seeing,
    sign_in,
    squaring,
    talk_items,
    talk_paper,
    talks,
    watching,
    working_out,
)
from catalogue.web.addresses import RecordNumber
from catalogue.web.patient_sessions import PatientSessions
from catalogue.web.shared import is_member

_HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
        " connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}

_LARGEST_FORM = 4 * 2**20
LARGEST_UPLOAD = 260 * 2**20  # several photographs at once

_SUBJECTS = (
    sign_in,
    accounts,
    asking,
    finding,
    quilts,
    sections,
    measuring,
    ownership,
    photographs,
    squaring,
    photo_reading,
    cards,
    paper,
    exhibits,
    exhibit_lists,
    talks,
    talk_items,
    talk_paper,
    describing,
    evidence,
    eras,
    people,
    patterns,
    publications,
    related,
    working_out,
    house,
    seeing,
    changes,
    putting_away,
    safekeeping,
    watching,
)


def create_app(collection: Collection) -> Flask:
    """Return the application that serves one collection."""
    templates = shipped.folder("templates")
    app = Flask(__name__, template_folder=str(templates), static_folder=str(templates / "static"))
    app.config.update(
        SECRET_KEY=collection.secret(),
        MAX_CONTENT_LENGTH=_LARGEST_FORM,
        MAX_FORM_MEMORY_SIZE=_LARGEST_FORM,
        MAX_FORM_PARTS=8000,
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_SECURE=False,  # set by whoever serves behind HTTPS
        PERMANENT_SESSION_LIFETIME=timedelta(days=14),
        WTF_CSRF_TIME_LIMIT=None,  # a form may stay open all day; the session ends it
    )
    app.session_interface = PatientSessions()
    app.url_map.converters["int"] = RecordNumber
    app.extensions["collection"] = collection
    app.extensions["search_index"] = SearchIndex(collection)
    app.extensions["background"] = Background()
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.before_request(_let_members_send_photographs)  # before the token is read out of the body
    CSRFProtect(app)
    presentation.prepare(app)
    errors.prepare(app)
    for subject in _SUBJECTS:
        app.register_blueprint(subject.pages)
    sign_in.prepare(app)
    app.context_processor(lambda: {"collection_settings": settings.read(collection.database)})
    app.after_request(_guarded)
    return app


def _let_members_send_photographs() -> None:
    """Read large bodies of members alone, and as files alone: a form is taken apart in memory."""
    if request.mimetype == "multipart/form-data" and is_member():
        request.max_content_length = LARGEST_UPLOAD


def _guarded(response: Response) -> Response:
    """Tell browsers what may act, and caches that a page is for whoever asked."""
    if request.endpoint != "static":
        keeping = response.cache_control
        keeping.public, keeping.private = False, True
        if keeping.max_age is None:
            keeping.no_cache = True
    for name, value in _HEADERS.items():
        response.headers.setdefault(name, value)
    return response
