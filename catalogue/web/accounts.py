"""Accounts: one's own password and sessions; and for the keeper, everybody's."""

from __future__ import annotations

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user, login_required
from werkzeug.wrappers import Response

from catalogue.collection import accounts, settings, visits
from catalogue.collection.accounts import Account, AccountError
from catalogue.collection.attempts import keep_attempt, seconds_to_wait
from catalogue.collection.passwords import PasswordError, account_with, set_password
from catalogue.web.forms.accounts import ChangePasswordForm, InviteForm
from catalogue.web.shared import database, keeper_only, signed_name

pages = Blueprint("accounts", __name__)


@pages.get("/my-account")
@login_required
def mine() -> str:
    """Show one's own role and sessions, and the form for another password."""
    return _my_page(ChangePasswordForm(), "")


@pages.post("/my-account/password")
@login_required
def change_password() -> ResponseReturnValue:
    """Keep another password; every session ends, this one too."""
    form, account = ChangePasswordForm(), current_user.account
    if not form.validate_on_submit():
        return _my_page(form, "Write the same password twice."), 422
    if account.has_password and _guessing():
        return _my_page(form, "Too many attempts: please wait a while."), 429
    if account.has_password and not _is_present_password(form.present.data or ""):
        return _my_page(form, "The present password is another one."), 422
    try:
        set_password(database(), account, form.password.data, account.name)
    except PasswordError as error:
        return _my_page(form, str(error)), 422
    flash("Your password is set and every session has ended: please sign in with it.")
    return redirect(url_for("sign_in.explain"))


def _guessing() -> bool:
    """Say whether somebody in this session has to wait before guessing at the password again."""
    name, address = current_user.account.name, request.remote_addr or ""
    return seconds_to_wait(database(), name, address, known=True) > 0


def _is_present_password(typed: str) -> bool:
    """Say whether this is the password of whoever is signed in; a guess is kept in mind."""
    name = current_user.account.name
    if account_with(database(), name, typed) is not None:
        return True
    address = request.remote_addr or ""
    keep_attempt(database(), name, address, known=True, succeeded=False)
    return False


@pages.post("/my-account/sessions")
@login_required
def end_sessions() -> Response:
    """End one of one's own sessions, or all but this one."""
    asked = request.form.get("session", "")
    if asked.isascii() and asked.isdigit():
        visits.end(database(), current_user.account, int(asked[:15]))
    else:
        visits.end(database(), current_user.account, but=current_user.token)
    flash("Ended.")
    return redirect(url_for("accounts.mine"))


@pages.get("/accounts")
@login_required
def everybody() -> str:
    """Show all accounts and how to invite somebody; for the keeper."""
    keeper_only()
    return _all_page(InviteForm())


@pages.post("/accounts")
@login_required
def invite() -> ResponseReturnValue:
    """Make an account and show the link with which its owner chooses a password."""
    keeper_only()
    form = InviteForm()
    if not form.validate_on_submit():
        return _all_page(form), 422
    if accounts.by_name(database(), form.name.data):
        form.name.errors = [f"There is an account of the name “{form.name.data}” already."]
        return _all_page(form), 422
    account = accounts.add(database(), form.name.data, form.role.data, by=signed_name())
    return _link_page(account)


@pages.post("/accounts/<int:id>/link")
@login_required
def new_link(id: int) -> ResponseReturnValue:
    """Show a new link with which the owner of an account chooses a password."""
    keeper_only()
    return _link_page(_account(id))


@pages.post("/accounts/<int:id>")
@login_required
def change(id: int) -> Response:
    """Change an account's role, close it, open it again, or end its sessions."""
    keeper_only()
    account, by = _account(id), signed_name()
    try:
        if "close" in request.form:
            accounts.close(database(), account, by)
        elif "open" in request.form:
            accounts.reopen(database(), account, by)
        elif "end" in request.form:
            visits.end(database(), account)
        else:
            accounts.change_role(database(), account, request.form.get("role", ""), by)
    except AccountError as error:
        flash(str(error), "error")
    else:
        flash(f"{account.name}: changed.")
    return redirect(url_for("accounts.everybody"))


def _account(id: int) -> Account:
    return accounts.find(database(), id) or abort(404)


def _my_page(form: ChangePasswordForm, problem: str) -> str:
    sessions = visits.visits_of(database(), current_user.account, current_user.token)
    return render_template("accounts/mine.html", form=form, problem=problem, sessions=sessions)


def _all_page(form: InviteForm) -> str:
    people = [
        (account, visits.visits_of(database(), account))
        for account in accounts.everybody(database())
    ]
    return render_template("accounts/all.html", form=form, people=people, roles=accounts.ROLES)


def _link_page(account: Account) -> str:
    """Show a link once: only its hash is kept.

    It leads to the house's own address where that is known, not to the host that the request names.
    """
    token = accounts.make_link_token(database(), account, "password")
    page = url_for("sign_in.sign_in", token=token)
    house = settings.read(database()).base_address.rstrip("/")
    link = f"{house or request.host_url.rstrip('/')}{page}"
    return render_template("accounts/link.html", account=account, link=link)
