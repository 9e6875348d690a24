"""Unsaved typing outlives a lost connection, a closed page and an ended session."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from beginning import begin
from playwright.sync_api import Page, expect

from catalogue.collection.folder import Collection

pytestmark = pytest.mark.browser

STORY = "Found folded in a flour sack; the sack is kept too."
OFFER = "What you typed here on"


def story(page: Page, served: str, title: str) -> str:
    """Begin a record, open the form of its story, and return that address."""
    address = f"{begin(page, served, title)}/edit/story"
    page.goto(address)
    return address


def type_story(page: Page) -> None:
    page.get_by_label("History").press_sequentially(STORY)


def test_a_closed_page_offers_its_typing_again(member_page: Page, served: str) -> None:
    address = story(member_page, served, "Closed too early")
    expect(member_page.get_by_text(OFFER)).not_to_be_visible()
    type_story(member_page)
    member_page.goto(served)
    member_page.goto(address)
    expect(member_page.get_by_text(OFFER)).to_be_visible()
    member_page.get_by_role("button", name="Put it back into the form").click()
    expect(member_page.get_by_label("History")).to_have_value(STORY)


def test_what_was_saved_is_not_offered_again(member_page: Page, served: str) -> None:
    address = story(member_page, served, "Saved in time")
    type_story(member_page)
    member_page.get_by_role("button", name="Save", exact=True).click()
    expect(member_page.get_by_text("Description and history: saved.")).to_be_visible()
    member_page.goto(address)
    expect(member_page.get_by_text(OFFER)).not_to_be_visible()


def test_what_is_thrown_away_is_not_offered_again(member_page: Page, served: str) -> None:
    address = story(member_page, served, "Thought better of")
    type_story(member_page)
    member_page.goto(served)
    member_page.goto(address)
    member_page.get_by_role("button", name="Throw it away").click()
    member_page.goto(address)
    expect(member_page.get_by_text(OFFER)).not_to_be_visible()


def test_a_lost_connection_loses_no_typing(member_page: Page, served: str) -> None:
    address = story(member_page, served, "Out of reach")
    type_story(member_page)
    member_page.context.set_offline(True)
    member_page.get_by_role("button", name="Save", exact=True).click()
    member_page.wait_for_timeout(300)
    member_page.context.set_offline(False)
    member_page.goto(address)
    member_page.get_by_role("button", name="Put it back into the form").click()
    expect(member_page.get_by_label("History")).to_have_value(STORY)


def test_an_ended_session_loses_no_typing_and_comes_back_to_the_form(
    member_page: Page, served: str, sample: Collection, sign_in_link: Callable[[], str]
) -> None:
    address = story(member_page, served, "Too long at table")
    type_story(member_page)
    sample.database.execute("UPDATE visit SET ended = '2026-01-01T00:00:00Z' WHERE ended IS NULL")
    member_page.get_by_role("button", name="Save", exact=True).click()
    expect(member_page.get_by_text("please sign in first")).to_be_visible()
    assert "next=" in member_page.url
    member_page.goto(sign_in_link())
    member_page.goto(address)
    member_page.get_by_role("button", name="Put it back into the form").click()
    member_page.get_by_role("button", name="Save", exact=True).click()
    expect(member_page.get_by_text(STORY)).to_be_visible()


def test_rows_that_were_added_come_back(member_page: Page, served: str) -> None:
    story(member_page, served, "Many cloths")
    address = member_page.url.replace("story", "cloth")
    member_page.goto(address)
    rows = member_page.locator('fieldset[data-rows="materials"]')
    for _ in range(2):
        rows.get_by_role("button", name="Another row").click()
    member_page.locator("[name=materials-3-fibre]").press_sequentially("wool challis")
    member_page.goto(served)
    member_page.goto(address)
    member_page.get_by_role("button", name="Put it back into the form").click()
    expect(member_page.locator("[name=materials-3-fibre]")).to_have_value("wool challis")
