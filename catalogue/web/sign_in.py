"""Signing in by name and password or by a link that works once, and signing out."""

from __future__ import annotations

from flask import (
    Blueprint,
    Flask,
    current_app,
    flash,
    redirect,
    render_template,
    request,
    session,
    url_for,
)
from flask.typing import ResponseReturnValue
from flask_login import LoginManager, UserMixin, current_user, login_user, logout_user
from werkzeug.wrappers import Response

from catalogue.collection import accounts, visits
from catalogue.collection.accounts import Account
from catalogue.collection.attempts import keep_attempt, seconds_to_wait
from catalogue.collection.passwords import PasswordError, account_with, set_password
from catalogue.web.addresses import own_page
from catalogue.web.forms.accounts import PasswordForm, SignInForm
from catalogue.web.known_browsers import is_known, make_known
from catalogue.web.shared import database

pages = Blueprint("sign_in", __name__)


class Member(UserMixin):
    """An account as the session knows it; the session holds the token of its visit."""

    def __init__(self, account: Account, token: str) -> None:
        self.account = account
        self.token = token
        self.id = account.id
        self.name = account.name
        self.role = account.role

    def get_id(self) -> str:
        """Return what the session keeps: the token, not the account."""
        return self.token


def prepare(app: Flask) -> None:
    """Let the application know who is signed in, and where those go who are not."""
    manager = LoginManager(app)
    manager.session_protection = "strong"

    @manager.user_loader
    def member(token: str) -> Member | None:
        account = visits.account_of(database(), token)
        return Member(account, token) if account is not None else None

    @manager.unauthorized_handler
    def ask() -> Response:
        flash("This page is for members: please sign in first. What you typed is kept.", "error")
        return redirect(url_for("sign_in.explain", next=_page_asked_for()))


@pages.get("/sign-in")
def explain() -> str:
    """Ask for name and password, and say how members get them."""
    next = own_page(request.args.get("next", ""))
    return render_template("sign_in/explain.html", form=SignInForm(), problem="", next=next)


@pages.post("/sign-in")
def with_password() -> ResponseReturnValue:
    """Sign in with name and password; whoever guesses waits longer and longer."""
    form = SignInForm()
    if not form.validate_on_submit():
        return _refused(form, "Write your name and your password.", 422)
    name, address = form.name.data, _address()
    known = is_known(request, name)
    wait = seconds_to_wait(database(), name, address, known)
    if wait:
        answer = _refused(form, f"Too many attempts: please wait {_in_words(wait)}.", 429)
        answer.headers["Retry-After"] = str(wait)
        return answer
    account = account_with(database(), name, form.password.data)
    keep_attempt(database(), name, address, known=known, succeeded=account is not None)
    if account is None:
        return _refused(form, "Name and password do not go together.", 403)
    return make_known(_enter(account, own_page(request.form.get("next", ""))), account)


@pages.get("/sign-in/<token>")
def sign_in(token: str) -> ResponseReturnValue:
    """Sign in once with a link's token, or ask for the password that the link is for."""
    found = accounts.link_purpose(database(), token)
    if request.method == "HEAD":
        return ""  # a look at the link does not use it up
    if found is None:
        return render_template("sign_in/used.html"), 403
    account, purpose = found
    if purpose == "password":
        return render_template(
            "sign_in/choose.html", form=PasswordForm(), account=account, problem=""
        )
    if accounts.use_link_token(database(), token) is None:
        return render_template("sign_in/used.html"), 403
    keep_attempt(database(), account.name, _address(), known=False, succeeded=True)
    return _enter(account)


@pages.post("/sign-in/<token>")
def choose_password(token: str) -> ResponseReturnValue:
    """Keep the password that a link is for, use the link up, and sign in."""
    found = accounts.link_purpose(database(), token)
    if found is None or found[1] != "password":
        return render_template("sign_in/used.html"), 403
    account, form = found[0], PasswordForm()
    problem = "" if form.validate_on_submit() else "Write the same password twice."
    if not problem:
        try:
            set_password(database(), account, form.password.data, account.name)
        except PasswordError as error:
            problem = str(error)
    if problem:
        page = render_template("sign_in/choose.html", form=form, account=account, problem=problem)
        return page, 422
    accounts.use_link_token(database(), token)
    return make_known(_enter(account), account)


@pages.post("/sign-out")
def sign_out() -> Response:
    """End the session."""
    if current_user.is_authenticated:
        visits.end_of_token(database(), current_user.token)
    logout_user()
    session.clear()
    answer = redirect(url_for("quilts.collection_list"))
    answer.headers["Clear-Site-Data"] = '"cache"'  # whoever goes back sees no member's page
    return answer


def _enter(account: Account, next: str = "") -> Response:
    """Begin a session of its own; nothing of the one before it is kept."""
    session.clear()
    token = visits.begin(database(), account, _address(), request.user_agent.string)
    login_user(Member(account, token))
    flash(f"You are signed in as {account.name}.")
    return redirect(next or url_for("quilts.collection_list"))


def _page_asked_for() -> str:
    """Return the page to come back to: the one asked for, or the form that was being sent."""
    if request.method == "GET":
        return request.full_path.rstrip("?")
    readable = current_app.url_map.bind("").test(request.path, "GET")
    return request.path if readable else ""


def _refused(form: SignInForm, problem: str, code: int) -> Response:
    next = own_page(request.form.get("next", ""))
    page = render_template("sign_in/explain.html", form=form, problem=problem, next=next)
    return Response(page, status=code, mimetype="text/html")


def _address() -> str:
    return request.remote_addr or ""


def _in_words(seconds: int) -> str:
    if seconds < 90:
        return f"{seconds} second{'' if seconds == 1 else 's'}"
    return f"{round(seconds / 60)} minutes"
