"""Take a picture of every page at three widths, light and dark, to be looked at.

    python tests/browser/look.py [folder for the pictures] [word in the address ...]

The sample collection is made in a temporary folder.
"""

from __future__ import annotations

import re
import sys
import tempfile
import threading
from pathlib import Path

import waitress.server
from conftest import FLAGS, find_chromium
from pages import MEMBERS, PUBLIC
from playwright.sync_api import Browser, sync_playwright

from catalogue import shipped
from catalogue.collection import accounts
from catalogue.collection.folder import Collection
from catalogue.exchange.sample import load_sample
from catalogue.web import create_app

WIDTHS = (360, 768, 1280)


def main(pictures: Path, wanted: list[str]) -> None:
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        collection = Collection.create(Path(name) / "collection")
        load_sample(collection, shipped.folder("sample_collection"), lambda _: None)
        server = waitress.server.create_server(create_app(collection), port=0)
        threading.Thread(target=server.run, daemon=True).start()
        base = f"http://127.0.0.1:{server.effective_port}"
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=FLAGS)
        for width in WIDTHS:
            for scheme in ("light", "dark"):
                look(browser, collection, base, pictures / f"{width}-{scheme}", width, wanted)
        browser.close()


def look(
    browser: Browser, collection: Collection, base: str, folder: Path, width: int, wanted: list[str]
) -> None:
    """Picture every page at one width in one colour scheme."""
    folder.mkdir(parents=True, exist_ok=True)
    context = browser.new_context(
        viewport={"width": width, "height": 900},
        color_scheme="dark" if folder.name.endswith("dark") else "light",
    )
    page = context.new_page()
    keeper = accounts.add(collection.database, "Tess", "keeper")
    for who, paths in (("visitor", PUBLIC), ("member", MEMBERS)):
        if who == "member":
            token = accounts.make_link_token(collection.database, keeper)
            page.goto(f"{base}/sign-in/{token}")
        for path in paths:
            if not wanted or any(word in path for word in wanted):
                page.goto(base + path, wait_until="networkidle")
                name = re.sub(r"\W+", "-", path).strip("-") or "first"
                page.screenshot(path=folder / f"{who}-{name}.png", full_page=True)
    context.close()
    print(folder, flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "screenshots"), sys.argv[2:])
