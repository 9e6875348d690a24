"""Browsers without a window: of the keeper, of somebody of another role, of nobody."""

from __future__ import annotations

from flask import Flask
from flask.testing import FlaskClient

from catalogue.collection import accounts


def signed_in(app: Flask, role: str = "keeper", name: str = "") -> FlaskClient:
    """Return a browser that has used a fresh sign-in link; that of a "visitor" has not."""
    client = app.test_client()
    if role != "visitor":
        database = app.extensions["collection"].database
        account = accounts.add(database, name or f"The {role}", role)
        client.get(f"/sign-in/{accounts.make_link_token(database, account)}")
    return client
