"""A real browser over a served sample collection; skipped where chromium is not found."""

from __future__ import annotations

import os
import shutil
import socket
import threading
from collections.abc import Callable, Iterator

import pytest
import waitress.server
from flask import Flask
from playwright.sync_api import Browser, Page, sync_playwright

from catalogue.collection import accounts
from catalogue.collection.folder import Collection

FLAGS = [
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync", "--no-first-run"),
]


def find_chromium() -> str | None:
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
    return os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, names)), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One browser for all tests. Where BROWSER_TESTS=required, its absence is a failure."""
    chromium = find_chromium()
    if chromium is None:
        if os.environ.get("BROWSER_TESTS") == "required":
            pytest.fail("chromium is not installed, and the browser tests are required here")
        pytest.skip("chromium is not installed")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def served(sample_app: Flask) -> Iterator[str]:
    """The address at which the sample collection is served."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    server = waitress.server.create_server(sample_app, sockets=[listening], threads=4)
    threading.Thread(target=server.run, daemon=True).start()
    yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    server.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A fresh visitor's page."""
    context = browser.new_context()
    yield context.new_page()
    context.close()


@pytest.fixture
def sign_in_link(served: str, sample: Collection) -> Callable[[], str]:
    """Makes the keeper's links, each of which signs in once."""
    keeper = accounts.add(sample.database, "Tess", "keeper")
    return lambda: f"{served}/sign-in/{accounts.make_link_token(sample.database, keeper)}"


@pytest.fixture
def member_page(page: Page, sign_in_link: Callable[[], str]) -> Page:
    """A page on which a member is signed in."""
    page.goto(sign_in_link())
    return page
