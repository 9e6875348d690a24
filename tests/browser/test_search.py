"""A search in a real browser: narrowed, kept as an address, and taken along to a talk on paper."""

from __future__ import annotations

import io

import pytest
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from catalogue.collection.folder import Collection
from catalogue.collection.records import Talk
from catalogue.collection.store import add

pytestmark = pytest.mark.browser


def found(page: Page) -> list[str]:
    return page.locator(".results :is(h2, th[scope=row]) > a[href^='/quilts/']").all_inner_texts()


def test_a_search_is_narrowed_kept_and_printed_as_a_talk(
    browser: Browser, member_page: Page, served: str, sample: Collection
) -> None:
    """Search, narrow by a facet, open the address anew, build a talk of what is ticked, print."""
    page = member_page
    add(sample.database, Talk("Found and told", begins="14:00"), "Tess")
    page.goto(f"{served}/search")
    page.get_by_label("Words").fill("quilt")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("found for “quilt”")
    everything = found(page)
    page.locator(".facet").filter(has_text="Made in").get_by_role("link", name="1930s").click()
    expect(page.locator(".chips.chosen")).to_contain_text("made in: 1930s")
    narrowed = found(page)
    assert 1 < len(narrowed) < len(everything)
    page.get_by_role("link", name="table", exact=True).click()
    expect(page.locator(".results table")).to_be_visible()
    assert found(page) == narrowed

    anew = browser.new_context()
    visiting = anew.new_page()
    visiting.goto(page.url)  # the address alone, in a browser where nobody is signed in
    expect(visiting.locator(".chips.chosen")).to_contain_text("made in: 1930s")
    assert set(found(visiting)) <= set(narrowed)
    anew.close()

    boxes = page.locator("input[name=chosen][type=checkbox]")
    for box in boxes.all()[:2]:
        box.check()
    page.get_by_label("Add to a talk").select_option(label="Found and told")
    page.get_by_role("button", name="Add the quilts ticked above").click()
    expect(page.locator(".chips.chosen")).to_contain_text("made in: 1930s")  # where it was
    page.get_by_role("status").get_by_role("link", name="Found and told").click()
    expect(page.locator("#programme .turn")).to_have_count(2)

    address = page.get_by_role("link", name="Speaker's sheet on Letter, PDF").get_attribute("href")
    answer = page.request.get(served + (address or ""))
    reader = PdfReader(io.BytesIO(answer.body()))
    text = " ".join(" ".join(each.extract_text() for each in reader.pages).split())
    for title in narrowed[:2]:
        assert title in text


def test_on_a_phone_the_results_come_first_and_the_facets_are_folded(
    browser: Browser, served: str
) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 800}, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}/search?q=quilt")
    facet = page.locator(".facet").first
    expect(facet).not_to_be_visible()
    page.locator(".all-facets > summary").click()
    expect(facet).to_be_visible()
    page.get_by_role("link", name="1930s").click()
    expect(page.locator(".chips.chosen")).to_contain_text("made in: 1930s")
    context.close()


def test_beside_wide_results_the_facets_are_open(page: Page, served: str) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto(f"{served}/search?q=quilt")
    expect(page.locator(".facet").first).to_be_visible()
    expect(page.locator(".all-facets > summary")).not_to_be_visible()
    facets, results = page.locator(".narrowing"), page.locator(".results")
    left, right = facets.bounding_box(), results.bounding_box()
    assert left is not None
    assert right is not None
    assert left["x"] + left["width"] <= right["x"]
    assert left["y"] == pytest.approx(right["y"], abs=2)
