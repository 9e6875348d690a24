"""The talk in a real browser: search, narrow, gather, put in order, show and print."""

from __future__ import annotations

import io
import re

import pytest
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from catalogue.collection import accounts
from catalogue.collection.folder import Collection
from catalogue.collection.records import Talk, TalkItem
from catalogue.collection.store import add

pytestmark = pytest.mark.browser


def begin(sample: Collection, *words: str, title: str = "Put in order") -> str:
    """Add a talk of headings and return the path of its page."""
    items = tuple(TalkItem(each, minutes=5) for each in words)
    return f"/talks/{add(sample.database, Talk(title, begins='14:00', items=items), 'Tess').id}"


def order(page: Page) -> list[str]:
    return page.locator("#programme h3").all_inner_texts()


def test_a_talk_is_gathered_from_a_search_and_printed(
    member_page: Page, served: str, sample: Collection
) -> None:
    """Search, narrow by years, tick what was found, set minutes, and open the paper."""
    page = member_page
    begin(sample, title="Stars in the browser")
    page.goto(f"{served}/search")
    page.get_by_label("Words").fill("star")
    page.keyboard.press("Enter")
    boxes = page.locator("input[name=chosen][type=checkbox]")
    expect(boxes.first).to_be_visible()
    everything = boxes.count()
    page.goto(f"{served}/search?q=star&from=1880&to=1939")
    narrowed = boxes.count()
    assert 0 < narrowed < everything
    for box in boxes.all():
        box.check()
    page.get_by_label("Add to a talk").select_option(label="Stars in the browser")
    page.get_by_role("button", name="Add the quilts ticked above").click()
    page.get_by_role("status").get_by_role("link", name="Stars in the browser").click()
    expect(page.locator("#programme .turn")).to_have_count(narrowed)

    page.get_by_role("link", name="Edit", exact=True).click()
    page.locator("[name=items-0-minutes]").fill("12")
    page.locator("[name=items-0-notes]").fill("Hold up the **back** first.")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#programme")).to_contain_text("12 minutes in all")
    expect(page.locator("#programme strong")).to_have_text("back")

    address = page.get_by_role("link", name="Speaker's sheet on Letter, PDF").get_attribute("href")
    answer = page.request.get(served + (address or ""))
    reader = PdfReader(io.BytesIO(answer.body()))
    assert [round(float(side)) for side in reader.pages[0].mediabox[2:]] == [612, 792]
    text = " ".join(each.extract_text() for each in reader.pages)
    assert "Stars in the browser" in text
    assert "12 min" in text


def test_items_are_put_in_order_by_keyboard(
    member_page: Page, served: str, sample: Collection
) -> None:
    member_page.goto(served + begin(sample, "One", "Two", "Three"))
    handle = member_page.get_by_role("button", name=re.compile("Move “Three”, 3 of 3"))
    handle.focus()
    member_page.keyboard.press("Alt+ArrowUp")
    moved = member_page.get_by_role("button", name=re.compile("Move “Three”, 2 of 3"))
    expect(moved).to_be_focused()
    member_page.keyboard.press("Alt+ArrowUp")
    expect(member_page.get_by_role("button", name=re.compile("Three”, 1 of 3"))).to_be_focused()
    assert order(member_page) == ["Three", "One", "Two"]
    clocks = member_page.locator("#programme .clock").all_inner_texts()
    assert [clock.split("\n")[0] for clock in clocks] == ["2:00 pm", "2:05 pm", "2:10 pm"]
    member_page.reload()
    assert order(member_page) == ["Three", "One", "Two"]


def test_items_are_put_in_order_by_mouse(
    member_page: Page, served: str, sample: Collection
) -> None:
    member_page.goto(served + begin(sample, "One", "Two", "Three"))
    handle = member_page.get_by_role("button", name=re.compile("Move “Three”, 3"))
    first = member_page.locator("#programme .turn").first
    handle.drag_to(first, target_position={"x": 60, "y": 4})
    expect(member_page.get_by_role("button", name=re.compile("Three”, 1 of 3"))).to_be_visible()
    assert order(member_page) == ["Three", "One", "Two"]
    member_page.reload()
    assert order(member_page) == ["Three", "One", "Two"]


def test_without_script_items_are_put_in_order_by_buttons_and_numbers(
    browser: Browser, served: str, sample: Collection
) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    keeper = accounts.add(sample.database, "Tess", "keeper")
    page.goto(f"{served}/sign-in/{accounts.make_link_token(sample.database, keeper)}")
    page.goto(served + begin(sample, "One", "Two", "Three"))
    page.get_by_role("button", name="Move “Two” up").click()
    assert order(page) == ["Two", "One", "Three"]
    page.get_by_label("Place of “Three”").fill("1")
    page.get_by_role("button", name="Put in the order of these numbers").click()
    assert order(page) == ["Three", "Two", "One"]
    context.close()


KEYS = [("ArrowRight", 2), ("PageDown", 3), (" ", 4), ("ArrowLeft", 3), ("End", 10), ("Home", 1)]


def test_slides_are_run_by_keyboard(page: Page, served: str) -> None:
    page.set_viewport_size({"width": 1280, "height": 720})
    page.goto(f"{served}/talks/1/slides")
    for key, number in KEYS:
        page.keyboard.press(key)
        slide = page.locator(f"#slide-{number}")
        expect(slide).to_be_focused()
        expect(slide).to_be_in_viewport(ratio=0.9)
        assert page.url.endswith(f"#slide-{number}")
    page.keyboard.press("ArrowUp")  # there is none before the first
    expect(page.locator("#slide-1")).to_be_focused()
    page.keyboard.press("Escape")
    expect(page).to_have_url(f"{served}/talks/1")


def test_every_picture_of_the_slides_is_seen_whole_with_its_credit(page: Page, served: str) -> None:
    page.set_viewport_size({"width": 1280, "height": 720})
    page.goto(f"{served}/talks/1/slides")
    pictured = page.locator(".slide.pictured")
    assert pictured.count() == 3
    for slide in pictured.all():
        slide.scroll_into_view_if_needed()
        picture = slide.locator("img")
        expect(picture).to_be_visible()
        page.wait_for_function(
            "img => img.complete && img.naturalWidth > 0", arg=picture.element_handle()
        )
        box, room = picture.bounding_box(), slide.bounding_box()
        assert box is not None
        assert room is not None
        assert box["height"] <= 720 - 90
        assert room["height"] == pytest.approx(720, abs=1)
        expect(slide.locator(".credit")).to_contain_text("Dele Akande; CC0")


def test_without_script_slides_are_turned_by_links(browser: Browser, served: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}/talks/1/slides")
    page.locator("#slide-1").get_by_role("link", name="Next slide").click()
    expect(page.locator("#slide-2")).to_be_in_viewport(ratio=0.9)
    page.locator("#slide-2").get_by_role("link", name="Slide before").click()
    expect(page.locator("#slide-1")).to_be_in_viewport(ratio=0.9)
    context.close()
