"""Every page: no accessibility violation in light and dark, nothing wider than a telephone.

Checked against WCAG 2.2 level AA by axe-core, as packaged by axe-playwright-python.
"""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from pages import MEMBERS, PUBLIC
from playwright.sync_api import Browser, Page

from catalogue.collection import accounts
from catalogue.collection.folder import Collection

pytestmark = pytest.mark.browser

RULES = {
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }
}


def violations(page: Page) -> list[str]:
    found = Axe().run(page, options=RULES).response["violations"]
    return [
        f"{each['id']}: {each['help']}: {node['html'][:160]}"
        for each in found
        for node in each["nodes"]
    ]


def too_wide(page: Page) -> int:
    """Return by how many pixels the page can be scrolled sideways."""
    return int(
        page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    )


def pages_to_look_at() -> list[tuple[str, bool]]:
    return [*((path, False) for path in PUBLIC), *((path, True) for path in MEMBERS)]


@pytest.mark.parametrize(
    ("width", "scheme"),
    [
        (360, "light"),
        pytest.param(768, "light", marks=pytest.mark.long),
        pytest.param(1280, "light", marks=pytest.mark.long),
        (1280, "dark"),
    ],
)
def test_no_page_has_a_violation_or_scrolls_sideways(
    browser: Browser, served: str, sample: Collection, width: int, scheme: str
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 800},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page = context.new_page()
    faults = []
    for path, as_member in sorted(pages_to_look_at(), key=lambda each: each[1]):
        if as_member and not context.cookies():
            keeper = accounts.add(sample.database, "Tess", "keeper")
            page.goto(f"{served}/sign-in/{accounts.make_link_token(sample.database, keeper)}")
        page.goto(served + path)
        wide = too_wide(page)
        faults += [f"{path}: {wide} px too wide"] if wide > 0 else []
        if width != 768:  # the rules look at both ends; the middle is looked at for its width
            faults += [f"{path}: {violation}" for violation in violations(page)]
    context.close()
    assert not faults, "\n".join(faults)
