"""Browsers that an account has signed in with before, known by a signed cookie of their own.

They do not wait for the guesses of others: nobody can be locked out by a stranger.
"""

from __future__ import annotations

from flask import Request, current_app
from itsdangerous import BadSignature, URLSafeSerializer
from werkzeug.wrappers import Response

from catalogue.collection import accounts
from catalogue.collection.accounts import Account
from catalogue.web.shared import database

_COOKIE = "known_browser"
_SECONDS = 400 * 86_400  # the longest that browsers keep a cookie


def is_known(request: Request, name: str) -> bool:
    """Say whether this browser has signed in to the account of this name before."""
    account = accounts.by_name(database(), name)
    try:
        known = _serializer().loads(request.cookies.get(_COOKIE, ""))
    except BadSignature:
        return False
    return account is not None and isinstance(known, list) and account.id in known


def make_known(answer: Response, account: Account) -> Response:
    """Return the answer with the cookie that makes its browser known to the account."""
    answer.set_cookie(
        _COOKIE,
        str(_serializer().dumps([account.id])),
        max_age=_SECONDS,
        httponly=True,
        samesite="Lax",
        secure=bool(current_app.config["SESSION_COOKIE_SECURE"]),
        path="/sign-in",
    )
    return answer


def _serializer() -> URLSafeSerializer:
    return URLSafeSerializer(current_app.secret_key or b"", salt="known browser")
