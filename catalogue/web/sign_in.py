"""Signing in by a link that works once, and signing out."""

from __future__ import annotations

from flask import Blueprint, Flask, flash, redirect, render_template, request, session, url_for
from flask_login import LoginManager, UserMixin, login_user, logout_user
from werkzeug.wrappers import Response

from catalogue.collection import accounts
from catalogue.web.shared import database

pages = Blueprint("sign_in", __name__)


class Member(UserMixin):
    """An account as the session knows it."""

    def __init__(self, account: accounts.Account) -> None:
        self.id = account.id
        self.name = account.name
        self.role = account.role


def prepare(app: Flask) -> None:
    """Let the application know who is signed in, and where those go who are not."""
    manager = LoginManager(app)
    manager.login_view = "sign_in.explain"
    manager.login_message = "This page is for members: please sign in first."
    manager.session_protection = "strong"

    @manager.user_loader
    def member(id: str) -> Member | None:
        account = accounts.find(database(), int(id)) if id.isdigit() else None
        return Member(account) if account is not None else None


@pages.get("/sign-in")
def explain() -> str:
    """Say how members sign in."""
    return render_template("sign_in/explain.html")


@pages.get("/sign-in/<token>")
def sign_in(token: str) -> Response | tuple[str, int] | str:
    """Sign in once with a link's token."""
    if request.method == "HEAD":
        return ""  # a look at the link does not use it up
    account = accounts.use_link_token(database(), token)
    if account is None:
        return render_template("sign_in/used.html"), 403
    session.clear()
    login_user(Member(account))
    flash(f"You are signed in as {account.name}.")
    return redirect(url_for("quilts.collection_list"))


@pages.post("/sign-out")
def sign_out() -> Response:
    """End the session."""
    logout_user()
    session.clear()
    return redirect(url_for("quilts.collection_list"))
