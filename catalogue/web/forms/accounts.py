"""Signing in, choosing a password, inviting somebody."""

from __future__ import annotations

from typing import Any

from flask_wtf import FlaskForm
from wtforms import PasswordField
from wtforms.validators import DataRequired, EqualTo, Length

from catalogue.collection.accounts import ROLES
from catalogue.web.forms.fields import ChoiceField, LineField, Needed

_MOST = Length(max=500)


class SignInForm(FlaskForm):
    name = LineField("Your name", validators=[Needed("Write your name.")])
    password = PasswordField("Password", validators=[DataRequired(), _MOST])


class PasswordForm(FlaskForm):
    password = PasswordField(
        "New password",
        description="15 characters or more: four plain words that do not belong together",
        validators=[DataRequired(), _MOST],
    )
    again = PasswordField("Once more", validators=[EqualTo("password")])


class ChangePasswordForm(PasswordForm):
    present = PasswordField("Present password", validators=[_MOST])


class InviteForm(FlaskForm):
    name = LineField("Name", validators=[Needed("Write the name."), Length(max=120)])
    role = ChoiceField("Role", ROLES)

    def validate_name(self, field: Any) -> None:
        field.data = " ".join(field.data.split())
