"""Photographs in a real browser: sent with progress, corners moved by keys, mouse and numbers."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from beginning import begin
from playwright.sync_api import Locator, Page, expect

from catalogue import shipped

pytestmark = pytest.mark.browser

PICTURE = shipped.folder("sample_collection") / "photographs" / "1986.7-turned.jpg"
CORNERS = "/quilts/6/photographs/8/corners"


def value(page: Page, name: str) -> float:
    return float(page.locator(f"[name={name}]").input_value())


def middle(mark: Locator) -> tuple[float, float]:
    box = mark.locator(".ring").bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_a_photograph_is_sent_and_a_second_time_only_recognised(
    member_page: Page, served: str, tmp_path: Path
) -> None:
    address = begin(member_page, served, "Photographed in a browser")
    member_page.goto(f"{address}/photographs")
    member_page.locator("#photographs").set_input_files(PICTURE)
    member_page.get_by_role("button", name="Keep them").click()
    expect(member_page.get_by_label("View")).to_be_visible()
    bad = tmp_path / "letter.jpg"
    bad.write_bytes(b"no picture")
    member_page.locator("#photographs").set_input_files([PICTURE, bad])
    member_page.get_by_role("button", name="Keep them").click()
    expect(member_page.locator("#sending")).to_contain_text("is here already")
    expect(member_page.locator("#sending")).to_contain_text("not a JPEG")


def test_what_was_cut_off_goes_on(member_page: Page, served: str) -> None:
    address = begin(member_page, served, "Cut off")
    member_page.goto(f"{address}/photographs")
    member_page.route("**/photographs/add", lambda route: route.abort())
    member_page.locator("#photographs").set_input_files(PICTURE)
    member_page.get_by_role("button", name="Keep them").click()
    expect(member_page.locator("#sending")).to_contain_text("cut off")
    member_page.unroute("**/photographs/add")
    member_page.get_by_role("button", name="Go on with 1").click()
    expect(member_page.get_by_label("View")).to_be_visible()


@pytest.mark.parametrize(
    ("status", "says"), [(413, "too large to be sent"), (503, "could not be kept just now")]
)
def test_a_refusal_is_no_lost_connection(
    member_page: Page, served: str, status: int, says: str
) -> None:
    address = begin(member_page, served, f"Refused with {status}")
    member_page.goto(f"{address}/photographs")
    member_page.route("**/photographs/add", lambda route: route.fulfill(status=status, body="no"))
    member_page.locator("#photographs").set_input_files(PICTURE)
    member_page.get_by_role("button", name="Keep them").click()
    expect(member_page.locator("#sending")).to_contain_text(says)
    member_page.unroute("**/photographs/add")


def test_what_is_typed_below_stays_while_another_photograph_is_sent(
    member_page: Page, served: str, tmp_path: Path
) -> None:
    address = begin(member_page, served, "Typed below")
    member_page.goto(f"{address}/photographs")
    member_page.locator("#photographs").set_input_files(PICTURE)
    member_page.get_by_role("button", name="Keep them").click()
    member_page.get_by_label("Caption").first.fill("The basket that is on its head")
    sent = []
    member_page.on("request", lambda asked: sent.append(asked.url) if "/add" in asked.url else None)
    another = PICTURE.with_name("1986.7-overall.jpg")
    member_page.locator("#photographs").set_input_files(another)
    member_page.get_by_role("button", name="Keep them").click()
    expect(member_page.get_by_role("link", name="Show them")).to_be_visible()
    expect(member_page.get_by_label("Caption").first).to_have_value(
        "The basket that is on its head"
    )
    assert len(sent) == 1


def test_a_corner_outside_of_the_picture_moves_on_from_there(
    member_page: Page, served: str
) -> None:
    member_page.goto(served + CORNERS)
    member_page.locator("[name=corner0-x]").fill("-30")
    member_page.get_by_role("button", name=re.compile("^top left")).focus()
    member_page.keyboard.press("ArrowDown")
    assert value(member_page, "corner0-x") == -30


def test_a_corner_is_moved_by_the_arrow_keys(member_page: Page, served: str) -> None:
    member_page.goto(served + CORNERS)
    before = value(member_page, "corner0-x")
    mark = member_page.get_by_role("button", name=re.compile("^top left"))
    mark.focus()
    member_page.keyboard.press("ArrowRight")
    assert value(member_page, "corner0-x") == pytest.approx(before + 1.6, abs=0.1)
    member_page.keyboard.press("Shift+ArrowLeft")
    assert value(member_page, "corner0-x") == pytest.approx(before - 14.4, abs=0.1)


def test_a_corner_is_moved_by_the_mouse_and_the_outline_follows(
    member_page: Page, served: str
) -> None:
    member_page.goto(served + CORNERS)
    mark = member_page.get_by_role("button", name=re.compile("^bottom right"))
    mark.scroll_into_view_if_needed()
    before, outline = value(member_page, "corner2-x"), member_page.locator("[data-through]")
    drawn = outline.get_attribute("points")
    x, y = middle(mark)
    member_page.mouse.move(x, y)
    member_page.mouse.down()
    member_page.mouse.move(x - 40, y - 25, steps=4)
    member_page.mouse.up()
    assert value(member_page, "corner2-x") < before - 20
    assert middle(mark) == pytest.approx((x - 40, y - 25), abs=1.5)
    assert outline.get_attribute("points") != drawn


def test_a_typed_corner_moves_its_mark_and_is_kept(member_page: Page, served: str) -> None:
    member_page.goto(served + CORNERS)
    mark = member_page.get_by_role("button", name=re.compile("^top left"))
    x, _ = middle(mark)
    before = member_page.locator("[name=corner0-x]").input_value()
    member_page.locator("[name=corner0-x]").fill("180")
    assert middle(mark)[0] > x + 10
    member_page.locator("[name=corner0-x]").fill(before)
    member_page.get_by_role("button", name="Keep these corners").click()
    expect(member_page.get_by_text("The corners are kept")).to_be_visible()


def test_a_distance_is_told_while_its_ends_are_moved(member_page: Page, served: str) -> None:
    member_page.goto(f"{served}/quilts/6/photographs/8/read")
    says = member_page.locator("#distance")
    expect(says).to_contain_text("±")
    before = says.text_content() or ""
    member_page.get_by_role("button", name=re.compile("^to,")).focus()
    member_page.keyboard.press("Shift+ArrowLeft")
    expect(says).not_to_have_text(before)
    expect(says).to_contain_text("±")
