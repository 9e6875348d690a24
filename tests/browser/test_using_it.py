"""The main job in a real browser: document, measure, find again, print; and by keyboard alone."""

from __future__ import annotations

from itertools import pairwise

import pytest
from beginning import begin
from flask import Flask
from playwright.sync_api import Browser, Page, expect

from catalogue.collection.folder import Collection

pytestmark = pytest.mark.browser


def test_readings_are_worked_out_while_they_are_typed(member_page: Page, served: str) -> None:
    address = begin(member_page, served, "Typed on a tablet")
    member_page.goto(f"{address}/measurements")
    for name, typed in (
        ("overall-1-width-0", "92"),
        ("overall-1-length-0", "7' 6 1/2\""),
        ("block-1-width-0", "12"),
        ("sashing-1-width-0", "2 1/2"),
        ("border-1-width-0", "3"),
    ):
        member_page.locator(f"[name={name}]").fill(typed)
    member_page.get_by_label("Sashing", exact=True).select_option("present")
    result = member_page.locator("#result")
    expect(result).to_contain_text("probable")
    expect(result.locator("svg").first).to_be_visible()
    member_page.get_by_role("button", name="Save the measurements").click()
    member_page.get_by_role("button", name="Accept this layout").first.click()
    expect(member_page.get_by_text("Layout: accepted.")).to_be_visible()


def test_how_a_date_is_read_is_shown_while_it_is_typed(member_page: Page, served: str) -> None:
    address = begin(member_page, served, "Dated while typing")
    member_page.goto(f"{address}/edit/making")
    member_page.locator("[name=phases-0-kind]").select_option("pieced")
    date = member_page.locator("[name=phases-0-date]")
    date.fill("c. 1935")
    date.blur()
    expect(member_page.get_by_text("Read as about 1935.")).to_be_visible()
    member_page.get_by_role("button", name="Save", exact=True).click()
    expect(member_page.get_by_text("Makers and dates: saved.")).to_be_visible()


def test_another_row_is_added_without_saving(member_page: Page, served: str) -> None:
    address = begin(member_page, served, "With many cloths")
    member_page.goto(f"{address}/edit/cloth")
    rows = member_page.locator('fieldset[data-rows="materials"] > .row')
    before = rows.count()
    member_page.locator('fieldset[data-rows="materials"] > button').click()
    expect(rows).to_have_count(before + 1)
    member_page.locator(f"[name=materials-{before}-fibre]").fill("chintz")
    member_page.get_by_role("button", name="Save", exact=True).click()
    expect(member_page.get_by_text("chintz", exact=True)).to_be_visible()


def test_a_visitor_searches_and_opens_a_quilt_by_keyboard(page: Page, served: str) -> None:
    page.goto(f"{served}/search")
    page.get_by_label("Words").focus()
    page.keyboard.type("star")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("found")
    expect(page.locator("mark").first).to_be_visible()
    page.locator("ol.found a").first.focus()
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_be_visible()
    assert "/quilts/" in page.url


def test_the_first_tab_leads_past_the_navigation(page: Page, served: str) -> None:
    page.goto(served)
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the content")).to_be_focused()


def test_everything_works_without_script(browser: Browser, served: str, sample: Collection) -> None:
    from catalogue.collection import accounts

    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    keeper = accounts.add(sample.database, "Tess", "keeper")
    page.goto(f"{served}/sign-in/{accounts.make_link_token(sample.database, keeper)}")
    address = begin(page, served, "Without script")
    page.goto(f"{address}/measurements")
    page.locator("[name=overall-1-width-0]").fill("60")
    page.locator("[name=overall-1-length-0]").fill("72")
    page.locator("[name=block-1-width-0]").fill("12")
    page.get_by_role("button", name="Only work it out").click()
    expect(page.locator("#result")).to_contain_text("5 × 6")
    context.close()


def test_a_page_has_one_heading_of_the_first_level_and_names_its_parts(
    page: Page, served: str, sample_app: Flask
) -> None:
    """What a screen reader lists: landmarks, one chief heading, no level skipped."""
    page.goto(f"{served}/quilts/1")
    levels = page.eval_on_selector_all("h1, h2, h3, h4", "all => all.map(h => +h.tagName[1])")
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(later - earlier <= 1 for earlier, later in pairwise(levels))
    for role in ("banner", "navigation", "main", "contentinfo"):
        assert page.get_by_role(role).count() >= 1  # type: ignore[arg-type]
    assert page.locator("img:not([alt])").count() == 0
    for drawing in page.locator("svg[role=img]").all():
        assert drawing.get_attribute("aria-labelledby") or drawing.get_attribute("aria-label")
