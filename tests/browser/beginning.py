"""Where most browser tests begin: a record that has just been begun."""

from __future__ import annotations

from playwright.sync_api import Page, expect


def begin(page: Page, served: str, title: str) -> str:
    """Begin a record and return its address."""
    page.goto(f"{served}/quilts/new")
    page.get_by_label("Title").fill(title)
    page.get_by_role("button", name="Begin the record").click()
    expect(page.get_by_role("heading", name=title)).to_be_visible()
    return page.url
